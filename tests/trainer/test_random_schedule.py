"""A random schedule of signal, no signal, trouble and dead batteries: nothing lost, nothing twice.

200 rounds at the level of the outbox's protocol, with phones that keep, send and forget by the same
rules as the phone's own script (app/web/static/js/outbox). The seed is fixed, so a failure can be
run again. tests/browser/test_offline_schedule.py does a smaller number on real browsers.
"""

import json
import random
from collections.abc import Callable
from dataclasses import dataclass, field

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import select

from app.accounts.devices import all_devices
from app.curriculum.model import Curriculum
from app.database import reading
from app.records.events import Practical
from app.records.ledger.door import light_events
from app.workbook.outbox_tables import outbox_receipt
from app.workbook.receipts import sequence_gaps
from app.workbook.tables import step_done
from tests.trainer.conftest import MEASURED, PASSWORD, Yard
from tests.trainer.wall_phone import WallPhone, body_of, wall_data
from tests.web.phone import Phone, send

ROUNDS = 200
SEED = 20260302
WEATHER = ("good", "good", "none", "trouble", "answer-lost", "killed-while-sending", "signed-out")


@dataclass
class Carried:
    """A phone in somebody's pocket: what it has made, what still waits on it."""

    phone: Phone
    name: str
    client: FlaskClient
    sign_in: Callable[[str], FlaskClient]
    left: list[Callable[[], str]]  # what there is to do yet
    waiting: list[str] = field(default_factory=list)
    made: list[str] = field(default_factory=list)
    refused: list[dict] = field(default_factory=list)

    def work(self) -> None:
        if self.left:
            item = self.left.pop(0)()
            self.waiting.append(item)
            self.made.append(item)

    def send(self, weather: str) -> None:
        """One sending, as sending.js does it: forget an item only on a receipt for its own id."""
        if not self.waiting or weather in ("none", "trouble"):
            return
        if weather == "signed-out":
            self.client = self.client.application.test_client()
        body = {"items": self.waiting[:20], "issued": {self.phone.device: self.phone.sequence}}
        answer = send(self.client, json.dumps(body))
        if answer.status_code == 401:
            self.client = self.sign_in(self.name)
            return
        assert answer.status_code == 200, answer.get_data(as_text=True)
        if weather in ("answer-lost", "killed-while-sending"):
            return  # the server has it, the phone does not know
        for item, outcome in zip(self.waiting[:20], answer.get_json()["outcomes"], strict=True):
            if outcome["status"] < 300 and outcome["receipt"]["id"] == json.loads(item)["id"]:
                self.waiting.remove(item)
            else:
                self.refused.append(outcome)


@pytest.fixture
def crew(
    yard: Yard,
    cast,
    app: Flask,
    curriculum: Curriculum,
) -> list[Carried]:
    """Three workers who go through their steps, two trainers who sign repairs."""
    found = []
    for name in ("ole", "pia", "quin"):
        phone = Phone(cast.add(f"{name}.worker", "worker"))
        steps = [
            (module.id, step.id)
            for module in curriculum.modules.values()
            for step in module.lesson("en").steps
        ]
        left = [lambda p=phone, m=m, s=s: p.step(s, m) for m, s in steps]
        client = cast.sign_in(f"{name}.worker")
        found.append(Carried(phone, f"{name}.worker", client, cast.sign_in, left))
    yard.authorise("tom.trainer", "pump-operator")
    for name in ("ana.trainer", "tom.trainer"):
        found.append(trainer_with_repairs(yard, cast, name))
    return found


def trainer_with_repairs(yard: Yard, cast, name: str) -> Carried:
    yard.client = client = cast.sign_in(name)
    phone = WallPhone(yard.people[name])
    assert phone.enrol(client, PASSWORD).status_code == 303
    left = []
    for _ in range(5):
        body = body_of(wall_data(client, yard.started()), MEASURED)
        left.append(lambda p=phone, b=body: p.sign_off(b))
    return Carried(phone, name, client, cast.sign_in, left)


def test_two_hundred_rounds_lose_nothing_and_double_nothing(crew: list[Carried], app: Flask):
    drawn = random.Random(SEED)
    for _ in range(ROUNDS):
        carried = drawn.choice(crew)
        for _ in range(drawn.randrange(4)):
            carried.work()
        for _ in range(drawn.randrange(1, 3)):  # two tabs may send the same
            carried.send(drawn.choice(WEATHER))
        drawn.shuffle(carried.waiting)  # the order of arrival must not matter
    for carried in crew:
        for _ in range(200):
            carried.send("good")
            if not carried.waiting:
                break
    assert [one.waiting for one in crew] == [[]] * len(crew)
    assert [one.refused for one in crew] == [[]] * len(crew)
    made = [json.loads(item) for carried in crew for item in carried.made]
    assert len(made) > 100
    assert sorted(received(app)) == sorted(item["id"] for item in made)
    signed = sorted(i["payload"]["repair"] for i in made if i["kind"] == "sign-off")
    assert len(signed) > 3
    assert sorted(recorded(app)) == signed
    steps = {(i["person"], i["payload"]["step"]) for i in made if i["kind"] == "step-done"}
    assert set(steps_done(app)) == steps
    assert gaps(app) == []


def received(app: Flask) -> list[str]:
    with app.app_context(), reading() as connection:
        return list(connection.scalars(select(outbox_receipt.c.id)))


def recorded(app: Flask) -> list[str]:
    with app.app_context(), reading() as connection:
        return [one.id for one in light_events(connection) if isinstance(one, Practical)]


def steps_done(app: Flask) -> list[tuple[str, str]]:
    with app.app_context(), reading() as connection:
        rows = connection.execute(select(step_done.c.person_id, step_done.c.step_id))
        return [tuple(row) for row in rows]


def gaps(app: Flask) -> list:
    with app.app_context(), reading() as connection:
        return [
            gap
            for one in all_devices(connection)
            for gap in sequence_gaps(connection, one.id, one.last_sequence)
        ]
