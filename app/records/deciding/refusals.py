"""Why an act is refused: the class name is the reason, the sentence is for the page."""

from app.trade.errors import Refusal


class SelfSignOff(Refusal):
    """Nobody signs for themselves."""

    template = "You cannot sign off yourself."


class TrainerNotAuthorised(Refusal):
    """The trainer may not sign for this qualification on that day."""

    template = "This trainer was not authorised for {qualification} on {on}."


class DeciderIsPerson(Refusal):
    """A safety officer decides about themselves."""

    template = "You cannot decide about yourself."


class DeciderWasTrainer(Refusal):
    """The evidence suffices only with what the decider taught, examined or signed."""

    template = (
        "You trained or signed off this person, and the other evidence is not enough: {what} "
        "Another safety officer has to decide."
    )


class EvidenceMissing(Refusal):
    """A grant without all that the policy asks for. `places["gaps"]` holds the reasons."""

    template = "The evidence is not complete. {what}"


class PrerequisiteMissing(Refusal):
    """Another qualification must be current first."""

    template = "First this must be current: {missing}."


class DatedInFuture(Refusal):
    """A day that has not come yet where it happened."""

    template = "{on} is in the future."


class AlreadyRecorded(Refusal):
    """The same thing is in the records already."""

    template = "This is already in the records ({id})."


class ReasonMissing(Refusal):
    """An act that needs a reason came without one."""

    template = "Write the reason."


class StepReasonMissing(Refusal):
    """A critical step does not apply, and nobody said why."""

    template = "Write why the critical step {step} does not apply."


class NoCriticalStep(Refusal):
    """No critical step applied: nothing decisive was shown."""

    template = "No critical step applied, so this is not a supervised repair."


class SignedBySomeoneElse(Refusal):
    """The person signing is not the trainer of the record."""

    template = "Only the trainer who watched can sign."


class ImpossibleCount(Refusal):
    """A quiz result that cannot be."""

    template = "{right} right of {asked} asked is not possible."


class NotLate(Refusal):
    """A countersign where none is needed."""

    template = "This record came in on time and needs no countersign."


class NotTheWorker(Refusal):
    """Somebody else's word where only the person who was watched can say that they did it."""

    template = "Only the person who was watched can confirm this repair."


class WorkerNotAsked(Refusal):
    """The rule of the qualification asks for no word of the person who was watched."""

    template = "Nobody is asked to confirm repairs for this qualification."


class NothingToLift(Refusal):
    """There is no suspension."""

    template = "This qualification is not suspended."


class AlreadySuspended(Refusal):
    """There is a suspension already."""

    template = "This qualification is already suspended."


class NothingToRevoke(Refusal):
    """Never granted, or revoked already."""

    template = "There is no grant to revoke."


class AlreadyAuthorised(Refusal):
    """The trainer may sign already."""

    template = "This trainer is already authorised for {qualification}."


class NothingToWithdraw(Refusal):
    """The trainer may not sign anyway."""

    template = "This trainer is not authorised for {qualification}."


class RevisionNotNew(Refusal):
    """A revision number that does not go up."""

    template = "Revision {revision} is not above revision {newest}, which is already recorded."


class NoSuchRecord(Refusal):
    """The record to be countered or countersigned is not there."""

    template = "There is no such record: {id}."


class AlreadyVoid(Refusal):
    """The record to be countered is void."""

    template = "This record is already void."


class AlreadyMerged(Refusal):
    """The two ids are one person already."""

    template = "These two are already one person."


class SamePerson(Refusal):
    """A person cannot be merged with themselves."""

    template = "Choose two different people."


class RevisionBackdated(Refusal):
    """A revision from an earlier day than the one before it: both would be in force at once."""

    template = "Revision {revision} is in force from {on}. Choose that day or a later one."


class AuthorMissing(Refusal):
    """Nobody knows who wrote the text."""

    template = "Say who wrote it."


class AuthorApproves(Refusal):
    """Whoever wrote a text approves it."""

    template = "You wrote this text. Another safety officer has to approve it."


class TextApproved(Refusal):
    """The very same text is approved already."""

    template = "This text is approved already. Nothing in its files has changed since."


class BeforeApproval(Refusal):
    """A text in force on a day before it was approved."""

    template = "A text can't be in force before it is approved. Choose today or a later day."


class TooFarAhead(Refusal):
    """A day in force that nobody will remember."""

    template = "Choose a day within a year from now."


class LabelNotNew(Refusal):
    """Another policy under a version that is approved already."""

    template = "A policy called {label} is approved already. Give this one a new policy_version."


class NeedsSecondOfficer(Refusal):
    """A correction that raises a standing, by one person alone."""

    template = (
        "This would raise a standing. One safety officer has to propose it, and another one has to "
        "confirm it. Until then it does not count."
    )


class SecondIsFirst(Refusal):
    """Somebody confirms what they proposed."""

    template = "You proposed this. Another safety officer has to confirm it."


class ProposalClosed(Refusal):
    """A proposal that was confirmed or withdrawn."""

    template = "This proposal is closed: it was confirmed or withdrawn."


class NameAlreadyErased(Refusal):
    """A name that is gone."""

    template = "This name is erased already."
