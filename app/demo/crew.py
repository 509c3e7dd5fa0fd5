"""The people of Wren Hollow Repair, an invented small contractor."""

from dataclasses import dataclass

DEMO_PASSWORD = "wall-before-noon"


@dataclass(frozen=True, slots=True)
class Member:
    """One invented person: sign-in name, printed name, roles, and what they show."""

    sign_in_name: str
    printed_name: str
    roles: tuple[str, ...]
    shows: str


WORKERS = (
    Member("nia", "Nia Fable", ("worker",), "hired this week, nothing done yet"),
    Member("ben", "Ben Parable", ("worker",), "preparation hand, current"),
    Member("cora", "Cora Legend", ("worker",), "pump operator, runs out this month"),
    Member("dov", "Dov Ballad", ("worker",), "preparation hand, lapsed: no work for six months"),
    Member("elsa", "Elsa Rhyme", ("worker",), "pump operator, suspended"),
    Member("fynn", "Fynn Riddle", ("worker",), "preparation hand, revoked"),
    Member("gita", "Gita Proverb", ("worker",), "preparation hand, expired"),
    Member("hugo", "Hugo Myth", ("worker",), "preparation hand, one repair short"),
    Member("ida", "Ida Anecdote", ("worker",), "pump operator, update needed"),
    Member("jon", "Jon Proem", ("worker",), "lead injector, current"),
    Member("kaya", "Kaya Limerick", ("worker",), "pump operator, work due this month"),
    Member(
        "leo", "Leo Epigram", ("worker",), "pump operator, a late entry waits for a countersign"
    ),
)

TRAINERS = (
    Member("tomas", "Tomas Saga", ("trainer", "worker"), "trainer for all three trades"),
    Member("uma", "Uma Chronicle", ("trainer", "worker"), "trainer for all three trades"),
    Member("viktor", "Viktor Yarn", ("trainer", "worker"), "trainer for preparation only"),
)

OFFICERS = (
    Member("olga", "Olga Preface", ("safety-officer",), "safety officer"),
    Member("petra", "Petra Epilogue", ("safety-officer",), "the second safety officer"),
)

EVERYBODY = (*WORKERS, *TRAINERS, *OFFICERS)
