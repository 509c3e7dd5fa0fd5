"""PURE. The two kinds of question as they stand in questions.yaml."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from app.curriculum.text import Exact, Frozen, Id, Name, Text

Tolerance = Annotated[Exact, Field(ge=0)]


class Option(Frozen):
    """One answer to tick; `feedback` says why a wrong one is wrong."""

    id: Id
    text: Text
    right: bool = False
    feedback: Text | None = None


class ChoiceQuestion(Frozen):
    """A question with exactly one right option."""

    id: Id
    kind: Literal["choice"]
    version: Annotated[int, Field(ge=1)]
    must_know: bool = False
    text: Text
    options: Annotated[tuple[Option, ...], Field(min_length=2, max_length=6)]
    explanation: Text
    source: Id | None = None

    @model_validator(mode="after")
    def _one_right(self) -> Self:
        right = sum(option.right for option in self.options)
        if right != 1:
            raise ValueError(f"exactly one option must be right, {right} are")
        if len({option.id for option in self.options}) != len(self.options):
            raise ValueError("two options have the same id")
        for option in self.options:
            if not option.right and option.feedback is None:
                raise ValueError(f"option {option.id}: a wrong option needs its feedback")
        return self

    def right_option(self) -> Option:
        """The option that is right."""
        return next(option for option in self.options if option.right)


class Variable(Frozen):
    """A number drawn anew for each attempt: `choices`, or `from` … `to` by `step`, in `unit`."""

    unit: str
    choices: tuple[Exact, ...] | None = None
    first: Exact | None = Field(default=None, alias="from")
    last: Exact | None = Field(default=None, alias="to")
    step: Exact | None = None

    @model_validator(mode="after")
    def _one_form(self) -> Self:
        span = (self.first, self.last, self.step)
        if self.choices is not None:
            if any(part is not None for part in span) or not self.choices:
                raise ValueError("give either choices, or from, to and step")
            return self
        if any(part is None for part in span):
            raise ValueError("give either choices, or from, to and step")
        first, last, step = self._span()
        if step <= 0 or last < first:
            raise ValueError("from … to must rise and step must be above 0")
        if (last - first) / step > 10_000:
            raise ValueError("more than 10000 values: use a larger step")
        return self

    def values(self) -> tuple[Fraction, ...]:
        """Every value that may be drawn, in `unit`."""
        if self.choices is not None:
            return self.choices
        first, last, step = self._span()
        return tuple(first + index * step for index in range(int((last - first) / step) + 1))

    def _span(self) -> tuple[Fraction, Fraction, Fraction]:
        assert self.first is not None
        assert self.last is not None
        assert self.step is not None
        return self.first, self.last, self.step


class Answer(Frozen):
    """What is asked for: `key` is a formula in base units; tolerances decide right or wrong."""

    quantity: str
    unit: str
    key: str
    relative: Tolerance = Fraction(0)
    absolute: Tolerance = Fraction(0)

    @model_validator(mode="after")
    def _decides(self) -> Self:
        if self.quantity != "count" and self.relative == 0 and self.absolute == 0:
            raise ValueError("a measured answer needs a relative or an absolute tolerance above 0")
        return self


class Slip(Frozen):
    """A mistake people make, as a whole faulty formula, and what to say about it."""

    id: Id
    formula: str
    feedback: Text


class ComputedQuestion(Frozen):
    """An item model: the wording and the rule stay, the numbers are drawn."""

    id: Id
    kind: Literal["computed"]
    version: Annotated[int, Field(ge=1)]
    must_know: bool = False
    text: Text
    variables: Annotated[dict[Name, Variable], Field(min_length=1)]
    answer: Answer
    slips: tuple[Slip, ...] = ()
    solution: Text
    working: dict[Name, str] = Field(default_factory=dict)
    working_quantities: dict[Name, str] = Field(default_factory=dict)
    source: Id

    @model_validator(mode="after")
    def _names_differ(self) -> Self:
        if len({slip.id for slip in self.slips}) != len(self.slips):
            raise ValueError("two slips have the same id")
        clash = ({"key"} | set(self.working)) & set(self.variables) | {"key"} & set(self.working)
        if clash:
            raise ValueError(f"used twice as a name: {', '.join(sorted(clash))}")
        return self


Question = Annotated[ChoiceQuestion | ComputedQuestion, Field(discriminator="kind")]
