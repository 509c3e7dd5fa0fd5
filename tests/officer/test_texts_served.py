"""What workers and trainers are served: the last approved text, on every server alike."""

import subprocess
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from app.curriculum.bundles import hash_of
from app.curriculum.model import Curriculum
from app.database import reading, writing
from app.demo.loading import _add_jobs
from app.ids import new_id
from app.records.ledger.door import all_events
from app.records.texts.kept import TextLost, kept_files
from app.web import texts as serving
from app.web.texts import TextShelf
from tests.officer.text_servers import MARK, MODULE, PASSWORD, Servers, edited_content, servers_at

WAITS = "The modules wait for approval by a safety officer."


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory) -> Curriculum:
    return edited_content(tmp_path_factory.mktemp("edited"))


@pytest.fixture
def servers(firm, settings, clock, curriculum, edited):
    """Nothing is approved yet."""
    both = servers_at(settings, clock, curriculum, edited)
    yield both
    both.stop()


@pytest.fixture
def running(servers: Servers) -> Servers:
    """The delivered texts are approved; one server has newer files already."""
    assert servers.as_delivered().status_code == 303
    return servers


def test_nothing_is_served_before_an_approval(servers: Servers, curriculum: Curriculum):
    ben = servers.client("ben")
    assert WAITS in ben.get("/learn").get_data(as_text=True)
    for module in curriculum.modules:
        answer = ben.get(f"/learn/{module}")
        assert answer.status_code == 404
        assert "waits for approval by a safety officer" in answer.get_data(as_text=True)
        assert ben.post(f"/learn/{module}/steps/1").status_code == 404
        assert ben.post(f"/learn/{module}/quiz").status_code == 404
    assert servers.client("olga").get("/").location == "/texts"
    assert "Nothing is served yet." in servers.page("olga", "/texts")
    assert servers.client("olga").get("/board").status_code == 200
    assert servers.client("ben").get("/my-standing").status_code == 200
    assert servers.client("tomas").get("/repairs").status_code == 200


def test_no_page_breaks_while_nothing_is_served(servers: Servers, firm):
    """Every address there is, with a real job and person in its places."""
    tomas, now = firm.people["tomas"], datetime(2026, 3, 2, 14)
    with servers.edited.app_context(), writing() as connection:
        job = next(iter(_add_jobs(connection, tomas, now).values()))
    places = {"job": job, "person": tomas, "module": MODULE, "name": MODULE, "verb": "grant"}
    places["qualification"] = "pump-operator"
    clients = [servers.client(name) for name in ("ben", "tomas", "olga")]
    seen = 0
    for rule in servers.edited.url_map.iter_rules():
        kinds = {name: type(one).__name__ for name, one in rule._converters.items()}
        values = {n: places.get(n, 1 if "Int" in kind else "x") for n, kind in kinds.items()}
        with servers.edited.test_request_context():
            url = servers.edited.url_map.bind("localhost").build(rule.endpoint, values)
        if "GET" in rule.methods and rule.endpoint != "static":
            answers = [client.get(url) for client in clients]
            assert all(answer.status_code < 500 for answer in answers), url
            seen += any(answer.status_code == 200 for answer in answers)
    assert seen > 30


def test_one_act_approves_all_as_delivered_each_by_its_own_record(servers, curriculum):
    assert servers.as_delivered().status_code == 303
    events = servers.approvals()
    assert {event.module for event in events} == {*curriculum.modules, "policy"}
    assert {event.author_name for event in events} == {"Lowport project"}
    assert len({e.signature.printed_name for e in events}) == 1  # a seal, see printed_names.py
    assert "Olga Invented" in servers.page("olga", f"/records/{events[0].id}")
    assert WAITS not in servers.page("ben", "/learn")


