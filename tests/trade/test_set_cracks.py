"""The twelve set cracks: what each is meant to teach, it does teach.

The order followed is the lesson's: lowest port first, end to end (EM 1110-2-2002 §6-22c(5)). Shares
are the model's own, kept here so that a change of the model that moves them is noticed.
"""

import os
import subprocess
import sys
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from app.trade.fill import Port, Result, cap, close, move_to, pump, run, set_pressure, watch
from app.trade.filling.set_crack import PLAIN
from app.trade.filling.the_book import book_order, follow_the_book
from app.trade.injection_order import injection_order
from app.trade.set_cracks import SET_CRACKS, by_the_book

NAMES = tuple(SET_CRACKS)
# MoRTH 2803.9: a crack counts as filled from 90 % on.
FILLED = 0.9
SOUND = NAMES[:6]


@cache
def book(name: str) -> Result:
    return follow_the_book(SET_CRACKS[name].crack)


def kinds(result: Result) -> set[str]:
    return {event.kind for event in result.events}


def test_there_are_twelve_each_with_a_level_of_its_own() -> None:
    assert [one.level for one in SET_CRACKS.values()] == list(range(1, 13))
    assert all(one.name == name for name, one in SET_CRACKS.items())
    seeds = {one.crack.roughness.seed for one in SET_CRACKS.values()}
    assert len(seeds) == 12


@pytest.mark.parametrize("name", NAMES)
def test_the_book_fills_what_it_is_said_to_fill(name: str) -> None:
    low, high = SET_CRACKS[name].book_fills
    behind = book(name).behind
    assert low <= behind.filled_share <= high
    assert high - low <= 0.1
    balance = behind.used_m3 - behind.in_crack_m3 - behind.leaked_m3
    assert abs(balance) <= 1e-9 * behind.used_m3


@pytest.mark.parametrize("name", SOUND)
def test_where_the_order_is_the_lesson_following_it_fills_the_crack(name: str) -> None:
    assert book(name).behind.filled_share > FILLED
    assert book(name).behind.out_of_ports_m3 < 0.02 * book(name).behind.used_m3


@pytest.mark.parametrize("name", NAMES)
def test_its_decisions_replay_to_the_same_result(name: str) -> None:
    if name in ("plain-vertical", "pinhole-leak", "nearly-gelled"):
        assert run(SET_CRACKS[name].crack, by_the_book(SET_CRACKS[name].crack)) == book(name)
    decisions = [outcome.decision for outcome in book(name).outcomes]
    assert decisions[:2] == [move_to(1), pump()]


@pytest.mark.parametrize("name", [n for n in NAMES if not SET_CRACKS[n].crack.branches])
def test_the_books_order_is_that_of_the_trades_arithmetic(name: str) -> None:
    crack = SET_CRACKS[name].crack
    positions_mm = [port.at_m * 1000 for port in crack.ports]
    assert book_order(crack) == injection_order(positions_mm, crack.orientation)


def test_a_wall_worked_from_the_top_is_the_lowest_port_last() -> None:
    upside_down = replace(PLAIN, ports=PLAIN.ports[::-1])
    assert book_order(upside_down) == tuple(range(len(PLAIN.ports), 0, -1))


def test_a_tapering_crack_shows_later_from_port_to_port() -> None:
    times = [event.at_s for event in book("tapering").events if event.kind == "resin-at-port"]
    gaps = [after - before for before, after in pairwise(times)]
    assert gaps[-1] > 3 * gaps[0]


def test_a_pinhole_is_sealed_on_the_way() -> None:
    result = book("pinhole-leak")
    assert "leak-at-pinhole" in kinds(result)
    assert "patch" in {outcome.decision.act for outcome in result.outcomes}
    ignored = [o.decision for o in result.outcomes if o.decision.act != "patch"]
    assert run(SET_CRACKS["pinhole-leak"].crack, ignored).behind.out_of_pinholes_m3 > 1e-6


def test_a_branch_without_its_ports_stays_emptier() -> None:
    crack = SET_CRACKS["branch-with-island"].crack
    main_only = replace(crack, ports=tuple(port for port in crack.ports if port.strip == 0))
    assert follow_the_book(main_only).behind.trapped_share > 2 * (
        book("branch-with-island").behind.trapped_share
    )


def test_an_open_back_swallows_more_than_the_crack_holds() -> None:
    # MLIT §4.3.4: measure the quantity used and compare it with the crack's volume.
    behind = book("back-not-sealed").behind
    assert behind.used_m3 > 1.3 * behind.crack_m3
    assert "leak-at-back" in kinds(book("back-not-sealed"))


