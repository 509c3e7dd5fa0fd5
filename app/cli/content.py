"""Check the modules, questions and sources before anyone learns from them."""

from __future__ import annotations

from pathlib import Path

import click

CONTENT = Path(__file__).resolve().parents[2] / "content"


@click.group()
def content() -> None:
    """Check the modules, questions and sources."""


@content.command()
@click.argument(
    "folder", type=click.Path(exists=True, file_okay=False, path_type=Path), default=CONTENT
)
def check(folder: Path) -> None:
    """Read FOLDER as the app does at its start and print every problem, or what was found."""
    from app.curriculum.loading.content import load_curriculum
    from app.curriculum.loading.crew import load_crew
    from app.curriculum.loading.glossary import load_glossary
    from app.curriculum.plain_words.plainness import plainness

    curriculum = load_curriculum(folder)
    load_crew(folder, curriculum.qualifications)
    load_glossary(folder)
    _check_spanish(folder)
    modules = curriculum.modules.values()
    for module in modules:
        for lesson in module.lessons.values():
            click.echo(f"{module.id:<20} {_said(lesson.language, plainness(lesson)[0])}")
    steps = sum(len(module.lesson("en").steps) for module in modules)
    questions = sum(len(module.questions) for module in modules)
    click.echo(f"{len(modules)} modules, {steps} steps, {questions} questions, 0 problems")


@content.command()
@click.argument(
    "folder", type=click.Path(exists=True, file_okay=False, path_type=Path), default=CONTENT
)
def translated(folder: Path) -> None:
    """Record that the Spanish was read against today's English. Run it only when it was."""
    from app.curriculum.loading.translations import write_record

    click.echo(f"{write_record(folder)} texts recorded as translated from today's English")


def _check_spanish(folder: Path) -> None:
    from app.curriculum.loading.problems import Collector
    from app.curriculum.loading.translations import check_translations

    problems = Collector()
    check_translations(folder, problems)
    problems.raise_if_any()


def _said(language: str, score: float) -> str:
    from app.curriculum.plain_words import readability

    if language == "es":
        hard, plain = score < readability.LOWEST_INFLESZ, score >= readability.WARN_INFLESZ
        words = f"hardest block: INFLESZ {score:.0f}"
    else:
        hard, plain = score > readability.HIGHEST_GRADE, score <= readability.WARN_GRADE
        words = f"hardest block: grade {score:.1f}"
    return words + (" — too hard" if hard else "" if plain else " — rather hard")
