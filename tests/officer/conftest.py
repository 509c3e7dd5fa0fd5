"""An invented firm with an officer, trainers and a worker, and records told through the door."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time
from itertools import count
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import insert

from app.curriculum.model import Curriculum
from app.database import reading, writing
from app.ids import new_id
from app.records.events import Event, Practical, Quiz, TrainerAuthorised, Training, Use
from app.records.ledger.door import all_events, append
from app.workbook.tables import job, resin

PASSWORD = "wet-phone-in-basement"  # the cast's, see tests/conftest.py
PUMP, PREPARATION = "pump-operator", "preparation-hand"


@dataclass
class Firm:
    """People by sign-in name, and the means to put things on record."""

    app: Flask
    curriculum: Curriculum
    people: dict[str, str]
    sign_in: Callable[[str], FlaskClient]
    numbers: Iterator[int] = field(default_factory=lambda: count(1))

    def record(self, kind: type[Event], on: str, recorded_on: str = "", **values: Any) -> str:
        """Append an event of a day, recorded at noon UTC of that day or a later one."""
        record_id = values.pop("id", new_id())
        arrived = datetime.combine(date.fromisoformat(recorded_on or on), time(12), UTC)
        event = kind(
            id=record_id,
            occurred_on=date.fromisoformat(on),
            zone="America/New_York",
            recorded_at=arrived,
            **values,
        )
        with self.app.app_context(), writing() as connection:
            append(connection, event)
        return record_id

    def teach(self, person: str, on: str, qualification: str = PUMP) -> None:
        """Training and a passed quiz in each module of a qualification."""
        who = self.people[person]
        for module in self.curriculum.qualification(qualification).modules:
            revision = self.curriculum.module(module).revision
            common = {"person": who, "module": module, "revision": revision, "recorded_by": who}
            self.record(Training, on, **common)
            self.record(Quiz, on, passed=True, right=8, asked=8, **common)

    def watch(self, person: str, trainer: str, on: str, qualification: str = PUMP) -> str:
        """A passed supervised repair on a job of its own."""
        return self._watched(Practical, person, trainer, on, qualification)

    def use(self, person: str, trainer: str, on: str, qualification: str = PUMP) -> str:
        """A verified job."""
        return self._watched(Use, person, trainer, on, qualification)

    def _watched(
        self, kind: type[Event], person: str, trainer: str, on: str, qualification: str
    ) -> str:
        by = self.people[trainer]
        return self.record(
            kind,
            on,
            person=self.people[person],
            qualification=qualification,
            trainer=by,
            recorded_by=by,
            job=f"Job {next(self.numbers)} (invented)",
        )

    def authorise(self, trainer: str, qualification: str, on: str = "2020-01-01") -> str:
        return self.record(
            TrainerAuthorised,
            on,
            person=self.people[trainer],
            qualification=qualification,
            recorded_by=self.people["olga"],
        )

    def ready(self, person: str = "ben", qualification: str = PUMP) -> None:
        """Everything a grant needs, done in February 2026."""
        self.teach(person, "2026-02-02", qualification)
        self.watch(person, "tomas", "2026-02-10", qualification)
        self.watch(person, "uma", "2026-02-20", qualification)

    def events(self) -> list[Event]:
        with self.app.app_context(), reading() as connection:
            return list(all_events(connection))

    def of_kind(self, kind: str) -> list[Event]:
        return [event for event in self.events() if event.kind == kind]

    def decide(self, verb: str, client: FlaskClient | None = None, **more: Any) -> Any:
        """Send a decision about a person as the page's form would."""
        person = self.people[more.pop("person", "ben")]
        qualification = more.pop("qualification", PUMP)
        data = {
            "record_id": new_id(),
            "occurred_on": "2026-03-02",
            "reason": "Seen at the pump house (invented).",
            "password": PASSWORD,
            **more,
        }
        client = client or self.sign_in("olga")
        return client.post(f"/people/{person}/{qualification}/decide/{verb}", data=data)


@pytest.fixture
def firm(app: Flask, cast, curriculum: Curriculum) -> Firm:
    """Olga and Pia decide, Tomas and Uma train, Ben works. All invented. Today: 2 March 2026."""
    people = {
        "olga": cast.add("olga", "safety-officer", printed_name="Olga Invented"),
        "pia": cast.add("pia", "safety-officer", printed_name="Pia Invented"),
        "tomas": cast.add("tomas", "trainer", printed_name="Tomas Invented"),
        "uma": cast.add("uma", "trainer", printed_name="Uma Invented"),
        "ben": cast.add("ben", "worker", printed_name="Ben Invented"),
    }
    firm = Firm(app, curriculum, people, cast.sign_in)
    for trainer in ("tomas", "uma"):
        for qualification in (PUMP, PREPARATION):
            firm.authorise(trainer, qualification)
    return firm


@pytest.fixture
def olga(firm: Firm) -> FlaskClient:
    """The safety officer's browser."""
    return firm.sign_in("olga")


@pytest.fixture
def wall(app, firm) -> str:
    """A job."""
    by = {"created_by": firm.people["tomas"], "created_at": app.extensions["lowport_clock"]()}
    by["created_at"] = by["created_at"].replace(tzinfo=None)
    job_id, resin_id = new_id(), new_id()
    sizes = dict.fromkeys(("length_mm", "thickness_mm", "depth_mm", "spacing_mm"), 100)
    with app.app_context(), writing() as connection:
        connection.execute(
            insert(resin).values(id=resin_id, name="Tern (invented)", sheet="invented", **by)
        )
        connection.execute(
            insert(job).values(
                id=job_id, site="Mill (invented)", structure="North wall", orientation="vertical",
                access="one", spacing_rule="none", spacing_chosen_by="E. Invented",
                port_kind="surface", resin_id=resin_id, note="", is_invented=True, width_mm=0.5,
                **sizes, **by,
            )
        )  # fmt: skip
    return job_id


@pytest.fixture
def crew(firm, cast, olga) -> dict[str, str]:
    """Jon leads and may pump, Ida and Kaya pump, Ben knows the gear, Nia knows nothing."""
    for name in ("jon", "ida", "kaya", "nia"):
        firm.people[name] = cast.add(name, "worker", printed_name=f"{name.title()} Invented")
    for trainer in ("tomas", "uma"):
        firm.authorise(trainer, "lead-injector")
    for name, qualifications in (
        ("jon", ("preparation-hand", PUMP, "lead-injector")),
        ("ida", (PUMP,)),
        ("kaya", (PUMP,)),
    ):
        for qualification in qualifications:
            firm.ready(name, qualification)
            answer = firm.decide("grant", olga, person=name, qualification=qualification)
            assert answer.status_code == 303, answer.get_data(as_text=True)
    firm.teach("ben", "2026-02-02", PUMP)
    return firm.people
