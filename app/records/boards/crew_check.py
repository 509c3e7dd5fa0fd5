"""Whether a crew can do a job: who fills which hand, what is missing, who could cover it.

PURE. One person fills one hand, because all are needed at the same time; only hands "beside" may
be filled by somebody who fills another. The first kind is a maximum matching of places and people,
found by augmenting paths (Berge 1957), place by place in the order of the needs: so as many places
as possible are filled, and of all ways to do that, the one that fills the earlier places.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from app.curriculum.crew import Hand

Able = Mapping[str, Collection[str]]  # person -> qualifications they hold on the day, in order


@dataclass(frozen=True, slots=True)
class Could:
    """Somebody outside the crew who would cover what is missing, and the hand they would take.

    takes: the missing qualification itself, or another, with the crew's hands changed round.
    """

    person: str
    takes: str


@dataclass(frozen=True, slots=True)
class Covered:
    """One hand: by whom it is filled, how many people it lacks, who could cover that."""

    hand: Hand
    by: tuple[str, ...]
    lacking: int
    could: tuple[Could, ...]


def cover(hands: Sequence[Hand], crew: Able, others: Able) -> tuple[Covered, ...]:
    """Fill the hands, in their order, from a crew of people who may be on the job.

    crew, others: people with the qualifications they hold on the day; others: outside the crew.
    Returns a Covered for each hand; the crew can do the job when none lacks anybody.
    Example: ``cover(hands, {"J": {"lead-injector"}}, {"K": {"pump-operator"}})[1].could``.
    """
    filled = _filled([hand for hand in hands if not hand.beside], crew)
    takers = {person: name for name, people in filled.items() for person in people}
    found = []
    for hand in hands:
        by = filled[hand.qualification] if not hand.beside else _beside(hand, crew, takers)
        lacking = hand.count - len(by)
        could: tuple[Could, ...] = ()
        if lacking and hand.beside:
            could = tuple(_holding(hand.qualification, others))
        elif lacking:
            could = tuple(_could(hand.qualification, crew, others, takers))
        found.append(Covered(hand, tuple(by), lacking, could))
    return tuple(found)


def _filled(hands: Sequence[Hand], crew: Able) -> dict[str, list[str]]:
    """Qualification -> the people who fill its places, by a maximum matching."""
    places = [hand.qualification for hand in hands for _ in range(hand.count)]
    taken: dict[str, int] = {}  # person -> place

    def place_somebody(place: int, asked: set[str]) -> bool:
        """Find somebody for a place, moving others on where that helps."""
        for person, holds in crew.items():
            if places[place] not in holds or person in asked:
                continue
            asked.add(person)
            if person not in taken or place_somebody(taken[person], asked):
                taken[person] = place
                return True
        return False

    for place in range(len(places)):
        place_somebody(place, set())
    filled: dict[str, list[str]] = {hand.qualification: [] for hand in hands}
    for person in crew:
        if person in taken:
            filled[places[taken[person]]].append(person)
    return filled


def _beside(hand: Hand, crew: Able, takers: Mapping[str, str]) -> list[str]:
    """Who fills a hand beside others: those with no hand of their own first."""
    able = [person for person, holds in crew.items() if hand.qualification in holds]
    return sorted(able, key=lambda person: person in takers)[: hand.count]


def _holding(qualification: str, others: Able) -> Iterator[Could]:
    return (Could(p, qualification) for p, holds in others.items() if qualification in holds)


def _could(missing: str, crew: Able, others: Able, takers: Mapping[str, str]) -> Iterator[Could]:
    """Who, added to the crew, lets one more place be filled: this one.

    Whoever holds the missing qualification; or one whose holder in the crew can move to it.
    """
    open_to = [missing]  # grows: hands that may be freed by moving people towards the missing one
    for name in open_to:
        for person, holds in crew.items():
            if name in holds and takers.get(person, missing) not in open_to:
                open_to.append(takers[person])
    for place, name in enumerate(open_to):
        for one in _holding(name, others):
            if not any(earlier in others[one.person] for earlier in open_to[:place]):
                yield one
