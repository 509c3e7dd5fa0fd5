"""Decisions: what a hand may do, what it is told, and what is refused with the value."""

from dataclasses import asdict, replace

import pytest

from app.trade.errors import NotAChoice, NotListed, OutOfRange
from app.trade.fill import (
    Back,
    Branch,
    Contact,
    Crack,
    Decision,
    Filling,
    NoHose,
    Pinhole,
    Port,
    Pump,
    Resin,
    Roughness,
    WidthAt,
    cap,
    close,
    move_to,
    patch,
    pump,
    run,
    set_pressure,
    uncap,
    wait,
    watch,
)
from tests.trade.filling.strips import LINE, RESIN, ROUND

WALL = replace(
    LINE,
    depth_m=0.2,
    ports=tuple(Port(n / 4) for n in range(5)),
    orientation="vertical",
    roughness=Roughness(0.3, 0.05, seed=7),
    columns=50,
    rows=10,
)
UP_TO_THREE = (
    *(move_to(1), pump(), watch(600, "resin-at-port", 2), close(), cap(1)),
    *(move_to(2), pump(), watch(600, "resin-at-port", 3), close()),
)


def test_a_run_is_the_same_every_time_and_from_its_stored_decisions() -> None:
    stored = [asdict(decision) for decision in UP_TO_THREE]
    once, again = run(WALL, UP_TO_THREE), run(WALL, [Decision(**one) for one in stored])
    assert once == again
    assert once.arrival_map.encoded() == again.arrival_map.encoded()
    assert [event.number for event in once.events if event.kind == "resin-at-port"] == [2, 3]


def test_each_decision_says_what_it_did() -> None:
    result = run(WALL, UP_TO_THREE)
    assert [outcome.decision for outcome in result.outcomes] == list(UP_TO_THREE)
    for before, after in zip(result.outcomes, result.outcomes[1:], strict=False):
        assert after.from_s == before.to_s
        assert after.filled_before == before.filled_after
    watched = result.outcomes[2]
    assert watched.events[-1].at_s == pytest.approx(watched.to_s, abs=1e-4)
    assert watched.filled_after > watched.filled_before == 0
    assert result.outcomes[-1].used_m3 == pytest.approx(result.behind.used_m3, rel=1e-5)


def test_a_hand_sees_ports_gauge_clock_and_nothing_else() -> None:
    filling = Filling(WALL)
    for decision in UP_TO_THREE[:3]:
        filling.apply(decision)
    seen = filling.seen
    assert (seen.hose_at, seen.is_valve_open, seen.showing, seen.capped) == (1, True, (2,), ())
    assert seen.gauge_pa == 100_000
    filling.apply(close())
    filling.apply(cap(1))
    assert (filling.seen.hose_at, filling.seen.is_valve_open, filling.seen.capped) == (
        0,
        False,
        (1,),
    )
    filling.apply(move_to(1))
    assert (filling.seen.hose_at, filling.seen.capped) == (1, ())


def test_asking_changes_nothing() -> None:
    asked, unasked = Filling(WALL), Filling(WALL)
    for decision in UP_TO_THREE:
        asked.apply(decision)
        assert asked.seen.time_s == asked.behind.time_s == pytest.approx(asked.time_s, abs=1e-4)
        assert asked.arrival_map.end_s >= 0
        unasked.apply(decision)
    assert asked.behind == unasked.behind


def test_waiting_for_a_port_that_shows_already_takes_no_time() -> None:
    filling = Filling(WALL)
    for decision in UP_TO_THREE[:3]:
        filling.apply(decision)
    at_s = filling.time_s
    assert filling.apply(watch(600, "resin-at-port", 2)) == ()
    assert filling.time_s == at_s


def test_moving_the_hose_shuts_the_valve_and_more_pressure_is_more_flow() -> None:
    filling = Filling(WALL)
    filling.apply(move_to(1))
    filling.apply(pump())
    filling.apply(wait(2))
    flow = filling.seen.flow_m3_per_s
    filling.apply(set_pressure(200_000))
    filling.apply(wait(0.01))
    assert filling.seen.flow_m3_per_s == pytest.approx(2 * flow, rel=0.1)
    filling.apply(move_to(2))
    assert not filling.seen.is_valve_open
    used = filling.behind.used_m3
    filling.apply(wait(60))
    assert filling.behind.used_m3 == used


