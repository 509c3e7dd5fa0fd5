"""checklist.yaml into items: measures with known units, rules that can be worked out."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from app.curriculum.loading.facts import has_digit
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, open_yaml
from app.curriculum.loading.yaml_lines import PathInFile
from app.curriculum.model import ChecklistItem, Source
from app.curriculum.questions.formula import Calculators, FormulaRefused
from app.curriculum.rules import JOB_NAMES, read_rule
from app.trade.units import BASE_UNITS, UNITS


def load_checklist(
    path: Path,
    root: Path,
    sources: Mapping[str, Source],
    calculators: Calculators,
    problems: Collector,
) -> tuple[ChecklistItem, ...]:
    """The items that could be read; every problem of the others is noted."""
    content = open_yaml(path, root, problems)
    if content is None:
        return ()
    content.only_keys("module", "items")
    data = content.located.data
    if isinstance(data, dict) and data.get("module") != path.parent.name:
        content.note(("module",), f"is {data.get('module')} in the folder of another module")
    items: list[ChecklistItem] = []
    seen: set[str] = set()
    for where, entry in content.listed("items"):
        item = content.shaped(ChecklistItem, entry, where)
        if item is None:
            continue
        if item.id in seen:
            content.note((*where, "id"), f"the item id {item.id} stands twice")
        seen.add(item.id)
        _check_item(content, where, item, sources, calculators)
        items.append(item)
    if not items:
        content.note(("items",), "at least one item is wanted")
    return tuple(items)


def _check_item(
    content: ContentFile,
    path: PathInFile,
    item: ChecklistItem,
    sources: Mapping[str, Source],
    calculators: Calculators,
) -> None:
    if item.source is not None and item.source not in sources:
        content.note((*path, "source"), f"there is no source {item.source} in sources.yaml")
    if item.source is None and has_digit(item.text.in_language("en")):
        content.note((*path, "source"), "is missing, and the item holds a number")
    _check_measures(content, path, item)
    if item.rule is not None:
        _check_rule(content, (*path, "rule"), item, calculators)


def _check_measures(content: ContentFile, path: PathInFile, item: ChecklistItem) -> None:
    seen: set[str] = set()
    for number, measure in enumerate(item.measures):
        where = (*path, "measures", number)
        if measure.id in seen or measure.id in JOB_NAMES:
            content.note((*where, "id"), f"the name {measure.id} is taken")
        seen.add(measure.id)
        if measure.quantity not in BASE_UNITS:
            content.note((*where, "quantity"), f"there is no quantity {measure.quantity}")
        elif measure.unit not in UNITS or UNITS[measure.unit].quantity != measure.quantity:
            content.note((*where, "unit"), f"{measure.unit} is no unit of {measure.quantity}")


def _check_rule(
    content: ContentFile, path: PathInFile, item: ChecklistItem, calculators: Calculators
) -> None:
    try:
        formula = read_rule(item.rule or "", calculators)
    except FormulaRefused as refused:
        content.note(path, str(refused))
        return
    measured = {measure.id for measure in item.measures}
    for name in sorted(formula.names - measured - JOB_NAMES):
        content.note(path, f"there is no measure and no job value {name}")
    for name in sorted(measured - formula.names):
        content.note(path, f"{name} is measured but the rule does not use it")
