"""Opening and signing the page of a record that touches a whole firm. The firm is invented.

300 people for five years, watched by twelve trainers: all prepare, half run a pump as well, every
tenth leads. Made void, in turn: a trainer's withdrawal (all they signed since), a major revision of
the module that every qualification takes in, an editorial one, and two trainers entered as one.
Goal: the page open, and the signed form answered, in under a second of processor each, the signing
of a password included; floor is reading the same records.
python tests/bench/bench_corrections.py
"""

import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

from flask import Flask
from flask.testing import FlaskClient

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from app.accounts.people import add_person
from app.curriculum.loading.content import load_curriculum
from app.curriculum.model import Curriculum
from app.database import db, reading, writing
from app.factory import create_app
from app.ids import new_id
from app.migrations.upgrading import upgrade_database
from app.records.events import (
    ContentRevised,
    Event,
    Grant,
    IdentityMerged,
    Practical,
    Quiz,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Use,
)
from app.records.ledger.door import append, light_events
from app.records.policy import policy_from
from app.records.projection.stored.rebuilding import rebuild
from app.settings import ROOT, settings_from

PEOPLE, TRAINERS, YEARS, ROUNDS = 300, 12, 5, 5
TRADES = ("preparation-hand", "pump-operator", "lead-injector")
OPENED_ON, TODAY = date(2021, 3, 1), date(2026, 3, 2)
PASSWORD = "wet-phone-in-basement"


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="lowport-bench-") as folder:
        curriculum = load_curriculum(ROOT / "content")
        app = app_in(folder, curriculum)
        with app.app_context():
            upgrade_database()
            with writing() as connection:
                everybody = {name: new_person(connection, name) for name in names()}
            rebuild(db.engine, policy_from(curriculum))
            told = sorted(history(curriculum, everybody), key=lambda event: event.recorded_at)
            with writing() as connection:
                for event in told:
                    append(connection, event)
        floor = statistics.median(seconds(lambda: read_all(app)) for _ in range(ROUNDS))
        print(f"{len(told):,} records, {PEOPLE} people; reading them all: {floor:.2f} s")
        officer = signed_in(app)
        for name, target in targets(told).items():
            bench(officer, name, target, floor)


def app_in(folder: str, curriculum: Curriculum) -> Flask:
    values = {"LOWPORT_INSTANCE": folder, "LOWPORT_SECRET_KEY": "a-secret-for-a-bench"}
    settings = settings_from({**values, "LOWPORT_DATABASE_URL": f"sqlite:///{folder}/bench.db"})
    now = datetime(TODAY.year, TODAY.month, TODAY.day, 14, tzinfo=UTC)
    app = create_app(settings, lambda: now, curriculum)
    app.config["WTF_CSRF_ENABLED"] = False
    return app


def names() -> list[str]:
    trainers = [f"trainer-{number}" for number in range(TRAINERS)]
    return ["officer", *trainers, *(f"worker-{number}" for number in range(PEOPLE))]


def new_person(connection: Any, name: str) -> str:
    role = {"o": "safety-officer", "t": "trainer", "w": "worker"}[name[0]]
    return add_person(
        connection,
        sign_in_name=name,
        printed_name=f"{name.title()} Invented",
        password=PASSWORD,
        roles=(role,),
    )


def history(curriculum: Curriculum, people: dict[str, str]) -> Iterator[Event]:
    chance = Random(20260302)
    trainers = [people[f"trainer-{number}"] for number in range(TRAINERS)]
    for trainer in trainers:
        for trade in TRADES:
            yield TrainerAuthorised(**at(OPENED_ON), person=trainer, qualification=trade)
    for number in range(PEOPLE):
        trades = TRADES if number % 10 == 0 else TRADES[: 1 + number % 2]
        yield from working_life(chance, curriculum, people[f"worker-{number}"], trades, trainers)
    away = {"person": trainers[0], "qualification": TRADES[0], "reason": "Invented."}
    yield TrainerWithdrawn(**at(OPENED_ON + timedelta(days=400)), **away)
    gear = {"module": "safety-gear", "author_name": "Invented"}
    since = at(TODAY - timedelta(days=60))
    yield ContentRevised(**since, **gear, revision=8, change="editorial")
    yield ContentRevised(**{**since, "id": new_id()}, **gear, revision=9, change="major")
    yield IdentityMerged(**at(TODAY), person=trainers[1], merged=trainers[2], reason="Invented.")


def at(day: date) -> dict[str, Any]:
    noon = datetime(day.year, day.month, day.day, 17, tzinfo=UTC)
    return {"id": new_id(), "occurred_on": day, "zone": "America/New_York", "recorded_at": noon}


def working_life(
    chance: Random,
    curriculum: Curriculum,
    person: str,
    trades: tuple[str, ...],
    trainers: list[str],
) -> Iterator[Event]:
    """Granted every second year, and a job about every 80 days in each of the trades."""
    for year in range(0, YEARS, 2):
        start = OPENED_ON + timedelta(days=365 * year + chance.randrange(20))
        for module in curriculum.modules.values():
            own = {"person": person, "module": module.id, "revision": module.revision}
            yield Training(**at(start), **own)
            yield Quiz(**at(start), **own, passed=True, right=8, asked=8)
        for trade in trades:
            held = {"person": person, "qualification": trade}
            for days, trainer in zip((20, 25), chance.sample(trainers, 2), strict=True):
                job = {"trainer": trainer, "job": new_id()}
                yield Practical(**at(start + timedelta(days=days)), **held, **job)
            yield Grant(**at(start + timedelta(days=30)), **held, decider="M1", reason="Invented.")
            for days in range(100, 700, 80):
                on = start + timedelta(days=days + chance.randrange(20))
                if on < TODAY:
                    yield Use(**at(on), **held, trainer=chance.choice(trainers), job=new_id())


def targets(told: list[Event]) -> dict[str, str]:
    kinds = (TrainerWithdrawn, ContentRevised, IdentityMerged)
    found = [event for event in told if isinstance(event, kinds)]
    return {f"{event.kind} {getattr(event, 'change', '')}".strip(): event.id for event in found}


def seconds(work: Any) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def read_all(app: Flask) -> None:
    with app.app_context(), reading() as connection:
        list(light_events(connection))


def signed_in(app: Flask) -> FlaskClient:
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "officer", "password": PASSWORD})
    return client


def bench(officer: FlaskClient, name: str, target: str, floor: float) -> None:
    """Open it, and sign the form as it stands there: alone, or where it raises, as a proposal."""
    opened = [seconds(lambda: officer.get(f"/records/{target}")) for _ in range(ROUNDS)]
    page = officer.get(f"/records/{target}").get_data(as_text=True)
    propose = "yes" if "Sign: propose it" in page else ""
    answers = []
    sent = form(propose=propose)
    signed = seconds(lambda: answers.append(officer.post(f"/records/{target}/counter", data=sent)))
    assert answers[0].status_code == 303, answers[0].get_data(as_text=True)
    middle, count = statistics.median(opened), page.count('class="rise-of"')
    print(f"{name}: open {middle:.2f} s ({middle / floor:.1f} of reading), signed {signed:.2f} s;"
          f" standings that rise, of those shown: {count}")  # fmt: skip


def form(**more: str) -> dict[str, str]:
    return {"record_id": new_id(), "occurred_on": TODAY.isoformat(), "reason": "Wrong, invented.",
            "password": PASSWORD, **more}  # fmt: skip


if __name__ == "__main__":
    main()
