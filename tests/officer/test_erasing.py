"""A name erased on request: gone from every file, while the chain and everybody's standing hold."""

import re
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import select, text

from app.accounts.printed_names import is_seal
from app.cli.database import _compact
from app.database import db, reading, writing
from app.demo.crew import DEMO_PASSWORD, EVERYBODY
from app.demo.loading import load_demo
from app.factory import create_app
from app.ids import new_id
from app.records.events import Practical, Suspend
from app.records.ledger.canonical import canonical
from app.records.ledger.door import all_events
from app.records.ledger.encoding import data_of
from app.records.proof.verifying import verify
from app.web.now import system_clock
from app.workbook.sign_off_tables import phone_sign_off
from tests.browser.furnished import furnish

NAME, SIGNS_IN_AS = "Tomas Saga", "tomas"
ZONE = "America/New_York"


def said(answer) -> str:
    return answer.get_data(as_text=True)


def day(days: int = 0) -> str:
    """Today where the firm works, or so many days later."""
    return (datetime.now(ZoneInfo(ZONE)).date() + timedelta(days=days)).isoformat()


@pytest.fixture
def crew(settings, curriculum):
    """The demo crew with something begun everywhere; Tomas signed repairs, also on a phone."""
    app = create_app(settings, curriculum=curriculum)
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, system_clock(), ZONE)
    furnish(app, curriculum)
    yield app
    with app.app_context():
        db.engine.dispose()


def people(app) -> dict[str, str]:
    with app.app_context(), reading() as connection:
        rows = connection.execute(text("SELECT sign_in_name, id FROM person"))
        return dict(rows.all())


def browser(app, name: str):
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": name, "password": DEMO_PASSWORD})
    return client


def erase(app, person: str, by: str = "olga", **more: str):
    data = {
        "record_id": new_id(),
        "occurred_on": day(),
        "reason": "Asked for by letter of 1 March, data protection law (invented).",
        "is_sure": "y",
        "password": DEMO_PASSWORD,
        **more,
    }
    return browser(app, by).post(f"/people/{person}/erase", data=data)


def events(app) -> list:
    with app.app_context(), reading() as connection:
        return list(all_events(connection))


def files_with(folder: Path, needle: str) -> list[str]:
    wanted = re.compile(re.escape(needle.encode()), re.IGNORECASE)
    files = (path for path in folder.rglob("*") if path.is_file())
    return [path.name for path in files if wanted.search(path.read_bytes())]


def board(app) -> str:
    """The board's file, which is every standing there is, with its reasons."""
    return said(browser(app, "olga").get("/board.csv"))


def test_after_erasing_the_name_is_nowhere_and_all_else_holds(crew, tmp_path: Path, request):
    if request.config.getoption("database") != "sqlite":
        pytest.skip("looks into the file of SQLite")
    tomas = people(crew)[SIGNS_IN_AS]
    before, records = board(crew), events(crew)
    assert files_with(tmp_path, NAME)
    assert erase(crew, tomas).status_code == 303
    with crew.app_context():
        raw = db.engine.raw_connection()
        _compact(raw.driver_connection, "sqlite")
        raw.close()
        db.engine.dispose()
    assert files_with(tmp_path, NAME) == []
    assert files_with(tmp_path, "Saga") == []
    with crew.app_context(), reading() as connection:
        assert (
            connection.scalar(text("SELECT count(*) FROM person WHERE sign_in_name = 'tomas'")) == 0
        )
        assert verify(connection).wrong is None
        assert verify(connection, is_deep=True).wrong is None
    assert events(crew)[: len(records)] == records
    gone = f"Name erased / Nombre borrado (id {tomas})"
    expected = before.replace(NAME, gone).replace(",tomas,", f",erased-{tomas},")
    assert _standings(board(crew)) == _standings(expected) != []


def _standings(csv: str) -> list[str]:
    """The lines about people, sorted, without those that say when and from what it was made."""
    titles = re.compile(",(Preparation hand|Pump operator|Lead injector|Trainer),")
    return sorted(line for line in csv.splitlines() if titles.search(line))


def test_no_record_holds_a_name_only_seals(crew):
    """Whatever signs here has to use a seal, or it could never be erased."""
    names = [member.printed_name for member in EVERYBODY]
    signed = 0
    for event in events(crew):
        seen = getattr(event, "observation", None)
        signature = seen.signature if seen else event.signature
        if signature is not None:
            assert is_seal(signature.printed_name), event
            signed += 1
        body = canonical(data_of(event)).decode()
        assert not [name for name in names if name in body], event
    assert signed > 40


def test_pages_say_that_the_name_is_erased(crew):
    tomas = people(crew)[SIGNS_IN_AS]
    signed = next(e for e in events(crew) if isinstance(e, Practical) and e.trainer == tomas)
    assert NAME in said(browser(crew, "olga").get(f"/records/{signed.id}"))
    assert NAME in said(browser(crew, "uma").get(f"/repairs/{signed.id}"))
    record = erase(crew, tomas).location
    gone = f"Name erased / Nombre borrado (id {tomas})"
    for name, url in (
        ("olga", f"/records/{signed.id}"),
        ("uma", f"/repairs/{signed.id}"),
        ("olga", f"/people/{tomas}"),
        ("olga", "/people"),
        ("olga", record),
    ):
        page = said(browser(crew, name).get(url))
        assert NAME not in page, url
        assert gone in page, url
    assert "I erase this person&#39;s name" in said(browser(crew, "olga").get(record))
    assert "This name is erased already." in said(
        browser(crew, "olga").get(f"/people/{tomas}/erase")
    )


