"""The board from the rows kept for it: the same page as from the records, whatever comes after."""

import re
from datetime import date

import pytest
from flask import Flask
from sqlalchemy import delete, select, update
from test_officer_board import board, cell

from app.curriculum.model import Curriculum
from app.database import db, reading, writing
from app.demo.loading import load_demo
from app.records.events import ContentRevised
from app.records.policy import policy_from
from app.records.projection.stored.interval_tables import standing_interval, standing_projection
from app.records.projection.stored.rebuilding import rebuild
from app.web.texts import TextShelf

HINT = "lowport records rebuild"


def kept_rows(app: Flask) -> set[tuple]:
    with app.app_context(), reading() as connection:
        return {tuple(row) for row in connection.execute(select(standing_interval))}


def forget_rows(app: Flask) -> None:
    with app.app_context(), writing() as connection:
        connection.execute(delete(standing_projection))


def rebuilt(app: Flask) -> None:
    with app.app_context():
        rebuild(db.engine, policy_from(app.extensions["lowport_curriculum"]))


def shown(page: str) -> str:
    """All the page says about people, without the hint."""
    page = page[page.index('<form class="filter"') : page.index("</main>")]
    return re.sub(rf'<p class="quiet">[^<]*<code>{HINT}</code>[^<]*</p>\s*', "", page)


@pytest.mark.parametrize("standing", ["", "due-soon", "not-qualified"])
def test_the_page_is_the_same_from_the_rows_and_from_the_records(
    app, clock, curriculum, standing: str
):
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": "wall-before-noon"})
    asked = [
        {"as_of": as_of, "known_on": known_on, "standing": standing}
        for as_of in ("2024-06-01", "2025-11-15", "2026-03-02", "2026-09-01", "2031-01-01")
        for known_on in ("", "2025-11-30", "2026-02-20")
    ]
    quick = [board(client, **query) for query in asked]
    assert not any(HINT in page for page in quick)
    forget_rows(app)
    slow = [board(client, **query) for query in asked]
    assert all(HINT in page for page in slow)
    assert [shown(page) for page in quick] == [shown(page) for page in slow]


def test_when_days_pass_no_row_is_written(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    before = kept_rows(firm.app)
    assert cell(board(olga), "Ben Invented", "Pump operator").startswith("Current")
    soon = board(olga, as_of="2026-08-10")
    assert cell(soon, "Ben Invented", "Pump operator").startswith("Due soon")
    late = board(olga, as_of="2026-08-21")
    assert cell(late, "Ben Invented", "Pump operator").startswith("Lapsed")
    assert HINT not in late
    assert kept_rows(firm.app) == before != set()


def test_when_a_module_is_revised_no_row_is_written(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    before = kept_rows(firm.app)
    module = firm.curriculum.qualification("pump-operator").modules[0]
    revision = firm.curriculum.module(module).revision + 1
    firm.record(ContentRevised, "2026-03-10", module=module, revision=revision, change="major")
    grace = firm.curriculum.qualification("pump-operator").grace_days
    last = date(2026, 3, 10).toordinal() + grace
    in_grace = board(olga, as_of=date.fromordinal(last).isoformat())
    assert cell(in_grace, "Ben Invented", "Pump operator").startswith("Due soon")
    assert f"train at revision {revision}" in in_grace
    over = board(olga, as_of=date.fromordinal(last + 1).isoformat())
    assert cell(over, "Ben Invented", "Pump operator").startswith("Update needed")
    assert HINT not in over
    assert kept_rows(firm.app) == before != set()


def with_validity(curriculum: Curriculum, months: int) -> Curriculum:
    """The same content, but a pump operator's grant is good for so many months."""
    known = curriculum.qualifications
    pump = known["pump-operator"].model_copy(update={"validity_months": months})
    qualifications = {**known, "pump-operator": pump}
    return curriculum.model_copy(update={"qualifications": qualifications})


def test_when_the_rules_change_the_board_is_right_at_once_and_quick_after_a_rebuild(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    before = kept_rows(firm.app)
    changed = firm.app.extensions["lowport_curriculum"] = with_validity(firm.curriculum, 3)
    firm.app.extensions["lowport_texts"] = TextShelf(changed, is_open=True)
    page = board(olga, as_of="2026-06-03")
    assert cell(page, "Ben Invented", "Pump operator") == "Expired last good day 2 Jun 2026"
    assert HINT in page
    assert kept_rows(firm.app) == before
    rebuilt(firm.app)
    again = board(olga, as_of="2026-06-03")
    assert HINT not in again
    assert shown(again) == shown(page)
    assert kept_rows(firm.app) != before


def test_while_a_rebuild_is_at_work_the_records_answer(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    with firm.app.app_context(), writing() as connection:
        connection.execute(delete(standing_interval))
        connection.execute(update(standing_projection).values(building="just now"))
    page = board(olga)
    assert cell(page, "Ben Invented", "Pump operator").startswith("Current")
    assert "The board is just being made quick." in page


def test_a_new_record_is_on_the_board_with_the_rows_up_to_date(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    assert HINT not in board(olga)
    firm.decide("suspend", olga)
    page = board(olga)
    assert cell(page, "Ben Invented", "Pump operator") == "Suspended from 2 Mar 2026"
    assert HINT not in page
