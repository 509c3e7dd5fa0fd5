"""Whose standing a correction would raise, and on which days, for the pages. No Flask here."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby, islice

from app.officer.telling import Telling
from app.records.deciding.raising import Rise

MOST = 40  # standings: what one page on a phone still shows well


@dataclass(frozen=True, slots=True)
class Risen:
    """One person's qualification, with its stretches of days in order."""

    person: str
    qualification: str
    rises: tuple[Rise, ...]


@dataclass(frozen=True, slots=True)
class RisePage:
    """Standings that rise, by name; is_cut: these are the first found, and there are more."""

    shown: tuple[Risen, ...]
    is_cut: bool

    @property
    def people(self) -> int:
        """How many people are shown."""
        return len({one.person for one in self.shown})


def rise_page(found: Iterable[Rise], telling: Telling, *, is_all: bool) -> RisePage:
    """Sort what rises by the person's name and the qualification's title.

    found: each person's and qualification's rises together, as rises() gives them; no more of it
    is worked out than is shown: MOST standings, or all.
    """
    every = (
        Risen(person, qualification, tuple(own))
        for (person, qualification), own in groupby(found, key=_whose)
    )
    first = list(every) if is_all else list(islice(every, MOST + 1))
    is_cut = not is_all and len(first) > MOST
    shown = sorted(
        first[:-1] if is_cut else first,
        key=lambda one: (
            telling.name(one.person).casefold(),
            one.person,
            telling.qualification(one.qualification),
        ),
    )
    return RisePage(tuple(shown), is_cut)


def _whose(rise: Rise) -> tuple[str, str]:
    return rise.person, rise.qualification