def test_a_valve_on_no_port_is_refused() -> None:
    with pytest.raises(NoHose):
        Filling(WALL).apply(pump())


@pytest.mark.parametrize(
    ("decision", "value"),
    [(move_to(6), "6"), (cap(0), "0"), (uncap(9), "9"), (patch(1), "1")],
)
def test_a_port_or_pinhole_that_is_not_there_is_refused_with_its_number(decision, value) -> None:
    with pytest.raises(OutOfRange, match=value):
        Filling(WALL).apply(decision)


@pytest.mark.parametrize(
    ("make", "value"),
    [
        (lambda: wait(-1), "-1"),
        (lambda: wait(90_000), "90000"),
        (lambda: set_pressure(6e6), "6000000"),
        (lambda: Resin(0), "0 pa_s"),
        (lambda: Resin(0.3, gel_time_s=0), "0 s"),
        (lambda: Resin(0.3, growth_per_min=10, gel_time_s=90_000), "10 per_min"),
        (lambda: Resin(0.3, contact_angle_deg=90), "90 deg"),
        (lambda: Pump(-1), "-1"),
        (lambda: Pump(1e5, 0), "0 m3_per_s"),
        (lambda: WidthAt(0, 0.02), "0.02 m"),
        (lambda: Pinhole(0.5, -1e-12), "-1e-12"),
        (lambda: Roughness(0.95), "0.95"),
        (lambda: replace(LINE, length_m=0), "0 m"),
        (lambda: replace(LINE, depth_m=float("nan")), "nan"),
        (lambda: replace(LINE, ports=(Port(1.5),)), "1.5"),
        (lambda: replace(LINE, ports=(Port(0.5, strip=1),)), "strip is 1"),
        (lambda: replace(LINE, ports=(Port(0.5, drilled_m=0.2),)), "0.2"),
        (lambda: replace(LINE, widths=(WidthAt(2.0, 1e-3),)), "2"),
        (lambda: replace(LINE, back=Back("open", from_m=0.5, to_m=0.2)), "0.5"),
        (lambda: replace(LINE, contacts=(Contact(0.5, 0.2, 0, 0.1),)), "0.5"),
        (lambda: replace(LINE, branches=(Branch(1.5, 0.2, (WidthAt(0, 1e-3),)),)), "1.5"),
        (lambda: replace(LINE, columns=600, rows=200), "120000"),
        (lambda: Filling(replace(ROUND, port_radius_m=0.02)), "0.02 m"),
    ],
)
def test_what_cannot_be_is_refused_with_its_value(make, value) -> None:
    with pytest.raises(OutOfRange, match=value):
        make()


@pytest.mark.parametrize(
    "make",
    [
        lambda: replace(LINE, ports=()),
        lambda: replace(LINE, widths=()),
        lambda: replace(LINE, widths=(WidthAt(0.5, 1e-3), WidthAt(0.5, 1e-3))),
        lambda: Filling(replace(LINE, ports=(Port(0.5), Port(0.501)))),
        lambda: Filling(replace(LINE, contacts=(Contact(0.9, 1.0, 0, 0.1),))),
    ],
)
def test_what_does_not_belong_together_is_refused(make) -> None:
    with pytest.raises(NotListed):
        make()


def test_unknown_words_are_refused() -> None:
    with pytest.raises(NotAChoice, match="hammer"):
        Decision("hammer")
    with pytest.raises(NotAChoice, match="air-trapped"):
        watch(10, "air-trapped")  # no hand can see that
    with pytest.raises(NotAChoice, match="sideways"):
        replace(LINE, orientation="sideways")
    with pytest.raises(NotAChoice, match="ajar"):
        Back("ajar")


def test_the_defaults_make_a_crack() -> None:
    crack = Crack(1.0, 0.2, (WidthAt(0, 0.3e-3),), (Port(0), Port(1.0)), RESIN)
    assert (crack.columns, crack.rows, crack.port_limit_pa) == (150, 40, 300_000)
