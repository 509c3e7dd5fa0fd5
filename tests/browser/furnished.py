"""The invented crew with something begun everywhere, so that every page has what it shows.

Everything is done through the pages' own forms, without a browser; ``furnish`` returns the ids that
the addresses in every_page.py leave open.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from uuid import uuid4

from flask import Flask
from flask.testing import FlaskClient

from app.accounts.people import people_with_role
from app.curriculum.model import Curriculum
from app.database import reading
from app.demo.crew import DEMO_PASSWORD
from app.records.ledger.door import all_events
from tests.trainer.conftest import MEASURED, Yard
from tests.trainer.wall_phone import WallPhone, body_of, wall_data
from tests.web.phone import send_all
from tests.worker.practice_hand import Hand
from tests.worker.quiz_taker import do_all_steps, opened, sent

QUESTIONS = 8  # of a quiz, see DEVELOPERS.md
UNITS = ("", "ml", "mm", "min", "psi", "F", "cfm", "ppm", "%", "g", "Pa s", "h")
FULL_LOG = {"port": "1", "opened_at": "09:05", "next_showed_at": "09:14", "pressure": "20"}


@dataclass(frozen=True)
class Crew:
    """The app, its people by sign-in name, and how one of them signs in."""

    app: Flask
    curriculum: Curriculum
    people: dict[str, str]

    def client(self, name: str) -> FlaskClient:
        client = self.app.test_client()
        answer = client.post("/sign-in", data={"sign_in_name": name, "password": DEMO_PASSWORD})
        assert answer.status_code == 302
        return client


def furnish(app: Flask, curriculum: Curriculum) -> dict[str, str]:
    """Begin something on every page; return the ids by the names that every_page.py uses."""
    app.config["WTF_CSRF_ENABLED"] = False
    with app.app_context(), reading() as connection:
        people = {
            p.sign_in_name: p.id
            for role in ("worker", "trainer", "safety-officer")
            for p in people_with_role(connection, role)
        }
    crew = Crew(app, curriculum, people)
    text = curriculum.module("ratio-sample").content_hash
    return {
        "ben": people["ben"],
        "text": text,
        # Elsa's suspension was recorded three days after its day; app/demo/story.py.
        "held_on": (date.today() - timedelta(days=20)).isoformat(),
        **_trained(crew),
        **_watched(crew),
        **_recorded(crew),
    }


def _trained(crew: Crew) -> dict[str, str]:
    """A quiz with a question answered and one open, one that is over, and two practice cracks."""
    nia = crew.client("nia")
    asked = {}
    for name, module in (("choice", "port-setting"), ("sum", "ratio-sample"), ("over", "shutdown")):
        do_all_steps(nia, module)
        asked[name] = sent(nia, f"/learn/{module}/quiz").path.rsplit("/", 1)[0]
    _answer(nia, asked["choice"])
    for _ in range(12):
        if not opened(nia, asked["sum"]).options:
            break
        _answer(nia, asked["sum"])
    for _ in range(QUESTIONS):
        _answer(nia, asked["over"])
    hand = Hand(nia, "/practice-crack/horizontal")
    hand.press("move", 1)
    hand.press("pump")
    other = Hand(nia, "/practice-crack/plain-vertical")
    other.press("move", 1)
    other.open_wall()
    quizzes = {name: address.split("/")[2] for name, address in asked.items()}
    quizzes["sum_at"] = opened(nia, asked["sum"]).path.rsplit("/", 1)[1]
    return {**quizzes, "run": hand.address.rsplit("/", 1)[1], "opened": other.address.split("/")[3]}


def _answer(client: FlaskClient, quiz: str) -> None:
    """Answer the open question: the first option, or one of whatever it asks for."""
    page = opened(client, quiz)
    if page.options:
        sent(client, page.path, option=next(iter(page.options.values())))
        return
    for unit in UNITS:
        after = sent(client, page.path, answer=f"1 {unit}", act="mark")
        if "verdict" in after.html:
            return
    raise AssertionError(f"no unit fits: {page.asked}")


def _watched(crew: Crew) -> dict[str, str]:
    """One repair half noted, one to review, one signed, one that waits for the password."""
    yard = Yard(crew.app, crew.curriculum, crew.client("tomas"), crew.people)
    today = date.today().isoformat()
    job = yard.new_job()
    begun = _started(yard, job, "jon", "lead-injector", today)
    yard.post(f"/repairs/{begun}/ports", **FULL_LOG)
    yard.post(f"/repairs/{begun}/batches", mixed_at="09:00", resin_temperature="68 F")
    whole = _started(yard, job, "kaya", "pump-operator", today)
    yard.watch_all(whole)
    signed = _started(yard, yard.new_job(structure="South wall"), "nia", "pump-operator", today)
    yard.watch_all(signed)
    assert yard.sign(signed, DEMO_PASSWORD).status_code == 303
    return {
        "job": job,
        "resin": yard.ids["resin"],
        "begun": begun,
        "whole": whole,
        "signed": signed,
        **_from_phone(yard, crew, job, today),
    }


def _started(yard: Yard, job: str, person: str, qualification: str, today: str) -> str:
    answer = yard.start(job, person, qualification=qualification, occurred_on=today)
    assert answer.status_code == 303, answer.get_data(as_text=True)
    return answer.location.rsplit("/", 1)[1]


def _from_phone(yard: Yard, crew: Crew, job: str, today: str) -> dict[str, str]:
    """A phone that signs, and what came from a phone without a key."""
    phone = WallPhone(crew.people["tomas"])
    assert phone.enrol(yard.client, DEMO_PASSWORD).status_code == 303
    held = _started(yard, job, "cora", "pump-operator", today)
    body = body_of(wall_data(yard.client, held), MEASURED)
    text = {"repair": held, "way": "password", "signed": _text(body)}
    (outcome,) = send_all(yard.client, phone.item("sign-off", text))
    assert outcome["status"] == 201, outcome
    later = phone.sequence + 3  # two numbers that did not arrive: a gap to show
    send_all(yard.client, phone.step("eyes", sequence=later, id=str(uuid4())))
    return {"held": held, "phone": phone.device}


def _text(body: dict[str, object]) -> str:
    import rfc8785

    return rfc8785.dumps(body).decode()


def _recorded(crew: Crew) -> dict[str, str]:
    """One record of each kind that the safety officer may open."""
    with crew.app.app_context(), reading() as connection:
        found = {event.kind: event.id for event in all_events(connection)}
    return {**found, "proposal": found["correction-proposed"]}
