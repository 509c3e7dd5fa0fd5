"""The invented crew loads once, says it is invented, and shows every standing."""

import pytest
from flask import Flask

from app.accounts.people import all_people
from app.curriculum.loading.content import load_kept_module
from app.database import reading, writing
from app.demo.crew import EVERYBODY, OFFICERS, TRAINERS, WORKERS
from app.demo.earlier_texts import EARLIER_POLICY
from app.demo.loading import NotEmpty, load_demo
from app.demo.sites import JOBS, RESINS
from app.officer.texts.pages import text_states
from app.records.ledger.door import light_events
from app.records.policy import policy_from
from app.records.standing.definition import STATUSES, judge
from app.records.standing.settling import settle
from app.records.texts.kept import kept_files
from app.web.texts import TextShelf

ZONE = "America/New_York"


def load(app: Flask, clock) -> None:
    with app.app_context(), writing() as connection:
        load_demo(connection, app.extensions["lowport_curriculum"], clock(), ZONE)


def test_the_crew_shows_every_standing(app: Flask, clock):
    load(app, clock)
    curriculum = app.extensions["lowport_curriculum"]
    policy = policy_from(curriculum)
    with app.app_context(), reading() as connection:
        settled = settle(light_events(connection))
        people = all_people(connection)
    standings = [
        judge(settled, policy.rule(q), p.id, clock().date())
        for p in people
        for q in curriculum.qualifications
    ]
    assert {s.status for s in standings} == set(STATUSES)
    warnings = {w.code for s in standings if s.is_current for w in s.warnings}
    assert {"expires-soon", "continuity-due"} <= warnings
    whys = {why.code for s in standings for n in s.not_counted for why in n.whys}
    assert "late" in " ".join(whys)


def test_it_has_the_people_the_first_five_minutes_need():
    assert (len(WORKERS), len(TRAINERS), len(OFFICERS)) == (12, 3, 2)
    assert len({m.sign_in_name for m in EVERYBODY}) == len(EVERYBODY)


def test_sites_and_resins_say_that_they_are_invented():
    for thing in (*RESINS.values(),):
        assert "invented" in thing["name"]
        assert "invented" in thing["sheet"]
    assert all("invented" in job["site"] for job in JOBS.values())


def test_its_texts_are_approved_and_one_waits(app: Flask, clock):
    load(app, clock)
    content = app.extensions["lowport_curriculum"]
    with app.app_context(), reading() as connection:
        states = text_states(connection, content, clock().date())
        served = TextShelf(content, is_open=False).served(connection, clock().date())
        (earlier,) = [
            load_kept_module(one.name, kept_files(connection, one.history[-1].event.sha256))
            for one in states
            if len(one.history) > 1
        ]
    assert served.modules == content.modules
    assert served.policy_version == EARLIER_POLICY
    assert [one.name for one in states if one.is_waiting] == ["policy"]
    assert (earlier.id, earlier.revision) == ("ratio-sample", 1)
    warnings = [
        len(m.lesson("en").step("fit-the-tube").cautions)
        for m in (earlier, served.modules[earlier.id])
    ]
    assert warnings == [0, 1]


def test_it_refuses_a_database_with_people(app: Flask, clock, cast):
    cast.add("real.person", "worker")
    with pytest.raises(NotEmpty, match="already 1 people"):
        load(app, clock)
    with app.app_context(), reading() as connection:
        assert len(all_people(connection)) == 1


def test_one_supervised_repair_is_confirmed_by_who_was_watched(app: Flask, clock):
    load(app, clock)
    with app.app_context(), reading() as connection:
        events = list(light_events(connection))
        names = {person.id: person.name for person in all_people(connection)}
    (word,) = (event for event in events if event.kind == "worker-countersign")
    repair = next(event for event in events if event.id == word.target)
    assert repair.kind == "practical"
    assert names[word.person] == names[repair.person] == "Hugo Myth"
