"""What happened to the invented crew, as acts so many days before today."""

from dataclasses import dataclass, field
from typing import Any

from app.demo.earlier_texts import REVISED_MODULE

PREPARATION, PUMP, LEAD = "preparation-hand", "pump-operator", "lead-injector"


@dataclass(frozen=True, slots=True)
class Told:
    """One act of the story: how many days ago, what, by whom, with what."""

    days_ago: int
    what: str
    by: str
    values: dict[str, Any] = field(default_factory=dict)
    late_days: int = 0


def _told(days_ago: int, what: str, by: str, late_days: int = 0, **values: Any) -> Told:
    return Told(days_ago, what, by, values, late_days)


def _qualified(person: str, qualification: str, granted: int, jobs: tuple[str, str]) -> list[Told]:
    """The usual way: learn, two repairs watched by two trainers, the grant."""
    common = {"person": person, "qualification": qualification}
    return [
        _told(granted + 40, "learn", person, **common),
        _told(granted + 20, "watch", "tomas", job=jobs[0], **common),
        _told(granted + 8, "watch", "uma", job=jobs[1], **common),
        _told(granted, "grant", "olga", **common),
    ]


def _held(person: str, qualification: str, since: int, until: int) -> list[Told]:
    """Suspended and lifted again: taking that back would raise only those past days."""
    held: dict[str, Any] = {"person": person, "qualification": qualification}
    left = "Left the pump under pressure over the break (invented)."
    seen = "Watched twice at shutdown; relieves it first now (invented)."
    return [
        _told(since, "suspend", "olga", reason=left, **held),
        _told(until, "lift", "petra", reason=seen, **held),
    ]


def _work(person: str, qualification: str, *times: tuple[int, str]) -> list[Told]:
    return [
        _told(ago, "use", "uma", person=person, qualification=qualification, job=job)
        for ago, job in times
    ]


def _trainers() -> list[Told]:
    allowed = {"tomas": (PREPARATION, PUMP, LEAD), "uma": (PREPARATION, PUMP, LEAD)}
    allowed["viktor"] = (PREPARATION,)
    return [
        _told(1000, "authorise", "olga", person=trainer, qualification=qualification)
        for trainer, qualifications in allowed.items()
        for qualification in qualifications
    ]


def story() -> list[Told]:
    """The whole story, oldest act first."""
    acts = [_told(1001, "approve-all", "petra", reason="Read on paper, fits our work (invented).")]
    acts += _trainers()
    acts += _qualified("ben", PREPARATION, 200, ("north-wall", "sump"))
    acts += _work("ben", PREPARATION, (60, "south-wall"))
    acts += _qualified("cora", PUMP, 719, ("north-wall", "ramp-beam"))
    acts += _work(
        "cora", PUMP, (560, "sump"), (400, "soffit"), (240, "slab-edge"), (90, "south-wall")
    )
    acts += _qualified("dov", PREPARATION, 330, ("south-wall", "slab-edge"))
    acts += _work("dov", PREPARATION, (215, "ramp-beam"))
    acts += _qualified("elsa", PUMP, 250, ("sump", "soffit"))
    acts += _work("elsa", PUMP, (100, "north-wall"))
    acts += [
        _told(
            21,
            "suspend",
            "olga",
            late_days=3,  # so for three days the board said otherwise
            person="elsa",
            qualification=PUMP,
            reason="Ran the pump without a ratio sample. Suspended until watched again.",
        ),
        _told(
            2,
            "propose",
            "petra",
            person="elsa",
            reason="The sample form turned up in the other truck (invented).",
        ),
    ]
    acts += _qualified("fynn", PREPARATION, 300, ("ramp-beam", "slab-edge"))
    acts += _work("fynn", PREPARATION, (150, "sump"))
    acts += [
        _told(
            45,
            "revoke",
            "olga",
            person="fynn",
            qualification=PREPARATION,
            reason="Ground dry in the pump pit without a collector, twice.",
        )
    ]
    acts += _qualified("gita", PREPARATION, 800, ("north-wall", "soffit"))
    acts += _work(
        "gita",
        PREPARATION,
        (650, "sump"),
        (480, "ramp-beam"),
        (310, "slab-edge"),
        (140, "south-wall"),
    )
    acts += [
        _told(40, "learn", "hugo", person="hugo", qualification=PREPARATION),
        _told(18, "watch", "viktor", person="hugo", qualification=PREPARATION, job="wing-wall"),
    ]
    acts += [_told(17, "confirm", "hugo", person="hugo", qualification=PREPARATION)]
    acts += _qualified("ida", PUMP, 260, ("ramp-beam", "soffit"))
    acts += _work("ida", PUMP, (110, "stair-wall"))
    acts += _held("ida", PUMP, 52, 45)
    acts += _qualified("jon", PREPARATION, 500, ("north-wall", "sump"))
    acts += _qualified("jon", PUMP, 440, ("south-wall", "ramp-beam"))
    acts += _qualified("jon", LEAD, 380, ("soffit", "slab-edge"))
    for qualification in (PREPARATION, PUMP):
        acts += _work("jon", qualification, (340, "sump"))
    for qualification in (PREPARATION, PUMP, LEAD):
        acts += _work("jon", qualification, (225, "stair-wall"), (70, "wing-wall"))
    acts += [
        _told(35, "learn-module", "jon", person="jon", module="ratio-sample"),
        _told(33, "learn-module", "cora", person="cora", module="ratio-sample"),
        _told(30, "learn-module", "kaya", person="kaya", module="ratio-sample"),
        _told(28, "learn-module", "leo", person="leo", module="ratio-sample"),
        _told(27, "learn-module", "elsa", person="elsa", module="ratio-sample"),
    ]
    acts += _qualified("kaya", PUMP, 300, ("sump", "stair-wall"))
    acts += _work("kaya", PUMP, (168, "wing-wall"))
    acts += _qualified("leo", PUMP, 290, ("wing-wall", "south-wall"))
    acts += [
        _told(
            120, "use", "tomas", late_days=100, person="leo", qualification=PUMP, job="stair-wall"
        )
    ]
    acts += [
        _told(
            62,
            "approve",
            "olga",
            module=REVISED_MODULE,
            change="major",
            reason="A fitting came off under pressure at the pump house (invented). New warning.",
        )
    ]
    return sorted(acts, key=lambda act: (-act.days_ago, act.what != "authorise"))  # fmt: skip
