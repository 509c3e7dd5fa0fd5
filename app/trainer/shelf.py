"""What a trainer's phone keeps: the list of repairs, and each open one as its page at the wall."""

from flask import url_for
from sqlalchemy import Connection

from app.accounts.people import Person
from app.accounts.people import names as names_of_people
from app.trainer.blueprint import curriculum
from app.web.kept_pages import Group, Shelf
from app.workbook.observations import open_observations

ENDPOINTS = frozenset({"trainer.repairs", "trainer.at_the_wall"})


def groups(connection: Connection, person: Person) -> list[Group]:
    """Return a group for the list and one for each open repair."""
    names = names_of_people(connection)
    opened = open_observations(connection, person.id)
    content = " ".join(module.content_hash for module in curriculum().modules.values())
    first = Group(
        "repairs", "", (url_for("trainer.repairs"),), " ".join(one.id for one in opened), "page"
    )
    return [
        first,
        *(
            Group(
                f"repair-{one.id}",
                names.get(one.person_id, one.person_id),
                (url_for("trainer.at_the_wall", repair=one.id),),
                f"{one.id} {content}",
                "repair",
            )
            for one in opened
        ),
    ]


SHELF = Shelf("trainer", ENDPOINTS, groups)
