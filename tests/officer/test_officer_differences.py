"""What did we believe then, and what do we know now: by page, with the record that made it so."""

import re
from html import unescape

import pytest

from app.database import writing
from app.demo.loading import load_demo
from app.records.events import CounterEntry, IdentityMerged, Use

PUMP = "pump-operator"


def compare(client, code: int = 200, **query: str) -> str:
    answer = client.get("/differences", query_string=query)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == code, page
    return page


def words(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page.split("<main")[1].split("<footer")[0]).split())


@pytest.fixture
def qualified(firm, olga):
    """Ben is granted pump operator on 2 March."""
    firm.ready()
    assert firm.decide("grant", olga).status_code == 303
    return firm


def days_later(firm, clock, days: int):
    clock.pass_time(days=days)
    return firm.sign_in("olga")


def test_a_suspension_dated_back_is_the_record_that_made_the_difference(qualified, clock):
    olga = days_later(qualified, clock, 8)
    qualified.decide("suspend", olga, occurred_on="2026-03-04")
    (record,) = qualified.of_kind("suspend")
    page = compare(olga, as_of="2026-03-06", then="2026-03-06")
    said = words(page)
    assert "Who was qualified on 6 Mar 2026" in said
    assert "One person's standing looks different. One record arrived in between." in said
    assert "Believed then Current Known now Suspended" in said
    assert "This record made the difference:" in said
    assert f'href="/records/{record.id}"' in page
    assert "Recorded on 10 Mar 2026, 10:00 EDT by Olga Invented , 6 days after it happened" in (
        said.replace("Invented,", "Invented ,")
    )
    assert "“Seen at the pump house (invented).”" in said
    assert f'href="/people/{qualified.people["ben"]}?as_of=2026-03-06&known_on=2026-03-06"' in page


def test_a_chain_is_told_in_order_and_idle_records_are_counted(qualified, clock):
    olga = days_later(qualified, clock, 2)
    grant = qualified.of_kind("grant")[0].id
    qualified.teach("ben", "2026-03-03", "preparation-hand")
    ben = qualified.people["ben"]
    qualified.record(
        CounterEntry, "2026-03-04", person=ben, target=grant, reason="Wrong person picked."
    )
    olga = days_later(qualified, clock, 2)
    qualified.decide("grant", olga, occurred_on="2026-03-02")
    olga = days_later(qualified, clock, 2)
    qualified.decide("suspend", olga, occurred_on="2026-03-02")
    said = words(compare(olga, as_of="2026-03-02", then="2026-03-02"))
    assert "These records made the difference, in order of arrival:" in said
    order = [said.index(s) for s in ("Made void", "Granted:", "Suspended: Pump operator")]
    assert order == sorted(order)
    assert "Current → Not qualified" in said
    assert "Not qualified → Current" in said
    # Training and quiz in four modules.
    assert "8 more records that bear on this person arrived in between." in said


def test_nothing_differs(qualified, clock):
    olga = days_later(qualified, clock, 3)
    said = words(compare(olga, as_of="2026-03-03", then="2026-03-03"))
    assert "Nothing differs. 0 records arrived in between" in said
    qualified.teach("ben", "2026-03-04", "preparation-hand")
    said = words(compare(olga, as_of="2026-03-03", then="2026-03-03"))
    assert "Nothing differs. 8 records arrived in between; none changes a standing" in said


def test_a_last_good_day_that_moved_is_told(qualified, clock):
    olga = days_later(qualified, clock, 4)
    ben, uma = qualified.people["ben"], qualified.people["uma"]
    qualified.record(
        Use, "2026-03-01", "2026-03-05", person=ben, qualification=PUMP, trainer=uma,
        recorded_by=uma,
    )  # fmt: skip
    said = words(compare(olga, as_of="2026-03-03", then="2026-03-03"))
    sentence = "Believed then: good through 20 Aug 2026. Known now: good through 1 Sep 2026."
    assert said.count(sentence) == 2  # at the answer, and at the record
    assert "4 days after it happened" in said