def test_what_the_phone_signed_is_dropped_and_its_hash_stays(crew):
    tomas = people(crew)[SIGNS_IN_AS]
    with crew.app_context(), reading() as connection:
        before = connection.execute(select(phone_sign_off)).all()
    assert before
    assert all(row.signed_text for row in before)
    erase(crew, tomas)
    with crew.app_context(), reading() as connection:
        after = connection.execute(select(phone_sign_off)).all()
    assert {row.signed_text for row in after} == {""}
    assert [row.sha256 for row in after] == [row.sha256 for row in before]


def test_there_is_no_way_in_and_no_new_name(crew):
    tomas = people(crew)[SIGNS_IN_AS]
    his = browser(crew, SIGNS_IN_AS)
    assert his.get("/jobs").status_code == 200
    erase(crew, tomas)
    assert his.get("/jobs").status_code == 302
    for name in (SIGNS_IN_AS, f"erased-{tomas}"):
        sent = {"sign_in_name": name, "password": DEMO_PASSWORD}
        answer = crew.test_client().post("/sign-in", data=sent)
        assert answer.status_code != 302
    olga = browser(crew, "olga")
    for what, more in (
        ("name", {"name-printed_name": "Tomas Again"}),
        ("active", {"active-is_active": "y"}),
        (
            "password",
            {
                "password-new_password": "a-brand-new-way-in",
                "password-own_password": DEMO_PASSWORD,
            },
        ),
    ):
        answer = olga.post(f"/people/{tomas}/account/{what}", data=more)
        assert answer.status_code == 422, what
        assert "name was erased. Add a new person instead." in said(answer)


def test_names_in_papers_go_and_names_in_records_are_told_of(crew):
    people_here = people(crew)
    tomas = people_here[SIGNS_IN_AS]
    with crew.app_context(), writing() as connection:
        note = "Spacing talked over with TOMAS  saga; Tomasa Sagan was away."
        connection.execute(text("UPDATE job SET note = :note"), {"note": note})
    data = {
        "record_id": new_id(),
        "occurred_on": day(),
        "reason": f"Told by {NAME} (invented).",
        "password": DEMO_PASSWORD,
    }
    url = f"/people/{people_here['ben']}/preparation-hand/decide/suspend"
    assert browser(crew, "olga").post(url, data=data).status_code == 303
    page = said(browser(crew, "olga").get(f"/people/{tomas}/erase"))
    assert "One record holds the name in words that somebody typed." in page
    erase(crew, tomas)
    with crew.app_context(), reading() as connection:
        notes = set(connection.scalars(text("SELECT note FROM job")))
    assert notes == {
        "Spacing talked over with [name erased / nombre borrado]; Tomasa Sagan was away."
    }
    assert any(NAME in e.reason for e in events(crew) if isinstance(e, Suspend))


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"reason": ""}, "Write the reason."),
        ({"reason": "TOMAS saga asked for it."}, "Write the reason without the name"),
        ({"is_sure": ""}, "Tick it if you are sure."),
        ({"password": "wrong-one"}, "That is not your password."),
        ({"occurred_on": day(2)}, "is in the future."),
    ],
)
def test_every_refusal_has_its_sentence_and_erases_nothing(crew, more, sentence):
    tomas = people(crew)[SIGNS_IN_AS]
    answer = erase(crew, tomas, **more)
    assert answer.status_code == 422
    assert sentence in said(answer)
    assert people(crew)[SIGNS_IN_AS] == tomas
    assert not any(event.kind == "name-erased" for event in events(crew))


def test_nobody_erases_themselves_and_nobody_twice(crew):
    known = people(crew)
    answer = erase(crew, known["olga"])
    assert "You cannot decide about yourself." in said(answer)
    sent = {"record_id": new_id()}
    first, second = (erase(crew, known["petra"], **sent) for _ in range(2))
    assert first.location == second.location
    assert "This name is erased already." in said(erase(crew, known["petra"]))
    assert sum(event.kind == "name-erased" for event in events(crew)) == 1


def test_all_entries_of_one_person_are_erased(crew):
    known = people(crew)
    data = {
        "record_id": new_id(),
        "occurred_on": day(),
        "reason": "Same face (invented).",
        "password": DEMO_PASSWORD,
        "kept": known["nia"],
        "merged": known["hugo"],
    }
    olga = browser(crew, "olga")
    answer = olga.post("/merge", data=data)
    if answer.status_code == 422:
        proposal = olga.post("/merge", data={**data, "propose": "yes"}).location.rsplit("/", 1)[1]
        sent = {key: data[key] for key in ("occurred_on", "password")} | {"record_id": new_id()}
        answer = browser(crew, "petra").post(f"/corrections/{proposal}", data=sent)
    assert answer.status_code == 303
    erase(crew, known["nia"])
    assert not {"nia", "hugo"} & people(crew).keys()
