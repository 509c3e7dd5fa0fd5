"""What the quizzes ask of the fill model: every kept answer is worked out again by the model.

Outside checks: the cubic law (Zimmerman & Bodvarsson 1996) sends resin faster to the wider side;
a round front in a wide plane (cubic law integrated radially) is as deep as it is long.
"""

import pytest

from app.trade import practice_questions as asked
from app.trade.errors import NotListed
from app.trade.practice_answers import DEPTHS, FIRSTS, NEXTS

FINER = 24  # blocks to a gap, against 16


@pytest.fixture
def finer(monkeypatch: pytest.MonkeyPatch):
    """The model on a grid half as fine again."""
    monkeypatch.setattr(asked, "_CELLS_A_GAP", FINER)
    monkeypatch.setattr(asked, "_MOST_ROWS", 96)
    yield
    for worked_out in (asked._first, asked._next, asked._depth):
        worked_out.cache_clear()


def worked_out(kept, model) -> dict:
    model.cache_clear()
    return {key: model(*key) for key in kept}


@pytest.mark.parametrize(
    ("kept", "model"), [(FIRSTS, asked._first), (NEXTS, asked._next)], ids=["first", "next"]
)
def test_every_kept_port_is_the_models(kept, model):
    anew = worked_out(kept, model)
    assert anew == dict(kept), f"the model gives: {anew}"


def test_every_kept_depth_is_the_models():
    anew = worked_out(DEPTHS, asked._depth)
    # A depth is told in twentieths; what sits on the edge between two may fall to either side.
    off = {key: value for key, value in anew.items() if abs(value - DEPTHS[key]) > key[1] / 19}
    assert not off, f"the model gives: {anew}"


@pytest.mark.parametrize("key", [(0.2, 0.4, 5), (0.8, 0.5, 2), (0.2, 0.5, 3), (0.8, 0.4, 4)])
def test_a_finer_grid_shows_the_same_port_first(finer, key):
    assert asked._first(*key) == FIRSTS[key]


@pytest.mark.parametrize("key", FIRSTS)
def test_the_wider_neighbour_shows_first(key):
    first, last, port = key
    assert FIRSTS[key] == port + (1 if last > first else -1)


@pytest.mark.parametrize("key", NEXTS)
def test_past_a_blocked_port_the_nearest_open_one_above_shows(key):
    port, blocked, *_ = key
    assert NEXTS[key] == min(n for n in range(port + 1, 7) if n != blocked)


@pytest.mark.parametrize("key", DEPTHS)
def test_a_round_front_is_as_deep_as_it_is_long(key):
    spacing, depth = key
    assert DEPTHS[key] == pytest.approx(min(spacing, depth), rel=0.17)


def test_ports_as_far_apart_as_the_depth_prove_the_back():
    # spacing-why: resin spreads about evenly, so it has reached the back by then.
    assert asked.depth_reached_at_next_port(200, 150) == 150
    assert asked.depth_reached_at_next_port(100, 200) < 150


@pytest.mark.parametrize(("port", "blocked"), [(3, 3), (3, 2), (5, 6)])
def test_a_blocked_port_must_lie_above_and_leave_one_open(port, blocked):
    with pytest.raises(NotListed):
        asked.port_that_shows_next(port, blocked, 150, 200)


def test_asking_for_what_is_kept_does_not_load_the_model():
    import subprocess
    import sys

    code = (
        "import sys; from app.trade.registry import CALCULATORS as C;"
        "C['port_that_shows_first'].function(0.2, 0.4, 3);"
        "C['depth_reached_at_next_port'].function(100, 300);"
        "sys.exit('numpy' in sys.modules or 'scipy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
