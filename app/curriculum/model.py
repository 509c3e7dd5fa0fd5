"""PURE. What the content files say, read once at the start and frozen."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from app.curriculum.questions.items import Question
from app.curriculum.text import DEFAULT_LANGUAGE, Exact, Frozen, Id, Name, Share, Text

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
"""Signal words by ANSI Z535: death or serious injury will / could, minor injury, no injury."""

Confidence = Literal["published", "common practice", "from memory"]


class Source(Frozen):
    """Where a number comes from; `restated`: read in a second text that restates it.

    `where` names a publication as it names itself, or says in words that there is none.
    """

    title: Text
    where: Text | str
    confidence: Confidence
    restated: bool = False
    note: Text | None = None

    def place(self, language: str) -> str:
        """`where` in a language; the name of a publication is the same in all."""
        return self.where if isinstance(self.where, str) else self.where.in_language(language)


class Part(Frozen):
    """A piece of lesson prose: safe HTML to print, plain words to count, sources in order."""

    html: str
    plain: str
    source_ids: tuple[str, ...] = ()


class Figure(Frozen):
    """A line drawing ready to print inline; its own title and description are the lesson's."""

    file: str
    caption: Part
    description: str
    svg: str


class Caution(Frozen):
    """A warning with its signal word."""

    signal: Signal
    text: Part


class Step(Frozen):
    """One card of a lesson. Its facts link to `#src-<step id>-<source id>`."""

    id: Id
    number: int
    title: str
    figure: Figure | None
    cautions: tuple[Caution, ...]
    do: Part
    check: Part
    stop_if: Part
    why: Part

    def parts(self) -> tuple[Part, ...]:
        """The four parts in reading order."""
        return (self.do, self.check, self.stop_if, self.why)

    def source_ids(self) -> tuple[str, ...]:
        """Every source of the card once, in the order its facts are read."""
        captions = () if self.figure is None else (self.figure.caption,)
        texts = (*captions, *(caution.text for caution in self.cautions), *self.parts())
        return tuple(dict.fromkeys(name for part in texts for name in part.source_ids))


class Lesson(Frozen):
    """A module's lesson in one language."""

    language: str
    title: str
    summary: str
    minutes: int
    revision: int
    introduction: Part
    steps: tuple[Step, ...]

    def step(self, step_id: str) -> Step:
        """The step of that id; KeyError if there is none."""
        for step in self.steps:
            if step.id == step_id:
                return step
        raise KeyError(step_id)


class Measure(Frozen):
    """Something the trainer measures or reads off while watching."""

    id: Name
    quantity: str
    unit: str
    label: Text


class ChecklistItem(Frozen):
    """One thing to see. `rule` is one call of a calculator whose result has `is_within`."""

    id: Id
    critical: bool = False
    text: Text
    measures: tuple[Measure, ...] = ()
    rule: str | None = None
    log: Literal["ports"] | None = None
    source: Id | None = None


class Module(Frozen):
    """Everything about one module: the sources it cites, its files by path, and their hash."""

    id: Id
    lessons: dict[str, Lesson]
    checklist: tuple[ChecklistItem, ...]
    questions: tuple[Question, ...]
    content_hash: str
    sources: dict[str, Source] = Field(default_factory=dict)
    files: dict[str, bytes] = Field(default_factory=dict, repr=False)

    @property
    def revision(self) -> int:
        """The number of the revision, from the English lesson."""
        return self.lessons[DEFAULT_LANGUAGE].revision

    def lesson(self, language: str) -> Lesson:
        """The lesson in `language`, or in English where it is not translated."""
        return self.lessons.get(language, self.lessons[DEFAULT_LANGUAGE])

    def question(self, question_id: str) -> Question:
        """The question of that id; KeyError if there is none."""
        for question in self.questions:
            if question.id == question_id:
                return question
        raise KeyError(question_id)

    def item(self, item_id: str) -> ChecklistItem:
        """The checklist item of that id; KeyError if there is none."""
        for item in self.checklist:
            if item.id == item_id:
                return item
        raise KeyError(item_id)


class Qualification(Frozen):
    """What must be shown for a qualification and how long it lasts. Months, days and shares."""

    id: Id
    title: Text
    summary: Text
    modules: Annotated[tuple[Id, ...], Field(min_length=1)]
    prerequisites: tuple[Id, ...] = ()
    checklists: tuple[Id, ...] = ()
    practicals_required: Annotated[int, Field(ge=1)]
    trainers_required: Annotated[int, Field(ge=1)]
    validity_months: Annotated[int, Field(ge=1)]
    continuity_months: Annotated[int, Field(ge=1)]
    late_entry_days: Annotated[int, Field(ge=0)]
    grace_days: Annotated[int, Field(ge=0)]
    evidence_months: Annotated[int, Field(ge=1)]
    due_soon_days: Annotated[int, Field(ge=0)]
    worker_countersign: Literal["off", "asked", "required"] = "asked"
    practical_pass_share: Share
    used_low: Annotated[Exact, Field(gt=0)]
    used_high: Annotated[Exact, Field(gt=0)]
    quiz_questions: Annotated[int, Field(ge=1)]
    quiz_pass_share: Share

    @model_validator(mode="after")
    def _possible(self) -> Self:
        if self.trainers_required > self.practicals_required:
            raise ValueError("more trainers are required than practicals")
        if self.used_low >= self.used_high:
            raise ValueError("used_low must be below used_high")
        return self

    def checklist_modules(self) -> tuple[str, ...]:
        """The modules whose checklists a supervised repair goes through."""
        return self.checklists or self.modules


class Curriculum(Frozen):
    """The whole content. Modules and qualifications keep the order of qualifications.yaml."""

    policy_version: str
    modules: dict[str, Module]
    qualifications: dict[str, Qualification]
    sources: dict[str, Source]
    policy_files: dict[str, bytes] = Field(default_factory=dict, repr=False)
    policy_hash: str = ""

    def module(self, module_id: str) -> Module:
        """The module of that id; KeyError if there is none."""
        return self.modules[module_id]

    def qualification(self, qualification_id: str) -> Qualification:
        """The qualification of that id; KeyError if there is none."""
        return self.qualifications[qualification_id]

    def source(self, source_id: str) -> Source:
        """The source of that id; KeyError if there is none."""
        return self.sources[source_id]
