"""A case put into reasons: what holds, what runs out soon, what is missing, what did not count."""

from collections.abc import Iterator

from app.records.events import Decided
from app.records.standing.case import Case
from app.records.standing.clocks import Update
from app.records.standing.grants import Asked, Support, support
from app.records.standing.reasons import NotCounted, Reason, because


def reasons_of(case: Case) -> tuple[Reason, ...]:
    """All reasons that hold, in the order of rule 11; for a current standing, the grant."""
    found = [*_against(case)]
    if case.good is None and case.revoked is None:
        found += _lacking(case)
    if not found and case.good is not None:
        found = [_by("granted", case.good.grant)]
    return tuple(found)


def _against(case: Case) -> Iterator[Reason]:
    if case.revoked is not None:
        yield _by("revoked", case.revoked)
    if case.suspended is not None:
        yield _by("suspended", case.suspended)
    if case.valid_to is not None and case.as_of > case.valid_to:
        yield because("expired", on=case.valid_to)
    if case.active_to is not None and case.as_of > case.active_to:
        yield because("lapsed", on=case.active_to)
    for update in case.outdated:
        if case.as_of > update.due:
            yield _update("update-needed", update)


def _lacking(case: Case) -> Iterator[Reason]:
    """Why no grant stands: what the newest one lacked, or that there is none."""
    if not case.grants:
        yield because("not-granted")
        return
    newest = case.grants[-1]
    for gap in newest.support.gaps:
        yield Reason(code=gap.code, params=gap.params, events=(newest.grant.id, *gap.events))


def warnings_of(case: Case) -> tuple[Reason, ...]:
    """What runs out within due_soon_days, and training due within its grace."""
    return () if case.revoked is not None else tuple(_warnings(case))


def _warnings(case: Case) -> Iterator[Reason]:
    for code, day in (("expires-soon", case.valid_to), ("continuity-due", case.active_to)):
        if day is not None and 0 <= (day - case.as_of).days <= case.rule.due_soon_days:
            yield because(code, on=day)
    for update in case.outdated:
        if case.as_of <= update.due:
            yield _update("update-due", update)


def missing_in(case: Case, reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """What would make the standing current; empty when it is."""
    return tuple(_missing(case, reasons))


def _missing(case: Case, reasons: tuple[Reason, ...]) -> Iterator[Reason]:
    codes = {reason.code for reason in reasons}
    if "suspended" in codes:
        yield because("lift-needed")
    if case.good is None or codes & {"revoked", "expired"}:
        yield from _support_today(case).gaps
        yield because("grant-needed")
    elif "lapsed" in codes:
        yield because("practical-needed")
    for reason in reasons:
        if reason.code == "update-needed":
            yield Reason(code="training-needed", params=reason.params, events=reason.events)


def _support_today(case: Case) -> Support:
    asked = Asked(case.settled, case.rule, case.person, case.as_of, None)
    return support(asked, case.counted)


def not_counted_in(case: Case) -> tuple[NotCounted, ...]:
    """The person's records that did not count, each with why."""
    found = [*_void(case), *case.counted.not_counted, *case.too_late]
    for judged in case.grants:
        if not judged.stands:
            found.append(NotCounted(event=judged.grant.id, whys=judged.support.gaps))
    if case.good is None:
        newest = case.grants[-1].support if case.grants else _support_today(case)
        found += newest.set_aside
    return tuple(found)


def _void(case: Case) -> Iterator[NotCounted]:
    """The person's void records that bear on this qualification."""
    settled = case.settled
    for event in settled.by_person.get(settled.who(case.person), ()):
        entry = settled.voided.get(event.id)
        bears = event.qualification in ("", case.rule.id)
        if entry is not None and bears and event.occurred_on <= case.as_of:
            yield NotCounted(event=event.id, whys=(because("voided", (entry,)),))


def _by(code: str, event: Decided) -> Reason:
    return because(code, (event.id,), on=event.occurred_on, decider=event.decider)


def _update(code: str, update: Update) -> Reason:
    return because(
        code,
        (update.revision.id,),
        module=update.module,
        revision=update.newest,
        on=update.revision.occurred_on,
        by=update.due,
    )
