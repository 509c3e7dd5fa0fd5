"""What a worker's phone keeps: Learn, and each module with its steps and practice."""

from flask import url_for
from sqlalchemy import Connection

from app.accounts.people import Person
from app.curriculum.model import Module
from app.web.kept_pages import Group, Shelf
from app.worker.blueprint import curriculum

ENDPOINTS = frozenset({"worker.learn", "worker.module", "worker.step", "worker.practice_questions"})


def groups(_connection: Connection, person: Person) -> list[Group]:
    """Return a group for the first page and one for each module."""
    learn = Group("learn", "", (url_for("worker.learn"),), curriculum().policy_version, "page")
    return [learn, *(_of(module, person) for module in curriculum().modules.values())]


def _of(module: Module, person: Person) -> Group:
    lesson = module.lesson(person.language)
    steps = tuple(
        url_for("worker.step", module=module.id, number=step.number) for step in lesson.steps
    )
    first = url_for("worker.module", module=module.id)
    practice = url_for("worker.practice_questions", module=module.id)
    digest = f"{module.id} {module.content_hash}"
    return Group(module.id, lesson.title, (first, *steps, practice), digest, "module")


SHELF = Shelf("worker", ENDPOINTS, groups)
