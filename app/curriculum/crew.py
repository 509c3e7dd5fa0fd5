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


class ForEveryone(Frozen):
    """A module that each person on a job must have shown; `quiz_months`: oldest quiz."""

    module: Id
    title: Text
    quiz_months: Annotated[int, Field(ge=1)]


class CrewNeeds(Frozen):
    """What every job needs, in the order in which hands are filled."""

    crew_version: str
    everyone: tuple[ForEveryone, ...]
    hands: Annotated[tuple[Hand, ...], Field(min_length=1)]
