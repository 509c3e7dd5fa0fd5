"""questions.yaml into questions: formulas read, names known, item models tried out."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from app.curriculum.loading.facts import has_digit
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, open_yaml
from app.curriculum.loading.yaml_lines import PathInFile
from app.curriculum.model import Source
from app.curriculum.questions.evaluation import NoValue
from app.curriculum.questions.formula import Calculators, Formula, FormulaRefused, read_formula
from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion
from app.curriculum.questions.variants import NoVariant, draw_variant, variant_seed, working_values
from app.curriculum.questions.wording import places_in
from app.curriculum.text import Text
from app.trade.units import BASE_UNITS, UNITS

FEWEST_QUESTIONS, SAMPLES, FEWEST_DIFFERENT = 5, 20, 6
Question = ChoiceQuestion | ComputedQuestion


def load_questions(
    path: Path,
    root: Path,
    sources: Mapping[str, Source],
    calculators: Calculators,
    problems: Collector,
) -> tuple[Question, ...]:
    """The questions that could be read; every problem of the others is noted."""
    content = open_yaml(path, root, problems)
    if content is None:
        return ()
    content.only_keys("module", "questions")
    data = content.located.data
    if isinstance(data, dict) and data.get("module") != path.parent.name:
        content.note(("module",), f"is {data.get('module')} in the folder of another module")
    entries = content.listed("questions")
    if len(entries) < FEWEST_QUESTIONS:
        sentence = f"at least {FEWEST_QUESTIONS} are wanted, {len(entries)} are here"
        content.note(("questions",), sentence)
    return tuple(_unique(_Loader(content, sources, calculators).load(entries), content))


def _unique(found: list[tuple[PathInFile, Question]], content: ContentFile) -> list[Question]:
    seen: set[str] = set()
    for path, question in found:
        if question.id in seen:
            content.note((*path, "id"), f"the question id {question.id} stands twice")
        seen.add(question.id)
    return [question for _, question in found]


class _Loader:
    def __init__(
        self, content: ContentFile, sources: Mapping[str, Source], calculators: Calculators
    ) -> None:
        self.content = content
        self.sources = sources
        self.calculators = calculators

    def load(self, entries: list[tuple[PathInFile, Any]]) -> list[tuple[PathInFile, Question]]:
        loaded = [(path, self.one(path, entry)) for path, entry in entries]
        return [(path, question) for path, question in loaded if question is not None]

    def one(self, path: PathInFile, entry: Any) -> Question | None:
        kind = entry.get("kind") if isinstance(entry, dict) else None
        if kind == "choice":
            choice = self.content.shaped(ChoiceQuestion, entry, path)
            if choice is not None:
                self.check_choice(path, choice)
            return choice
        if kind == "computed":
            computed = self.content.shaped(ComputedQuestion, entry, path)
            if computed is not None:
                self.check_source(path, computed.source)
                self.check_computed(path, computed)
            return computed
        self.content.note((*path, "kind"), "must be choice or computed")
        return None

    def check_source(self, path: PathInFile, source: str | None) -> None:
        if source is not None and source not in self.sources:
            sentence = f"there is no source {source} in sources.yaml"
            self.content.note((*path, "source"), sentence)

    def check_choice(self, path: PathInFile, question: ChoiceQuestion) -> None:
        self.check_source(path, question.source)
        said = [question.text, question.explanation, *(one.text for one in question.options)]
        said += [one.feedback for one in question.options if one.feedback is not None]
        if question.source is None and any(has_digit(text.in_language("en")) for text in said):
            self.content.note((*path, "source"), "is missing, and the question holds a number")

    def check_computed(self, path: PathInFile, question: ComputedQuestion) -> None:
        before = len(self.content.problems.found)
        self.check_units(path, question)
        self.check_formulas(path, question)
        self.check_places(path, question)
        if len(self.content.problems.found) == before:
            self.try_out(path, question)

    def check_units(self, path: PathInFile, question: ComputedQuestion) -> None:
        for name, variable in question.variables.items():
            if variable.unit not in UNITS:
                where = (*path, "variables", name, "unit")
                self.content.note(where, f"there is no unit {variable.unit}")
        answer = question.answer
        if answer.quantity not in BASE_UNITS:
            where = (*path, "answer", "quantity")
            self.content.note(where, f"there is no quantity {answer.quantity}")
        elif answer.unit not in UNITS or UNITS[answer.unit].quantity != answer.quantity:
            sentence = f"{answer.unit} is no unit of {answer.quantity}"
            self.content.note((*path, "answer", "unit"), sentence)
        for name, quantity in question.working_quantities.items():
            if name not in question.working or quantity not in BASE_UNITS:
                where = (*path, "working_quantities", name)
                self.content.note(where, f"{name}: {quantity} is no quantity of a working value")

    def check_formulas(self, path: PathInFile, question: ComputedQuestion) -> None:
        known = set(question.variables)
        key = self.formula((*path, "answer", "key"), question.answer.key, known)
        if key is not None and not key.calls:
            self.content.note((*path, "answer", "key"), "the key must call a calculator")
        for number, slip in enumerate(question.slips):
            self.formula((*path, "slips", number, "formula"), slip.formula, known)
        for name, text in question.working.items():
            self.formula((*path, "working", name), text, known)
            known = known | {name}

    def formula(self, path: PathInFile, text: str, known: set[str]) -> Formula | None:
        try:
            formula = read_formula(text, self.calculators)
        except FormulaRefused as refused:
            self.content.note(path, str(refused))
            return None
        unknown = sorted(formula.names - known)
        if unknown:
            self.content.note(path, f"there is no variable {', '.join(unknown)}")
        return formula

    def check_places(self, path: PathInFile, question: ComputedQuestion) -> None:
        variables = set(question.variables)
        self.places((*path, "text"), question.text, variables)
        known = variables | set(question.working) | {"key"}
        self.places((*path, "solution"), question.solution, known)
        for language in question.text.languages():
            unsaid = variables - places_in(question.text.in_language(language))
            for name in sorted(unsaid):
                self.content.note((*path, "text", language), f"does not say {{{name}}}")
            if "key" not in places_in(question.solution.in_language(language)):
                self.content.note((*path, "solution", language), "does not say {key}")
        for number, slip in enumerate(question.slips):
            self.places((*path, "slips", number, "feedback"), slip.feedback, set())

    def places(self, path: PathInFile, text: Text, known: set[str]) -> None:
        for language in text.languages():
            for name in sorted(places_in(text.in_language(language)) - known):
                self.content.note((*path, language), f"there is no value {{{name}}}")

    def try_out(self, path: PathInFile, question: ComputedQuestion) -> None:
        """Draw sample variants, as attempts will, and work out each solution."""
        different = set()
        for number in range(SAMPLES):
            seed = variant_seed(f"sample-{number}", question.id, question.version)
            try:
                variant = draw_variant(question, seed, self.calculators)
                working_values(question, variant, self.calculators)
            except (NoVariant, NoValue) as problem:
                self.content.note(path, f"sample variant {number + 1} of {SAMPLES}: {problem}")
                return
            different.add(tuple(sorted(variant.numbers.items())))
        if len(different) < FEWEST_DIFFERENT:
            sentence = f"only {len(different)} different variants in {SAMPLES}: give more values"
            self.content.note(path, sentence)
