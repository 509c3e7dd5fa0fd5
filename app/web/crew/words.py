"""The answer of the crew check as sentences, the page's language's, names instead of ids."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from flask_babel import gettext as _
from flask_babel import ngettext

from app.curriculum.crew import ForEveryone, Hand, JobNeeds
from app.records.boards.crew_check import Could, Covered
from app.records.boards.crew_members import CrewMember
from app.records.standing.reasons import Reason
from app.web.crew.pages import Candidate, CrewAnswer, runs_out_on
from app.web.reason_words import Line, ReasonWords
from app.web.two_clocks import Clocks

MOST_NAMED = 12
MOST_REASONS = 2


@dataclass(frozen=True, slots=True)
class Cell:
    """What a person has shown of one thing: a standing's word, and why, or how long it is good."""

    status: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CrewWords:
    """Tells a crew's answer."""

    words: ReasonWords
    needs: JobNeeds

    def verdict(self, answer: CrewAnswer, clocks: Clocks) -> Line:
        """The answer in one sentence, with its symbol."""
        day = self.words.show_day(clocks.as_of)
        if answer.may_work:
            return "yes", _("This crew can do the job on %(day)s.", day=day)
        return "no", _("This crew can't do the job on %(day)s.", day=day)

    def missing(self, answer: CrewAnswer) -> Iterator[Line]:
        """What is missing, why nobody of the crew stands in, and who could cover it."""
        for one in answer.covered:
            if one.lacking:
                yield "no", " ".join(self._about(one, answer))
        for shown in self.needs.everyone:
            without = [m.person for m in answer.members if m.gaps[shown.module]]
            if without:
                yield "stop", self._not_shown(shown, without)
        if answer.could_without:
            yield "yes", _("Without them this crew can do the job.")

    def _about(self, one: Covered, answer: CrewAnswer) -> Iterator[str]:
        hand = self._one(one.hand)
        if one.lacking == 1:
            yield _("Missing: %(hand)s.", hand=hand)
        else:
            yield _("Missing: %(hand)s, %(count)s times.", hand=hand, count=one.lacking)
        for member in answer.members:
            taken = answer.takes(member.person)
            is_elsewhere = bool(taken) and one.hand.qualification not in taken
            if member.is_ready and one.hand.qualification in member.holds and is_elsewhere:
                yield _(
                    "%(name)s is one too, but is needed as %(hand)s, and nobody can be in two "
                    "places.",
                    name=self.name(member.person),
                    hand=self._named(taken[0]),
                )
        yield from self._could(one)

    def _could(self, one: Covered) -> Iterator[str]:
        if not one.could:
            yield _("Nobody outside this crew could cover it on that day.")
            return
        straight = [c for c in one.could if c.takes == one.hand.qualification]
        if straight:
            yield _("Could cover it: %(names)s.", names=self._names(straight))
        for name in dict.fromkeys(c.takes for c in one.could):
            if name != one.hand.qualification:
                moved = [c for c in one.could if c.takes == name]
                yield _(
                    "If the crew changes places, as %(hand)s: %(names)s.",
                    hand=self._named(name),
                    names=self._names(moved),
                )

    def _names(self, could: list[Could]) -> str:
        named = ", ".join(self.name(one.person) for one in could[:MOST_NAMED])
        more = len(could) - MOST_NAMED
        if more <= 0:
            return named
        return ngettext("%(names)s and one more", "%(names)s and %(num)s more", more, names=named)

    def _not_shown(self, one: ForEveryone, people: list[str]) -> str:
        return _(
            "Everyone on the job must have shown this: %(title)s. May not come along yet: "
            "%(names)s. The table says why.",
            title=one.title.in_language(self.words.language),
            names=", ".join(self.name(person) for person in people),
        )

    def next_out(self, answer: CrewAnswer) -> str:
        """What runs out first in this crew; empty where nothing does."""
        if not answer.next_out:
            return ""
        first = answer.next_out[0]
        return _(
            "Runs out first in this crew: %(name)s, %(qualification)s, after %(day)s.",
            name=self.name(first.person),
            qualification=self.words.qualification(first.qualification),
            day=self.words.show_day(first.on),
        )

    def name(self, person: str) -> str:
        """The person's printed name."""
        return self.words.names.get(person, person)

    def choice(self, one: Candidate) -> str:
        """A tick's words: the name, and what of the hands they can fill."""
        held = ", ".join(self.words.qualification(name) for name in one.holds)
        return f"{one.person.name} · {held}" if held else one.person.name

    def set_title(self) -> str:
        """What the set of hands is called; empty where there is only one."""
        title = self.needs.title
        return title.in_language(self.words.language) if title else ""

    def filled_by(self, one: Covered) -> str:
        """The names in a hand."""
        return ", ".join(self.name(person) for person in one.by)

    def takes(self, member: CrewMember, answer: CrewAnswer) -> str:
        """The hands a person fills, or that they only come along."""
        taken = [self.words.qualification(name) for name in answer.takes(member.person)]
        if taken:
            return ", ".join(taken)
        return _("Helps") if member.is_ready else _("May not come")

    def cells(self, member: CrewMember) -> list[Cell]:
        """One cell for each hand, then one for each thing that everyone must show."""
        return [
            *(self._hand_cell(member, hand) for hand in self.needs.hands),
            *(self._module_cell(member.gaps[one.module]) for one in self.needs.everyone),
        ]

    def _hand_cell(self, member: CrewMember, hand: Hand) -> Cell:
        standing = member.standings[hand.qualification]
        if not standing.is_current:
            return Cell(standing.status, self._why(standing.reasons))
        last = runs_out_on(standing)
        good = (_("good through %(day)s", day=self.words.show_day(last)),) if last else ()
        return Cell("due-soon" if standing.warnings else "current", good)

    def _module_cell(self, gaps: Iterable[Reason]) -> Cell:
        told = self._why(gaps)
        return Cell("not-qualified" if told else "current", told)

    def _why(self, reasons: Iterable[Reason]) -> tuple[str, ...]:
        """The deciding reasons as sentences, as many as a cell takes."""
        told = list(dict.fromkeys(self.words.sentence(reason) for reason in reasons))
        more = len(told) - MOST_REASONS
        if more <= 0:
            return tuple(told)
        rest = ngettext("and one more reason", "and %(num)s more reasons", more)
        return (*told[:MOST_REASONS], rest)

    def _one(self, hand: Hand) -> str:
        return hand.one.in_language(self.words.language)

    def _named(self, qualification: str) -> str:
        return next(self._one(h) for h in self.needs.hands if h.qualification == qualification)
