"""What is kept of a practice run gives the same numbers again, anywhere and in few bytes."""

import base64
import re
import zlib
from html import unescape

import pytest
from flask import Flask
from flask.testing import FlaskClient
from practice_hand import Hand

from app.database import reading
from app.trade.fill import run as fill
from app.trade.showing import show
from app.workbook.practice_runs import PracticeRun, run_by_id
from app.worker.practice.actions import act_once, open_wall
from app.worker.practice.acts import Act
from app.worker.practice.live import LIVE, LiveCracks
from app.worker.practice.papers import papers_from
from app.worker.practice.setup import crack_from

MOST_BYTES = 60_000  # for a replay, pictures and maps together


@pytest.fixture
def kept(app: Flask):
    """Reads a run as it is kept, by its address."""

    def read(address: str) -> PracticeRun:
        with app.app_context(), reading() as connection:
            found = run_by_id(connection, address.split("/runs/")[1])
        assert found is not None
        return found

    return read


def play_a_while(hand: Hand) -> None:
    """Wrong order, a cap too early, more pressure: whatever a trainee might do."""
    hand.press("move", 2)
    hand.press("pump")
    hand.press("watch")
    hand.press("cap", 5)
    hand.press("up")
    hand.press("watch")
    hand.press("move", 3)
    hand.press("pump")
    hand.press("watch-long")


@pytest.mark.parametrize("name", ["plain-vertical", "branch-with-island", "back-not-sealed"])
def test_a_run_replays_to_the_same_numbers_from_what_is_kept(ola: FlaskClient, kept, name: str):
    hand = Hand(ola, f"/practice-crack/{name}")
    play_a_while(hand)
    hand.open_wall()
    run = kept(hand.address)
    papers = papers_from(run.acts)
    again = fill(crack_from(run.setup), papers.decisions)
    you = run.result["you"]
    assert you["filled"] == again.behind.filled_share == run.filled_share
    assert you["by_depth"] == list(again.behind.share_by_depth)
    assert you["time_s"] == again.behind.time_s == papers.now.time_s
    assert you["used_ml"] == pytest.approx(again.behind.used_m3 * 1e6, abs=0.0005)
    assert you["out_of_back_ml"] == pytest.approx(again.behind.out_of_back_m3 * 1e6, abs=0.0005)
    assert you["map"]["levels"] == again.arrival_map.encoded()
    told = [(e.kind, e.at_s, e.number) for one in papers.done for e in one.events]
    assert told == [(e.kind, e.at_s, e.number) for e in again.events]


def test_a_process_that_forgot_the_run_goes_on_with_the_same_numbers(ola, cast, kept):
    cast.add("per.other")
    steady = Hand(ola, "/practice-crack/horizontal")
    forgetful = Hand(cast.sign_in("per.other"), "/practice-crack/horizontal")
    press = forgetful.press

    def press_and_forget(*args, **named):
        LIVE._kept.clear()
        return press(*args, **named)

    forgetful.press = press_and_forget
    for hand in (steady, forgetful):
        play_a_while(hand)
    assert kept(steady.address).acts == kept(forgetful.address).acts


def test_two_requests_at_once_make_one_act(app: Flask, ola: FlaskClient, kept):
    hand = Hand(ola, "/practice-crack/plain-vertical")
    before = kept(hand.address)
    with app.app_context():
        assert act_once(before, Act("move", 1), 1)
        assert not act_once(before, Act("move", 5), 1)  # it had read the papers before the first
        assert not open_wall(before, before.started_at)  # so had this one
    after = kept(hand.address)
    assert (after.acts_count, after.is_open) == (1, True)
    assert papers_from(after.acts).now.hose_at == 1
    with app.app_context():
        assert act_once(after, Act("pump"), 2)
    assert papers_from(kept(hand.address).acts).now.showing == (2,)


def test_only_so_many_cracks_stay_in_a_process(ola: FlaskClient, kept):
    crack = crack_from(kept(Hand(ola, "/practice-crack/plain-vertical").address).setup)
    live = LiveCracks(most=3)
    for name in "abcde":
        live.put_back(name, live.take(name, crack, ()), 0)
    assert len(live) == 3
    assert list(live._kept) == ["c", "d", "e"]


def test_the_table_says_what_the_model_gives(ola: FlaskClient, kept):
    ola.post("/show", data={"units": "metric"})
    hand = Hand(ola, "/practice-crack/pinhole-leak")
    hand.press("move", 3)
    hand.pump_until("leak")
    hand.press("watch")
    page = hand.open_wall()
    again = fill(
        crack_from(kept(hand.address).setup), papers_from(kept(hand.address).acts).decisions
    )
    rows = dict(re.findall(r'<th scope="row">([^<]+)</th><td class="num">([^<]+)</td>', page))
    behind = again.behind
    assert rows["Filled"] == f"{behind.filled_share:.0%}".replace("%", " %")
    for words, value in (
        ("Resin used", behind.used_m3),
        ("of it in the crack", behind.in_crack_m3),
        ("out of open ports", behind.out_of_ports_m3),
        ("out of the seal", behind.out_of_pinholes_m3),
    ):
        assert rows[words] == show(round(value * 1e6, 3), "volume", "metric")
    assert behind.out_of_pinholes_m3 > 0
    left_m3 = behind.used_m3 - behind.in_crack_m3 - behind.leaked_m3
    assert abs(left_m3) < 1e-9 * behind.used_m3  # conservation of volume


@pytest.mark.parametrize("name", ["plain-vertical", "branch-with-island", "deep-with-close-ports"])
def test_a_replay_stays_within_its_budget_of_bytes(ola: FlaskClient, name: str):
    hand = Hand(ola, f"/practice-crack/{name}")
    play_a_while(hand)
    page = hand.open_wall()
    start, end = page.index('id="behind"'), page.index("The same in numbers")
    assert len(page[start:end].encode()) < MOST_BYTES
    figures = re.findall(r'data-sizes="([^"]+)"[^>]*data-levels="([^"]+)"', page)
    assert len(figures) == 2
    for sizes, levels in figures:
        blocks = zlib.decompress(base64.b64decode(unescape(levels)))
        columns_rows = [size.split("x") for size in sizes.split()]
        assert len(blocks) == sum(int(c) * int(r) for c, r in columns_rows)


def test_a_run_of_another_age_is_told_not_guessed(app: Flask, ola: FlaskClient, kept):
    from app.database import writing
    from app.workbook.practice_runs import keep_acts

    hand = Hand(ola, "/practice-crack/plain-vertical")
    run = kept(hand.address)
    with app.app_context(), writing() as connection:
        keep_acts(connection, run.id, 1, {"version": 99, "now": {}, "acts": []})
    answer = ola.get(hand.address)
    assert answer.status_code == 410
    assert "kept in a form this program does not know" in answer.get_data(as_text=True)