def test_ports_closer_than_the_depth_leave_the_back_empty_and_wider_ones_less() -> None:
    # trade-facts §2: ports at least one depth apart make resin at the next port evidence.
    crack = SET_CRACKS["deep-with-close-ports"].crack
    behind = book("deep-with-close-ports").behind
    assert behind.share_by_depth[0] > 0.99
    assert behind.share_by_depth[-1] < 0.5
    assert behind.trapped_share > 0.1
    wide = tuple(Port(crack.length_m * n / 2) for n in range(3))
    assert follow_the_book(replace(crack, ports=wide)).behind.filled_share > (
        behind.filled_share + 0.1
    )


def test_cold_resin_takes_longer_by_the_ratio_of_the_viscosities() -> None:
    # t ∝ μ (straight-front), and a little more because it thickens meanwhile.
    crack = SET_CRACKS["too-cold"].crack
    warm = replace(crack, resin=PLAIN.resin)
    ratio = crack.resin.viscosity_pa_s / PLAIN.resin.viscosity_pa_s
    assert book("too-cold").events[0].at_s > 0.9 * ratio * follow_the_book(warm).events[0].at_s


@pytest.mark.parametrize("name", ["too-narrow", "wrong-viscosity"])
def test_where_resin_cannot_get_on_nothing_shows_and_refusal_proves_nothing(name: str) -> None:
    # El Tani & Stille 2017: refusal alone is no sound stop rule.
    result = book(name)
    assert "resin-at-port" not in kinds(result)
    assert "refusal" in kinds(result)
    assert result.behind.filled_share < FILLED


def test_pumping_harder_puts_the_ports_over_their_limit_and_still_does_not_fill() -> None:
    crack = SET_CRACKS["too-narrow"].crack
    harder = run(crack, [move_to(1), pump(), set_pressure(600_000), watch(3600, "gel")])
    assert "port-over-limit" in kinds(harder)
    assert harder.behind.filled_share < 0.5


def test_a_batch_nearly_too_old_gels_before_the_crack_is_full() -> None:
    result = book("nearly-gelled")
    assert result.events[-1].kind == "gel"
    assert result.behind.filled_share < FILLED
    fresh = replace(SET_CRACKS["nearly-gelled"].crack, resin=PLAIN.resin)
    assert follow_the_book(fresh).behind.filled_share > FILLED


def test_skipping_the_order_fills_less_than_the_book() -> None:
    # Both ends shut after pumping from the middle: the air at the ends has nowhere to go.
    crack = SET_CRACKS["plain-vertical"].crack
    decisions = [cap(1), cap(7), move_to(4), pump(), watch(60), close(), cap(3), cap(5)]
    decisions += [cap(2), cap(6), move_to(4), pump(), watch(600, "refusal")]
    assert run(crack, decisions).behind.filled_share < FILLED


def answers_on(kernel: str) -> str:
    """What three cracks give in a process of its own, with the linear algebra of another chip."""
    code = (
        "from app.trade.set_cracks import SET_CRACKS\n"
        "from app.trade.filling.the_book import follow_the_book\n"
        "for name in ('plain-vertical', 'too-cold', 'deep-with-close-ports'):\n"
        "    found = follow_the_book(SET_CRACKS[name].crack)\n"
        "    print(found.events, found.behind.filled_share, found.behind.pockets)\n"
        "    print(found.arrival_map.encoded(), [o.to_s for o in found.outcomes])\n"
    )
    where = {**os.environ, "OPENBLAS_CORETYPE": kernel, "OPENBLAS_NUM_THREADS": "1"}
    ran = subprocess.run(
        [sys.executable, "-c", code], env=where, capture_output=True, text=True, check=True
    )
    return ran.stdout


def test_a_run_replays_to_the_same_numbers_on_other_machines() -> None:
    # OpenBLAS picks its kernels by the processor; told to use another's, it rounds otherwise. What
    # is told of a run must not show it. (Elsewhere than on x86 the name is ignored.)
    assert answers_on("Nehalem") == answers_on("Haswell")


def test_the_table_is_data_without_numpy() -> None:
    # Cold start: pages list the cracks before anybody fills one.
    code = "import sys, app.trade.set_cracks; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_names_make_good_addresses() -> None:
    assert all(name.replace("-", "").isalpha() and name.islower() for name in NAMES)