def test_a_newer_text_in_the_files_waits_and_the_approved_one_is_served(running: Servers):
    for app in (running.delivered, running.edited):
        page = running.page("ben", f"/learn/{MODULE}", app)
        assert "<h1" in page
        assert MARK not in page
    assert "waiting for approval" in running.page("olga", "/texts")
    assert MARK in running.page("olga", f"/texts/{MODULE}/waiting")
    assert MARK in running.page("olga", f"/texts/{MODULE}/compare")


def test_nobody_but_the_officer_reads_what_waits(running: Servers, edited: Curriculum):
    waiting = edited.module(MODULE).content_hash
    for name in ("ben", "tomas", "olga"):
        assert running.client(name).get(f"/text/{waiting}").status_code == 404
    for name in ("ben", "tomas"):
        assert running.client(name).get(f"/texts/{MODULE}/waiting").status_code == 403


def test_once_approved_every_server_serves_it_whatever_is_in_its_files(running: Servers):
    assert running.approve().status_code == 303
    for app in (running.delivered, running.edited):
        assert MARK in running.page("ben", f"/learn/{MODULE}", app)


def test_a_day_in_force_that_is_still_to_come_is_waited_for(running: Servers, clock):
    assert running.approve(occurred_on="2026-03-04").status_code == 303
    assert "revision 2 from 4 Mar 2026" in running.page("olga", "/texts")
    for on, is_served in (("2026-03-03", False), ("2026-03-04", True)):
        clock.pass_time(days=1)
        assert clock().date().isoformat() == on
        page = running.page("ben", f"/learn/{MODULE}", running.delivered)
        assert (MARK in page) is is_served


def test_a_void_approval_brings_the_text_before_it_back(running: Servers):
    step = f"/learn/{MODULE}/steps/1"
    assert 'data-revision="1"' in running.page("ben", step)
    record = running.approve().location.rsplit("/", 1)[1]
    assert MARK in running.page("ben", f"/learn/{MODULE}")
    assert 'data-revision="2"' in running.page("ben", step)
    data = {
        "record_id": new_id(),
        "occurred_on": "2026-03-02",
        "reason": "Approved by mistake (invented).",
        "password": PASSWORD,
    }
    answer = running.client("olga").post(f"/records/{record}/counter", data=data)
    assert answer.status_code == 303
    assert MARK not in running.page("ben", f"/learn/{MODULE}")
    assert 'data-revision="1"' in running.page("ben", step)


def test_the_ledger_is_asked_and_no_file_is_read_for_each_request(running, monkeypatch):
    ben = running.client("ben")
    first = ben.get(f"/learn/{MODULE}").get_data(as_text=True)

    def no(*_arguments):
        raise AssertionError("read again")

    monkeypatch.setattr(serving, "kept_files", no)
    monkeypatch.setattr(serving, "history_of", no)
    monkeypatch.setattr(Path, "read_bytes", no)
    assert ben.get(f"/learn/{MODULE}").get_data(as_text=True) == first


def test_training_and_quiz_name_the_text_they_were_made_against(running, clock, curriculum):
    ben = running.client("ben")
    steps = curriculum.module(MODULE).lesson("en").steps
    for number in range(1, len(steps) + 1):
        ben.post(f"/learn/{MODULE}/steps/{number}")
    ben.post(f"/learn/{MODULE}/quiz")
    running.approve()
    with running.edited.app_context(), reading() as connection:
        (training,) = [e for e in all_events(connection) if e.kind == "training"]
    assert training.revision == 1
    assert training.text_sha256 == curriculum.module(MODULE).content_hash
    for name in ("olga", "ben"):
        page = running.page(name, f"/text/{training.text_sha256}")
        assert steps[0].title in page
        assert MARK not in page
        assert ("The questions, with their keys" in page) is (name == "olga")
    assert training.text_sha256 in running.page("olga", f"/records/{training.id}")


