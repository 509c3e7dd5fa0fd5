"""A trainer at work: invented people, a resin, a job, and how a repair is gone through by page."""

import re
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from html import unescape

import pytest
from flask import Flask
from flask.testing import FlaskClient

from app.curriculum.model import Curriculum
from app.database import reading, writing
from app.ids import new_id
from app.records.events import Event, TrainerAuthorised
from app.records.ledger.door import all_events, append

PASSWORD = "wet-phone-in-basement"

JOB = {
    "site": "Mill Pond pump house (invented)",
    "structure": "North wall",
    "orientation": "vertical",
    "access": "one",
    "length": "12 ft",
    "thickness": "6 in",
    "is_full": "y",
    "width": "20 mil",
    "port_kind": "surface",
    "spacing_rule": "spacing-half-thickness",
    "spacing": "3 in",
    "spacing_chosen_by": "E. Invented, engineer",
    "act": "open",
}
RESIN = {
    "name": "Tern Two (invented)",
    "sheet": "Invented data sheet, January 2026",
    "parts_a": "2",
    "parts_b": "1",
    "ratio_tolerance": "5 %",
    "density_a_g_per_ml": "1.15 g/mL",
    "density_b_g_per_ml": "0.98 g/mL",
    "viscosity_pa_s": "300 cP",
    "pot_life_min": "30 min",
    "pot_life_reference_c": "21 C",
    "gel_time_min": "70 min",
    "min_temperature_c": "50 F",
    "max_temperature_c": "90 F",
    "max_pressure_mpa": "45 psi",
}
# What is measured, as typed; all of it inside its limits for JOB and RESIN.
MEASURED = {
    "temperature_a": "68 F", "temperature_b": "68 F", "purged_volume": "1 l",
    "hose_diameter": "3/8 in", "hose_length": "3 m", "start_pressure": "160", "end_pressure": "155",
    "waited": "3 min", "least_pressure": "150 psi", "least_wait": "3 min", "sample_a": "100",
    "sample_b": "50 ml", "last_sample_a": "100 ml", "last_sample_b": "51 ml",
    "rated_airflow": "125 cfm", "wheel": "5 in", "eyewash_path": "40 ft",
}  # fmt: skip


@dataclass
class Yard:
    """The trainer Ana, the worker Pat, and the browser of whoever is signed in."""

    app: Flask
    curriculum: Curriculum
    client: FlaskClient
    people: dict[str, str]
    ids: dict[str, str] = field(default_factory=dict)

    def page(self, path: str) -> str:
        """The text of a page that must be there."""
        answer = self.client.get(path)
        assert answer.status_code == 200, f"{path}: {answer.status_code}"
        return answer.get_data(as_text=True)

    def post(self, path: str, **data: str):
        return self.client.post(path, data=data)

    def events(self) -> list[Event]:
        with self.app.app_context(), reading() as connection:
            return list(all_events(connection))

    def authorise(self, name: str, qualification: str, on: date = date(2020, 1, 1)) -> None:
        with self.app.app_context(), writing() as connection:
            append(
                connection,
                TrainerAuthorised(
                    id=new_id(),
                    occurred_on=on,
                    zone="America/New_York",
                    recorded_at=datetime(2020, 1, 1, 18, tzinfo=UTC),
                    recorded_by="officer",
                    person=self.people[name],
                    qualification=qualification,
                ),
            )

    def new_resin(self, **changes: str) -> str:
        answer = self.post("/resins/new", **(RESIN | changes))
        assert answer.status_code == 303, text(answer)
        return answer.location.rsplit("/", 1)[1]

    def new_job(self, **changes: str) -> str:
        changes.setdefault("resin", self.ids.get("resin") or self.new_resin())
        self.ids["resin"] = changes["resin"]
        answer = self.post("/jobs/new", **(JOB | changes))
        assert answer.status_code == 303, text(answer)
        return answer.location.rsplit("/", 1)[1]

    def start(self, job: str, person: str = "pat.worker", **changes: str):
        data = {
            "person": self.people[person],
            "qualification": "pump-operator",
            "occurred_on": "2026-03-02",
        }
        return self.post(f"/jobs/{job}/repairs/new", **(data | changes))

    def started(self, **changes: str) -> str:
        answer = self.start(self.new_job(), **changes)
        assert answer.status_code == 303, text(answer)
        return answer.location.rsplit("/", 1)[1]

    def note(self, repair: str, module: str, item: str, outcome: str = "done", **typed: str):
        return self.post(f"/repairs/{repair}/{module}/{item}", outcome=outcome, **typed)

    def watch_all(self, repair: str, qualification: str = "pump-operator") -> None:
        """Note every step as done, with what was measured, and judge the whole."""
        self.note_all(repair, qualification)
        answer = self.post(
            f"/repairs/{repair}/judgement", overall="works-safely-alone", remarks="Keep the log."
        )
        assert answer.status_code == 303

    def note_all(self, repair: str, qualification: str = "pump-operator") -> None:
        """Note every step as done, with what was measured."""
        for module in self.curriculum.qualification(qualification).checklist_modules():
            for item in self.curriculum.module(module).checklist:
                typed = {measure.id: MEASURED[measure.id] for measure in item.measures}
                answer = self.note(repair, module, item.id, **typed)
                assert answer.status_code == 303, text(answer)

    def sign(self, repair: str, password: str = PASSWORD):
        return self.post(f"/repairs/{repair}/sign", password=password)


def text(answer) -> str:
    """The readable text of an answer."""
    bare = unescape(re.sub(r"<[^>]+>", " ", answer.get_data(as_text=True)))
    return " ".join(bare.split())


@pytest.fixture
def yard(app: Flask, cast, curriculum: Curriculum) -> Yard:
    """Ana, a trainer authorised as such for pump operators since 2020, is signed in."""
    people = {
        "ana.trainer": cast.add("ana.trainer", "trainer", "worker"),
        "tom.trainer": cast.add("tom.trainer", "trainer"),
        "pat.worker": cast.add("pat.worker", "worker"),
    }
    yard = Yard(app, curriculum, cast.sign_in("ana.trainer"), people)
    yard.authorise("ana.trainer", "pump-operator")
    return yard