def test_merging_is_told_under_the_entry_it_changes(qualified, clock, cast):
    twin = cast.add("benny", "worker", printed_name="Benny Invented")
    olga = days_later(qualified, clock, 5)
    ben = qualified.people["ben"]
    qualified.record(IdentityMerged, "2026-03-06", person=twin, merged=ben, reason="One man.")
    page = compare(olga, as_of="2026-03-03", then="2026-03-03")
    (title,) = re.findall(r'<h2 id="[0-9a-f-]{36}">([^<]+)', page)
    assert title == "Benny Invented"
    assert "Entered twice, made one" in words(page)


def test_for_one_person_and_between_two_days_gone_by(qualified, clock):
    ben, uma = qualified.people["ben"], qualified.people["uma"]
    olga = days_later(qualified, clock, 8)
    qualified.decide("suspend", olga, occurred_on="2026-03-04")
    olga = days_later(qualified, clock, 8)
    query = {"as_of": "2026-03-06", "then": "2026-03-06"}
    assert "Nothing differs." in compare(olga, **query, known_on="2026-03-09")
    assert "Nothing differs." in compare(olga, **query, person=uma)
    page = compare(olga, **query, known_on="2026-03-10", person=ben)
    assert "Known on 10 Mar 2026." in words(page)
    assert "Suspended" in words(page)
    assert olga.get("/differences?person=nobody").status_code == 404


def test_bad_days_get_a_sentence(olga):
    for query, sentence in (
        ({"then": "soon"}, "Write the day as year-month-day"),
        ({"then": "2026-03-03"}, "This day is still to come. Choose one gone by."),
        ({"known_on": "2026-03-03"}, "This day is still to come."),
        ({"then": "2026-03-02", "known_on": "2026-03-01"}, "Choose a day before the one in"),
        ({"as_of": "0001-01-01"}, "Check the year."),
    ):
        page = compare(olga, 422, **query)
        assert sentence in page, query
        assert 'aria-invalid="true"' in page


def test_left_out_days_are_filled_in(qualified, clock):
    olga = days_later(qualified, clock, 40)
    said = words(compare(olga))  # today, believed a month before
    assert "Who was qualified on 11 Apr 2026" in said
    assert "Believed on 12 Mar 2026." in said
    said = words(compare(olga, as_of="2026-03-05"))  # a day gone by, believed on itself
    assert "Believed on 5 Mar 2026." in said


def test_it_is_cut_into_pages(qualified, clock, monkeypatch, cast):
    monkeypatch.setattr("app.officer.board.difference_pages.PEOPLE_ON_A_PAGE", 1)
    qualified.people["ada"] = cast.add("ada", "worker", printed_name="Ada Invented")
    qualified.ready("ada")
    olga = qualified.sign_in("olga")
    qualified.decide("grant", olga, person="ada")
    olga = days_later(qualified, clock, 3)
    for person in ("ada", "ben"):
        qualified.decide("suspend", olga, occurred_on="2026-03-03", person=person)
    query = {"as_of": "2026-03-04", "then": "2026-03-04"}
    first = words(compare(olga, **query))
    assert "2 people's standings look different." in first
    assert "Ada Invented" in first
    assert "Ben Invented" not in first
    assert "Page 1 of 2" in first
    assert "Ben Invented" in words(compare(olga, **query, page="2"))
    assert "Ben Invented" in words(compare(olga, **query, page="99"))


def test_board_and_person_lead_here_and_the_page_names_its_checkpoint(qualified, olga):
    ben = qualified.people["ben"]
    board = olga.get("/board?as_of=2026-03-01").get_data(as_text=True)
    assert 'href="/differences?as_of=2026-03-01"' in board
    about = unescape(olga.get(f"/people/{ben}?as_of=2026-03-01").get_data(as_text=True))
    assert f'href="/differences?person={ben}&as_of=2026-03-01"' in about
    page = re.sub("<wbr>", "", compare(olga))
    # Origin, number of records, root: C2SP tlog-checkpoint.
    assert re.search(r"records: lowport/[0-9a-f]{16} \d+ [A-Za-z0-9+/]{43}=", page)


def test_the_demo_has_something_that_was_believed_otherwise(app, clock, curriculum):
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": "wall-before-noon"})
    # Elsa was suspended from 9 February; that was recorded three days later.
    said = words(compare(client, as_of="2026-02-10", then="2026-02-10"))
    assert "Elsa Rhyme Pump operator Believed then Current Known now Suspended" in said
    assert "Recorded on 12 Feb 2026, 15:30 EST by Olga Preface" in said
    assert "3 days after it happened" in said
