"""Procedures: what is in the files, what is in force, and putting the one in force."""

import re
from datetime import timedelta

import pytest

from app.curriculum.loader import load_curriculum
from app.curriculum.model import Curriculum
from app.factory import create_app
from app.ids import new_id
from app.records.events import ContentRevised
from app.settings import ROOT

MODULE = "pump-purge"
PASSWORD = "wet-phone-in-basement"


def said(answer) -> str:
    return answer.get_data(as_text=True)


@pytest.fixture(scope="session")
def curriculum():
    """The content with one module a revision on, as after an edit of its files."""
    return at_revision(load_curriculum(ROOT / "content"), 7)


def at_revision(content: Curriculum, number: int) -> Curriculum:
    module = content.modules[MODULE]
    lesson = module.lessons["en"].model_copy(update={"revision": number})
    edited = module.model_copy(update={"lessons": {**module.lessons, "en": lesson}})
    return content.model_copy(update={"modules": {**content.modules, MODULE: edited}})


@pytest.fixture
def revised(firm):
    """Revision 6 is on record."""
    firm.record(ContentRevised, "2026-01-15", module=MODULE, revision=6, change="editorial")
    return firm


def revise(client, **more: str):
    data = {
        "record_id": new_id(),
        "occurred_on": "2026-03-02",
        "change": "major",
        "password": PASSWORD,
        **more,
    }
    return client.post(f"/procedures/{MODULE}", data=data)


def test_the_list_shows_the_files_and_what_is_in_force(revised, olga):
    row = said(olga.get("/procedures")).split(f'href="/procedures/{MODULE}"')[1].split("</tr>")[0]
    words = " ".join(re.sub(r"<[^>]+>", " ", row).split())
    assert "revision 6 since 15 Jan 2026" in words
    assert "revision 7" in words
    assert "not in force yet" in words


def test_putting_the_files_revision_in_force_is_a_signed_record(revised, olga):
    answer = revise(olga)
    assert answer.status_code == 303
    newest = revised.of_kind("content-revised")[-1]
    assert (newest.module, newest.revision, newest.change) == (MODULE, 7, "major")
    assert newest.recorded_by == revised.people["olga"]
    page = said(olga.get(answer.location))
    assert "I put this revision in force from the day given." in page
    assert "Olga Invented" in page
    page = said(olga.get(f"/procedures/{MODULE}"))
    assert "The files hold nothing newer than what is in force." in page


def test_somebody_trained_at_the_old_one_is_told_of(firm, olga, clock, settings, curriculum):
    firm.ready()
    firm.decide("grant", olga, occurred_on="2026-02-25")
    app = create_app(settings, clock, at_revision(curriculum, 8))
    app.config["WTF_CSRF_ENABLED"] = False
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": PASSWORD})
    page = said(client.get(f"/procedures/{MODULE}"))
    grace = timedelta(days=curriculum.qualification("pump-operator").grace_days)
    by = (clock() + grace).date()
    assert f"by {by.day} {by:%b} {by.year}" in page
    assert "Ben Invented (Pump operator)" in page
    assert revise(client).status_code == 303
    board = said(client.get("/board?qualification=pump-operator&standing=due-soon"))
    assert "Ben Invented</a>" in board


def test_sent_twice_it_is_one_record(revised, olga):
    record_id = new_id()
    first, second = revise(olga, record_id=record_id), revise(olga, record_id=record_id)
    assert first.location == second.location
    assert len(revised.of_kind("content-revised")) == 2


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"change": ""}, "Choose how far the change goes."),
        ({"change": "huge"}, "Not a valid choice"),
        ({"occurred_on": "2026-03-03"}, "3 Mar 2026 is in the future."),
        ({"occurred_on": "2026-01-14"}, "Revision 6 has been in force since 15 Jan 2026."),
        ({"password": "wrong-one"}, "That is not your password."),
    ],
)
def test_every_refusal_has_its_sentence(revised, olga, more, sentence):
    answer = revise(olga, **more)
    assert answer.status_code == 422
    assert sentence in said(answer)
    assert len(revised.of_kind("content-revised")) == 1


def test_an_old_revision_is_not_put_in_force_again(revised, olga):
    assert revise(olga).status_code == 303
    answer = revise(olga)
    assert answer.status_code == 422
    assert "Revision 7 is not above revision 7, which is already recorded." in said(answer)
