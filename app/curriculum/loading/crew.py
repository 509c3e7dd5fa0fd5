"""crew.yaml: which hands a job needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from app.curriculum.crew import CrewNeeds, Hand, HandSet
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, open_yaml
from app.curriculum.loading.text_files import laid_out
from app.curriculum.loading.yaml_lines import PathInFile
from app.curriculum.model import Qualification

FILE = "crew.yaml"


def load_crew(folder: Path, qualifications: Mapping[str, Qualification]) -> CrewNeeds:
    """Read and check crew.yaml against the qualifications there are.

    Raises ContentErrors with every problem found.
    """
    problems = Collector()
    content = open_yaml(folder / FILE, folder, problems)
    found = content.shaped(CrewNeeds, content.located.data) if content else None
    if content and found:
        _check(content, found, qualifications)
    problems.raise_if_any()
    assert found is not None
    return found


def crew_in(
    files: Mapping[str, bytes], qualifications: Mapping[str, Qualification]
) -> CrewNeeds | None:
    """The needs in a policy's kept files; None where it says nothing about crews.

    Raises ContentErrors where this program can't read them.
    """
    if FILE not in files:
        return None
    with laid_out(files) as folder:
        return load_crew(folder, qualifications)


def _check(
    content: ContentFile, found: CrewNeeds, qualifications: Mapping[str, Qualification]
) -> None:
    if not found.crew_version.strip():
        content.note(("crew_version",), "must be a text in quotes")
    modules = {name for one in qualifications.values() for name in one.modules}
    for place, one in enumerate(found.everyone):
        if one.module not in modules:
            content.note(("everyone", place, "module"), f"there is no module {one.module}")
    if found.sets is None and found.hands is None:
        content.note((), "the key sets is missing")
    elif found.sets is None:
        _check_hands(content, found, found.hands or (), (), qualifications)
        if found.default is not None:
            content.note(("default",), "there are no sets to choose from")
    elif found.hands is not None:
        content.note(("hands",), "stands beside sets; put these hands into one of them")
    else:
        _check_sets(content, found, found.sets, qualifications)


def _check_sets(
    content: ContentFile,
    found: CrewNeeds,
    sets: Sequence[HandSet],
    qualifications: Mapping[str, Qualification],
) -> None:
    named = [one.id for one in sets]
    for place, one in enumerate(sets):
        if one.id in named[:place]:
            content.note(("sets", place, "id"), f"the set {one.id} stands twice")
        _check_hands(content, found, one.hands, ("sets", place), qualifications)
    if found.default is None:
        content.note((), "the key default is missing; name the set for jobs that do not say")
    elif found.default not in named:
        content.note(("default",), f"there is no set {found.default}")


def _check_hands(
    content: ContentFile,
    found: CrewNeeds,
    hands: Sequence[Hand],
    inside: PathInFile,
    qualifications: Mapping[str, Qualification],
) -> None:
    named = [hand.qualification for hand in hands]
    for place, name in enumerate(named):
        path = (*inside, "hands", place, "qualification")
        if name not in qualifications:
            content.note(path, f"there is no qualification {name}")
            continue
        if name in named[:place]:
            content.note(path, f"the qualification {name} stands twice; give the first a count")
        # So that whoever is qualified for a hand has shown what everyone must.
        for one in found.everyone:
            if one.module not in qualifications[name].modules:
                content.note(path, f"the qualification {name} does not take in {one.module}")
