"""A new hire at the practice wall, by plain forms: what is shown, what is refused, what is kept."""

import re

import pytest
from flask import Flask
from flask.testing import FlaskClient
from practice_hand import Hand

from app.database import reading
from app.workbook.practice_runs import PracticeRun, run_by_id

PLAIN = "/practice-crack/plain-vertical"


@pytest.fixture
def hand(ola: FlaskClient) -> Hand:
    """Ola in front of the plain crack: seven ports up a wall."""
    return Hand(ola, PLAIN)


@pytest.fixture
def kept(app: Flask):
    """Reads a run as it is kept, by its address."""

    def read(address: str) -> PracticeRun:
        with app.app_context(), reading() as connection:
            found = run_by_id(connection, address.split("/runs/")[1].split("/")[0])
        assert found is not None
        return found

    return read


def test_twelve_cracks_are_listed_with_what_each_teaches(ola: FlaskClient):
    page = ola.get("/practice-crack").get_data(as_text=True)
    assert len(re.findall(r'href="/practice-crack/[a-z-]+"', page)) == 12
    assert "Lowest port first" in page
    assert "0 of 12 cracks done" in page
    assert "counts for no qualification" in page
    assert "the engineer" in page


def test_a_job_card_of_the_crack_stands_before_the_wall(ola: FlaskClient):
    ola.post("/show", data={"units": "metric"})
    page = ola.get(PLAIN).get_data(as_text=True)
    for words in ("Up a wall", "1500 mm", "200 mm", "0.3 mm", "7, 250 mm apart", "60 min"):
        assert words in page
    # 1500 × 200 × 0.3 mm is 90 mL: length, depth and width multiplied (crack-volume-geometry).
    assert "90 mL" in page


def test_the_plain_crack_by_the_book_is_as_full_as_the_book_and_done(ola: FlaskClient, hand: Hand):
    hand.by_the_book(7)
    page = hand.open_wall()
    assert "As full as by the book" in page
    assert "Behind the wall" in page
    assert "The lesson starts at port 1 too." in page
    assert page.count("Resin showed here: the lesson moves here next.") == 6
    assert "1 of 12 cracks done" in ola.get("/practice-crack").get_data(as_text=True)


def test_nothing_of_the_inside_is_shown_before_the_wall_is_open(ola: FlaskClient, hand: Hand, kept):
    hand.press("move", 1)
    hand.press("pump")
    assert "Resin shows at port 2." in hand.said
    filled = kept(hand.address).acts["acts"][-1]["filled"]
    assert filled > 0.05
    for inside in ("filled", "pocket", "levels", f"{filled:.3f}"[1:], "Behind the wall"):
        assert inside not in hand.page.lower()
    closed = ola.get(hand.address + "/opened")
    assert (closed.status_code, closed.location) == (302, hand.address)


def test_the_button_that_stands_out_is_the_one_that_can_be_pressed_now(hand: Hand):
    standing_out = r'<button class="button primary[^"]*" name="act" value="(\w+)"'
    assert re.findall(standing_out, hand.page) == ["move"]  # the hose is on no port
    hand.press("move", 1)
    assert re.findall(standing_out, hand.page) == ["pump"]
    hand.press("pump")
    assert re.findall(standing_out, hand.page) == ["close"]


def test_what_every_port_shows_is_said_in_words_too(hand: Hand):
    hand.press("move", 1)
    hand.press("pump")
    hand.press("cap", 5)
    for words in (
        "Port 1: hose, pumping",
        "Port 2: resin shows",
        "Port 3: open, dry",
        "Port 5: capped",
    ):
        assert words in hand.page


@pytest.mark.parametrize(
    ("act", "port", "said"),
    [
        ("pump", None, "The hose is on no port."),
        ("close", None, "The valve is shut already."),
        ("seal", None, "You see no leak to seal."),
        ("uncap", 3, "Port 3 has no cap to take off."),
        ("move", 8, "Choose a port"),
        ("move", 0, "Choose a port"),
        ("explode", 1, "Choose a port"),
        ("", None, "Choose a port"),
    ],
)
def test_what_makes_no_sense_is_refused_and_changes_nothing(hand: Hand, kept, act, port, said):
    assert hand.press(act, port) == 422
    assert said in hand.said
    assert kept(hand.address).acts_count == 0


@pytest.mark.parametrize("port", ["-1", "1e3", "２", "9" * 400, "1; DROP", "<b>"])
def test_a_port_that_is_no_number_is_refused(ola: FlaskClient, hand: Hand, port: str):
    answer = ola.post(hand.address, data={"act": "move", "number": "1", "port": port})
    assert answer.status_code == 422
    assert "<b>" not in answer.get_data(as_text=True)


