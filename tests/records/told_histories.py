"""Short histories in which a later record changes what earlier days mean, each by another way."""

from dataclasses import replace
from datetime import timedelta

from records_cast import (
    LEAD,
    authorised,
    base,
    countered,
    countersigned,
    day,
    decided,
    merged,
    on,
    practical,
    quiz,
    revised,
    training,
    use,
    without,
)

from app.records.events import Event, Grant, Lift, Revoke, Suspend, TrainerWithdrawn


def arriving(event: Event, text: str) -> Event:
    """The event recorded on another day than it happened."""
    return replace(event, recorded_at=on(text)["recorded_at"])


def _withdrawn(name: str, trainer: str, text: str) -> TrainerWithdrawn:
    return TrainerWithdrawn(id=name, person=trainer, qualification=LEAD, **on(text))


LATE_USE = arriving(use("u1", "2024-07-30"), "2024-09-20")
OTHER = replace(training("t2", "2024-01-11"), module="other")

STORIES: dict[str, list[Event]] = {
    "a late job is countersigned": [
        *base(),
        LATE_USE,
        countersigned("s1", "2024-09-25", "u1", "A2"),
        countered("x1", "2024-10-01", "s1"),
    ],
    "the countersigner turns out to have been authorised": [
        *base(),
        LATE_USE,
        countersigned("s1", "2024-09-25", "u1", "A3"),
        arriving(authorised("A3", "2024-08-01"), "2024-09-28"),
    ],
    "a trainer is withdrawn for a past day, by mistake": [
        *base(),
        arriving(_withdrawn("w1", "A2", "2024-02-01"), "2024-03-20"),
        countered("x1", "2024-03-25", "w1", person="A2"),
    ],
    "a trainer's authorisation is told late": [
        *without(base(), "auth-A2"),
        arriving(authorised("A2"), "2024-04-01"),
    ],
    "a major revision is told after a grant that it bears on": [
        *base(),
        arriving(revised("r2", "2024-02-15", 2, "major"), "2024-03-10"),
        countered("x1", "2024-03-20", "r2", person=""),
    ],
    "two modules are revised, the later one in the rule first": [
        *without(base(), "g1"),
        OTHER,
        replace(quiz("q2", "2024-01-12"), module="other"),
        decided(Grant, "g2", "2024-03-01"),
        replace(revised("r1", "2024-04-01", 2, "major"), module="other"),
        revised("r2", "2024-04-20", 2, "major"),
        replace(training("t3", "2024-05-10", 2), module="other"),
    ],
    "a counter-entry is countered": [
        *base(),
        countered("x1", "2024-03-20", "p2"),
        countered("x2", "2024-03-22", "x1"),
        countered("x3", "2024-03-24", "x2"),
    ],
    "a counter-entry comes at the same instant": [
        *base(),
        use("u1", "2024-06-01"),
        countered("a1", "2024-06-01", "u1"),
        countered("x1", "2024-06-01", "p2"),
        countered("x2", "2024-06-01", "x1"),
    ],
    "a counter-entry by a clock set back comes before its record": [
        *base(),
        use("u1", "2024-06-01"),
        countered("x1", "2024-05-30", "u1"),
        use("u2", "2024-08-30"),
    ],
    "the first of two on one job falls away": [
        *base(),
        practical("p3", "2024-03-05", "R2", "A1"),
        countered("x1", "2024-03-20", "p2"),
    ],
    "a person was entered twice": [
        *without(base(), "p2"),
        practical("p2", "2024-02-10", "R2", "A2", person="W2"),
        use("u1", "2024-06-01", person="W2"),
        merged("i1", "2024-07-01", "W", "W2"),
        use("u2", "2024-09-01", person="W2"),
        countered("x1", "2024-10-01", "i1"),
    ],
    "a trainer turns out to be the person": [
        *base(),
        merged("i1", "2024-07-01", "W", "A2"),
        countered("x1", "2024-08-01", "i1"),
    ],
    "the decider turns out to be a trainer": [*base(), merged("i1", "2024-07-01", "M1", "A1")],
    "a quiz and a repair are told after the grant": [
        *without(base(), "q1", "p2"),
        arriving(quiz("q1", "2024-01-12"), "2024-03-02"),
        arriving(practical("p2", "2024-02-10", "R2", "A2"), "2024-02-20"),
    ],
    "a lapse, healed by a repair told late": [
        *base(),
        use("u1", "2024-08-20"),
        arriving(practical("p3", "2024-08-15", "R3", "A1"), "2024-08-25"),
        countered("x1", "2024-09-01", "p3"),
    ],
    "suspended, lifted, revoked and granted again": [
        *base(),
        decided(Suspend, "s1", "2024-03-10"),
        decided(Lift, "l1", "2024-03-20"),
        decided(Revoke, "v1", "2024-04-01"),
        quiz("q2", "2024-04-11"),
        practical("p3", "2024-04-12", "R3", "A1"),
        practical("p4", "2024-04-12", "R4", "A2"),
        decided(Grant, "g2", "2024-04-12"),
        countered("x1", "2024-05-01", "v1"),
    ],
    "granted again before it runs out": [
        *base(),
        use("u1", "2024-07-10"),
        quiz("q2", "2024-08-01"),
        practical("p3", "2024-08-02", "R3", "A1"),
        practical("p4", "2024-08-03", "R4", "A2"),
        decided(Grant, "g2", "2024-08-04"),
        decided(Grant, "g3", "2024-08-04"),
        countered("x1", "2024-08-10", "g1"),
        countered("x2", "2024-08-11", "g3"),
    ],
    "suspended and lifted at one instant": [
        *base(),
        decided(Suspend, "s1", "2024-03-10"),
        decided(Lift, "l1", "2024-03-10"),
    ],
    "revoked on the day of the grant": [*base(), decided(Revoke, "v1", "2024-02-29")],
    "dated ahead": [
        *base(),
        replace(use("u1", "2024-07-10"), recorded_at=on("2024-07-09")["recorded_at"]),
        replace(use("u2", "2024-12-10"), recorded_at=on("2024-12-01")["recorded_at"]),
    ],
}


def in_order_of_arrival(story: str) -> list[Event]:
    """The story as the ledger gets it: each record at its time, what it points to before it."""
    events = STORIES[story]
    ids = [event.id for event in events]
    return sorted(events, key=lambda event: (event.recorded_at, ids.index(event.id)))


FIRST, LAST = day("2024-01-01"), day("2026-09-01")
EVERY_DAY = [FIRST + timedelta(days=n) for n in range((LAST - FIRST).days)]
