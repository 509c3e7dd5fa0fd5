"""The board shows who is qualified for what, on any day, as known on any day."""

import re
from datetime import date

from dateutil.relativedelta import relativedelta

from app.database import writing
from app.demo.loading import load_demo
from app.records.events import Quiz, TrainerWithdrawn


def cell(page: str, person: str, qualification: str) -> str:
    """The words of a cell: what stands in the person's row, under the qualification's label."""
    row = re.search(
        rf'<tr role="row">\s*<th scope="row"(?:(?!</tr>).)*?>{person}<.*?</tr>', page, re.S
    )
    assert row, f"{person} is not on the board"
    inside = re.search(rf'data-label="{qualification}">(.*?)</td>', row.group(), re.S)
    assert inside
    return " ".join(re.sub(r"<[^>]+>", " ", inside.group(1)).split())


def board(client, **query: str) -> str:
    answer = client.get("/board", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return answer.get_data(as_text=True)


def test_somebody_new_is_not_qualified(firm, olga):
    assert cell(board(olga), "Ben Invented", "Pump operator") == "Not qualified"


def test_a_grant_changes_the_board_with_its_last_good_day(firm, olga):
    firm.ready()
    assert firm.decide("grant", olga).status_code == 303
    # Validity 24 months, continuity 6 months from the latest repair of 20 February: the earlier
    # of the two. Reference: dateutil.relativedelta.
    due = date(2026, 2, 20) + relativedelta(months=6)
    words = f"Current good through {due.day} Aug {due.year}"
    assert cell(board(olga), "Ben Invented", "Pump operator") == words
    assert cell(board(olga), "Ben Invented", "Preparation hand") == "Not qualified"


def test_each_decision_changes_the_board(firm, clock):
    firm.ready()
    olga = firm.sign_in("olga")
    firm.decide("grant", olga)
    firm.decide("suspend", olga)
    assert cell(board(olga), "Ben Invented", "Pump operator") == "Suspended from 2 Mar 2026"
    clock.pass_time(days=1)
    olga = firm.sign_in("olga")
    firm.decide("lift", olga, occurred_on="2026-03-03")
    assert cell(board(olga), "Ben Invented", "Pump operator").startswith("Current")
    clock.pass_time(days=1)
    olga = firm.sign_in("olga")
    firm.decide("revoke", olga, occurred_on="2026-03-04")
    assert cell(board(olga), "Ben Invented", "Pump operator") == "Revoked from 4 Mar 2026"


def test_as_of_a_day_before_the_grant_nobody_was_qualified(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    page = board(olga, as_of="2026-03-01")
    assert cell(page, "Ben Invented", "Pump operator") == "Not qualified"
    assert "As of 1 Mar 2026" in page


def test_as_of_a_day_to_come_shows_what_will_have_lapsed(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    words = cell(board(olga, as_of="2026-08-21"), "Ben Invented", "Pump operator")
    assert words == "Lapsed last good day 20 Aug 2026"


def test_known_on_a_day_leaves_out_what_was_recorded_later(firm, olga, clock):
    firm.ready()
    firm.decide("grant", olga)
    clock.pass_time(days=5)
    olga = firm.sign_in("olga")
    firm.decide("suspend", olga, occurred_on="2026-03-03")
    now = board(olga, as_of="2026-03-04")
    assert cell(now, "Ben Invented", "Pump operator").startswith("Suspended")
    then = board(olga, as_of="2026-03-04", known_on="2026-03-06")
    assert cell(then, "Ben Invented", "Pump operator").startswith("Current")
    assert "as known on 6 Mar 2026" in then


def test_known_on_counts_to_the_end_of_the_firms_own_day(firm, clock):
    firm.ready()
    clock.moment = clock.moment.replace(day=3, hour=3)  # still the evening of 2 March in New York
    olga = firm.sign_in("olga")
    firm.decide("grant", olga)
    page = board(olga, known_on="2026-03-02", as_of="2026-03-02")
    assert cell(page, "Ben Invented", "Pump operator").startswith("Current")


def test_a_day_that_cannot_be_is_refused_beside_its_field_and_kept(firm, olga):
    for query, sentence in [
        ({"as_of": "2026-02-30"}, "Write the day as year-month-day"),
        ({"as_of": "0026-02-03"}, "Check the year."),
        ({"known_on": "2026-03-03"}, "This day is still to come."),
        ({"qualification": "astronaut"}, "Not a valid choice"),
    ]:
        for path in ("/board", "/board.csv"):
            answer = olga.get(path, query_string=query)
            page = answer.get_data(as_text=True)
            assert answer.status_code == 422, query
            assert sentence in page
            assert 'aria-invalid="true"' in page


def test_filters_show_only_what_was_asked(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    page = board(olga, standing="current")
    assert "Ben Invented" in page.split("What runs out next")[0]
    assert "Uma Invented" not in page
    page = board(olga, qualification="preparation-hand")
    assert 'data-label="Preparation hand"' in page
    assert 'data-label="Pump operator"' not in page
    assert "Nobody has this standing on this day." in board(olga, standing="revoked")


def test_current_takes_in_what_is_due_soon(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    page = board(olga, as_of="2026-08-10", standing="current")
    assert cell(page, "Ben Invented", "Pump operator").startswith("Due soon")


def test_what_runs_out_next_is_listed_soonest_first(firm, olga, cast):
    firm.people["ada"] = cast.add("ada", "worker", printed_name="Ada Invented")
    firm.ready("ben")
    firm.ready("ada")
    firm.use("ada", "uma", "2026-03-01")
    firm.decide("grant", olga)
    firm.decide("grant", olga, person="ada")
    part = board(olga).split("What runs out next")[-1]
    assert part.index("Ben Invented") < part.index("Ada Invented")
    assert "20 Aug 2026" in part
    assert "A repair or verified job must come by 1 Sep 2026." in part


def test_officers_without_records_and_people_who_left_are_not_on_it(firm, olga, cast):
    gone = cast.add("gone", "worker", printed_name="Gone Invented")
    olga.post(f"/people/{gone}/account/active", data={})
    page = board(olga)
    assert ">Olga Invented</a>" not in page
    assert ">Gone Invented</a>" not in page
    # Who left but is on record stays, because a past day may ask for them.
    firm.teach("ben", "2026-02-02")
    olga.post(f"/people/{firm.people['ben']}/account/active", data={})
    assert "no longer signs in" in board(olga)


def test_it_is_cut_into_pages_of_a_hundred_people(firm, olga, monkeypatch):
    monkeypatch.setattr("app.officer.board.pages.PAGE_SIZE", 2)
    first = board(olga)
    assert "Page 1 of 2" in first
    assert "Ben Invented" in first
    last = board(olga, page="2")
    assert "Uma Invented" in last
    assert "Ben Invented" not in last
    assert "Page 2 of 2" in board(olga, page="99")


def test_the_demo_shows_every_standing_on_the_board(app, cast, clock, curriculum):
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": "wall-before-noon"})
    page = board(client)
    for status in (
        *("current", "due-soon", "update-needed", "lapsed"),
        *("expired", "suspended", "revoked", "not-qualified"),
    ):
        assert f'"standing is-{status}"' in page, status
    assert cell(page, "Leo Epigram", "Pump operator").startswith("Lapsed")


def test_a_failed_quiz_changes_nothing_on_it(firm, olga):
    firm.record(
        Quiz,
        "2026-02-02",
        person=firm.people["ben"],
        module="pump-purge",
        passed=False,
        right=3,
        asked=8,
    )
    assert cell(board(olga), "Ben Invented", "Pump operator") == "Not qualified"


def test_a_trainer_who_may_sign_is_shown_as_such_on_that_day_only(firm, olga):
    assert cell(board(olga), "Tomas Invented", "Pump operator") == "Not qualified may sign for it"
    before = board(olga, as_of="2019-12-31")  # authorised from 1 January 2020
    assert cell(before, "Tomas Invented", "Pump operator") == "Not qualified"
    assert cell(board(olga), "Tomas Invented", "Lead injector") == "Not qualified"
    firm.record(
        TrainerWithdrawn, "2026-03-01", person=firm.people["tomas"], qualification="pump-operator"
    )
    assert cell(board(olga), "Tomas Invented", "Pump operator") == "Not qualified"
    known = board(olga, known_on="2026-02-28")
    assert cell(known, "Tomas Invented", "Pump operator") == "Not qualified may sign for it"