def test_the_pump_stops_at_both_ends_of_its_range(hand: Hand):
    while hand.press("up") == 303:
        assert hand.number < 40
    assert "The pump goes no further that way." in hand.said
    while hand.press("down") == 303:
        assert hand.number < 80
    assert "The pump goes no further that way." in hand.said


def test_an_act_sent_twice_is_done_once_and_the_first_stands(ola: FlaskClient, hand: Hand, kept):
    hand.press("move", 1)
    hand.press("pump", number=2)
    first = kept(hand.address)
    for act, port in (("pump", ""), ("cap", 4), ("nonsense", 99)):
        answer = ola.post(hand.address, data={"act": act, "number": 2, "port": port})
        assert answer.status_code == 303
    assert kept(hand.address) == first


def test_an_act_from_the_future_is_refused(hand: Hand, kept):
    assert hand.press("move", 1, number=5) == 422
    assert "not up to date" in hand.said
    assert kept(hand.address).acts_count == 0


def test_beginning_twice_goes_on_with_the_open_run(ola: FlaskClient, hand: Hand):
    assert Hand(ola, PLAIN).address == hand.address
    hand.press("move", 2)
    hand.open_wall()
    assert Hand(ola, PLAIN).address != hand.address


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("end", ["", "/opened"])
def test_another_persons_run_is_not_there(cast, hand: Hand, kept, method: str, end: str):
    cast.add("per.other")
    other = cast.sign_in("per.other")
    data = {"act": "move", "number": 1, "port": 1} if method == "post" else None
    assert getattr(other, method)(hand.address + end, data=data).status_code == 404
    assert kept(hand.address).acts_count == 0
    assert kept(hand.address).is_open


@pytest.mark.parametrize("address", ["/practice-crack/no-such", "/practice-crack/runs/none"])
def test_what_is_not_there_is_not_found(ola: FlaskClient, address: str):
    assert ola.get(address).status_code == 404
    assert ola.post(address).status_code == 404


def test_an_opened_wall_stays_as_it_is(ola: FlaskClient, hand: Hand, kept):
    hand.press("move", 1)
    hand.press("pump")
    page = hand.open_wall()
    first = kept(hand.address)
    ola.post(hand.address, data={"act": "watch", "number": 3})
    assert hand.open_wall() == page
    assert kept(hand.address) == first
    assert ola.get(hand.address).location == hand.address + "/opened"


def test_going_over_the_ports_limit_is_told_and_is_never_done(hand: Hand, ola: FlaskClient):
    hand.press("move", 1)
    for _ in range(8):
        hand.press("up")
    hand.pump_until("over its limit", most=20)
    hand.press("close")
    page = hand.open_wall()
    assert "On a wall a port can come off." in page
    assert "0 of 12 cracks done" in ola.get("/practice-crack").get_data(as_text=True)


def test_a_leak_is_sealed_with_the_valve_shut_only(ola: FlaskClient):
    hand = Hand(ola, "/practice-crack/pinhole-leak")
    hand.press("move", 3)
    hand.pump_until("leak")
    assert hand.press("seal") == 422
    assert "Shut it first" in hand.said
    hand.press("close")
    assert hand.press("seal") == 303
    assert "The leak is sealed. 5 min have passed." in hand.said
    assert 'value="seal"' not in hand.page


def test_resin_that_has_gelled_leaves_only_one_thing_to_do(ola: FlaskClient):
    hand = Hand(ola, "/practice-crack/nearly-gelled")
    while "The resin has gelled." not in hand.said:
        number = hand.number
        assert number < 10
        assert hand.press("watch-long") == 303
    assert 'name="act"' not in hand.page
    answer = ola.post(hand.address, data={"act": "watch", "number": number + 1})
    assert answer.status_code == 422
    assert "Nothing flows any more." in answer.get_data(as_text=True)
    assert "No resin went into the crack." in hand.open_wall()


def test_air_shut_in_by_starting_at_the_top_is_shown_with_its_place(ola: FlaskClient, hand: Hand):
    for port in range(1, 7):
        hand.press("cap", port)
    hand.press("move", 7)
    hand.press("pump")
    hand.press("watch-long")
    page = hand.open_wall()
    assert "The lesson would go to port 1." in page
    assert page.count("The air behind it lost its way out.") == 6
    assert "Where air was shut in" in page
    assert "Air was shut in:" in page


def test_the_learn_page_and_the_lesson_lead_to_the_practice_crack(ola: FlaskClient):
    for address in ("/learn", "/learn/injection-order"):
        assert 'href="/practice-crack"' in ola.get(address).get_data(as_text=True)
    assert "Practice crack: 0 of 12 done" in ola.get("/learn").get_data(as_text=True)
    assert 'href="/practice-crack"' not in ola.get("/learn/shutdown").get_data(as_text=True)
