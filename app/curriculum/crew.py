"""PURE. Which hands a job needs, as content/crew.yaml says it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from app.curriculum.text import Frozen, Id, Text


class Hand(Frozen):
    """A hand a job needs: a qualification, and how many people. `one` names it in a sentence.

    `beside`: whoever fills another hand may do this one as well; otherwise it needs a person of
    its own.
    """

    qualification: Id
    one: Text
    count: Annotated[int, Field(ge=1, le=20)] = 1
    beside: bool = False


Hands = Annotated[tuple[Hand, ...], Field(min_length=1)]


class HandSet(Frozen):
    """The hands of one kind of job, in the order in which they are filled."""

    id: Id
    title: Text
    hands: Hands


class ForEveryone(Frozen):
    """A module that each person on a job must have shown; `quiz_months`: oldest quiz."""

    module: Id
    title: Text
    quiz_months: Annotated[int, Field(ge=1)]


class JobNeeds(Frozen):
    """What one job needs: the hands of one set; `title` is None where there is only one, unnamed.

    Example: ``needs.of("two-pumps").hands``.
    """

    crew_version: str
    everyone: tuple[ForEveryone, ...]
    set_id: str
    title: Text | None
    hands: Hands


class CrewNeeds(Frozen):
    """What jobs need: several sets of hands, one of them for jobs that do not say which.

    Policies approved before there were sets have `hands` and nothing else; they stay readable.
    """

    crew_version: str
    everyone: tuple[ForEveryone, ...]
    hands: Hands | None = None
    sets: Annotated[tuple[HandSet, ...], Field(min_length=1)] | None = None
    default: Id | None = None

    def of(self, set_id: str) -> JobNeeds | None:
        """The needs of a set by its id, of the default one for ""; None for an unknown id."""
        if self.hands is not None:
            return self._needs("", None, self.hands) if not set_id else None
        for one in self.sets or ():
            if one.id == (set_id or self.default):
                return self._needs(one.id, one.title, one.hands)
        return None

    def _needs(self, set_id: str, title: Text | None, hands: tuple[Hand, ...]) -> JobNeeds:
        return JobNeeds(
            crew_version=self.crew_version,
            everyone=self.everyone,
            set_id=set_id,
            title=title,
            hands=hands,
        )

    def for_job(self, set_id: str) -> JobNeeds:
        """The needs of the set a job names, or of the default one where there is no such set."""
        found = self.of(set_id) or self.of("")
        assert found is not None  # the loader sees to it
        return found