def test_a_major_revision_asks_who_was_current_to_train_again(running, firm, clock, curriculum):
    firm.ready()
    firm.decide("grant", occurred_on="2026-02-25")
    board = "/board?qualification=pump-operator"
    assert "Ben Invented (Pump operator)" in running.page("olga", f"/texts/{MODULE}")
    running.approve()
    assert "Ben Invented</a>" in running.page("olga", f"{board}&standing=due-soon")
    clock.moment += timedelta(days=curriculum.qualification("pump-operator").grace_days + 1)
    assert "Ben Invented</a>" in running.page("olga", f"{board}&standing=update-needed")


def test_the_kept_bytes_check_with_sha256sum(running: Servers, tmp_path: Path, curriculum):
    """Outside check: coreutils' sha256sum reads the manifest and finds every file as it says."""
    module = curriculum.module(MODULE)
    with running.edited.app_context(), reading() as connection:
        files = kept_files(connection, module.content_hash)
        wanted = text("SELECT body FROM kept_text WHERE sha256 = :name")
        manifest = connection.scalar(wanted, {"name": module.content_hash})
    for path, data in {**files, "manifest": bytes(manifest)}.items():
        target = tmp_path / "laid-out" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    run = ["sha256sum", "--check", "--strict", "manifest"]
    checked = subprocess.run(run, cwd=tmp_path / "laid-out", capture_output=True, text=True)
    assert checked.returncode == 0, checked.stdout
    assert checked.stdout.count(": OK") == len(files) == len(module.files)
    summed = subprocess.run(
        ["sha256sum", "manifest"], cwd=tmp_path / "laid-out", capture_output=True
    )
    assert summed.stdout.decode().split()[0] == module.content_hash


@pytest.mark.parametrize("statement", ["UPDATE kept_text SET sha256 = ''", "DELETE FROM kept_text"])
def test_kept_texts_are_never_changed(running: Servers, statement: str):
    refused = pytest.raises(DatabaseError, match="never")
    with running.edited.app_context(), refused, writing() as connection:
        connection.execute(text(statement))


def test_the_crew_check_goes_by_the_approved_policy(running: Servers, firm):
    with running.edited.app_context(), writing() as connection:
        job = next(iter(_add_jobs(connection, firm.people["tomas"], datetime(2026, 3, 2)).values()))
    content = running.edited.extensions["lowport_curriculum"]
    words = content.policy_files["crew.yaml"].replace(b'crew_version: "', b'crew_version: "waits-')
    files = {**content.policy_files, "crew.yaml": words}
    changed = content.model_copy(update={"policy_files": files, "policy_hash": hash_of(files)})
    running.edited.extensions["lowport_texts"] = TextShelf(changed, is_open=False)
    page = running.page("tomas", f"/jobs/{job}/crew")
    assert running.client("tomas").get(f"/jobs/{job}/crew").status_code == 200
    assert "waits-" not in page
    assert "waits-" in running.page("olga", "/texts/policy/compare")


def test_a_changed_byte_is_found_and_stops_the_serving(running, settings, clock, edited):
    running.approve()
    damage(running.edited, edited.module(MODULE).files[f"modules/{MODULE}/lesson.en.md"])
    with running.edited.app_context(), reading() as connection, pytest.raises(TextLost):
        kept_files(connection, edited.module(MODULE).content_hash)
    # A server without those files has nothing but the kept bytes, and won't serve these.
    assert WAITS in running.page("ben", "/learn", running.delivered)
    page = running.page("olga", "/texts", running.delivered)
    assert "be read by this program, so nothing is served." in page
    assert "is not here as it was kept" in page


def damage(app: Flask, data: bytes) -> None:
    from hashlib import sha256

    with app.app_context(), writing() as connection:
        on = "" if connection.dialect.name == "sqlite" else " ON kept_text"
        connection.execute(text(f"DROP TRIGGER kept_text_no_update{on}"))
        change = text("UPDATE kept_text SET body = :body WHERE sha256 = :name")
        body = data.replace(b"Invented", b"Imvented")
        connection.execute(change, {"body": body, "name": sha256(data).hexdigest()})
