"""sources.yaml and qualifications.yaml."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, open_yaml
from app.curriculum.model import Qualification, Source


@dataclass(frozen=True)
class Policy:
    """qualifications.yaml: its version, the modules in learning order, the qualifications."""

    version: str = ""
    modules: tuple[str, ...] = ()
    qualifications: dict[str, Qualification] = field(default_factory=dict)


def load_sources(root: Path, problems: Collector) -> dict[str, Source]:
    """Every source by its id."""
    content = open_yaml(root / "sources.yaml", root, problems)
    if content is None:
        return {}
    if not isinstance(content.located.data, dict):
        content.note((), "ids and sources are expected here")
        return {}
    shaped = {
        name: content.shaped(Source, entry, (name,)) for name, entry in content.located.data.items()
    }
    return {name: source for name, source in shaped.items() if source is not None}


def load_policy(root: Path, problems: Collector) -> Policy:
    """The qualifications, each checked against the modules and the others."""
    content = open_yaml(root / "qualifications.yaml", root, problems)
    if content is None or not isinstance(content.located.data, dict):
        return Policy()
    content.only_keys("policy_version", "modules", "defaults", "qualifications")
    version = content.located.data.get("policy_version")
    if not isinstance(version, str) or not version.strip():
        content.note(("policy_version",), "must be a text in quotes")
        version = ""
    modules = tuple(str(entry) for _, entry in content.listed("modules"))
    if len(set(modules)) != len(modules):
        content.note(("modules",), "a module stands twice")
    return Policy(version, modules, _qualifications(content, modules))


def _qualifications(content: ContentFile, modules: tuple[str, ...]) -> dict[str, Qualification]:
    found: dict[str, Qualification] = {}
    defaults = content.located.data.get("defaults")
    if not isinstance(defaults, dict):
        content.note(("defaults",), "keys and values are expected here")
        return found
    for path, entry in content.listed("qualifications"):
        whole = {**defaults, **entry} if isinstance(entry, dict) else entry
        one = content.shaped(Qualification, whole, path)
        if one is None:
            continue
        if one.id in found:
            content.note((*path, "id"), f"the qualification {one.id} stands twice")
        for key in ("modules", "checklists"):
            for name in getattr(one, key):
                if name not in modules:
                    content.note((*path, key), f"there is no module {name}")
        for name in one.prerequisites:
            if name not in found:
                # Only earlier ones may be named, so that no circle can be written.
                content.note((*path, "prerequisites"), f"no qualification {name} stands above")
        found[one.id] = one
    return found
