"""The sketch: to scale, every port where the layout has it, numbered in the order of injection."""

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.crack_sketch import Drawn, crack_sketch
from app.trade.calculator import Point
from app.trade.port_layout import PortLayout, port_layout
from tests.drawing.reading_pictures import Picture, centre, points

WALL = [(0.0, 0.0), (0.0, 3657.6)]  # 12 ft
BRANCHED = Drawn(
    [(0, 0), (60, 400), (0, 900), (100, 1500)],
    [[(0, 900), (300, 1100), (420, 1300)]],
    [[(60, 400), (200, 600), (0, 900)]],
)


def drawn(crack: Drawn, spacing_mm: float, orientation: str) -> tuple[PortLayout, Picture]:
    layout = port_layout(crack.main, spacing_mm, orientation, crack.branches, crack.islands)
    return layout, Picture(crack_sketch(crack, layout, "Crack & ports", "Numbered < in order"))


def rings(picture: Picture) -> list[Point]:
    """The rings in the order of injection: the first is the filled one."""
    first = picture.one("circle", "resin")
    return [centre(ring) for ring in (first, *picture.all("circle", "port-ring"))]


@pytest.mark.parametrize("orientation", ["vertical", "horizontal", "overhead"])
def test_ports_lie_where_the_layout_has_them_at_one_scale(orientation: str):
    layout, picture = drawn(BRANCHED, 150, orientation)
    places = rings(picture)
    assert len(places) == layout.count
    a, b = layout.ports[0], layout.ports[-1]
    scale = math.dist(places[0], places[-1]) / math.dist((a.x_mm, a.y_mm), (b.x_mm, b.y_mm))
    for port, place in zip(layout.ports, places, strict=True):
        assert place[0] - places[0][0] == pytest.approx((port.x_mm - a.x_mm) * scale, abs=0.02)
        # Up the wall is up the sheet, where y counts downwards.
        assert places[0][1] - place[1] == pytest.approx((port.y_mm - a.y_mm) * scale, abs=0.02)


def test_the_crack_runs_through_every_point_that_was_drawn():
    layout, picture = drawn(BRANCHED, 150, "vertical")
    main = points(picture.all("path", "crack-seal")[0])
    lengths = [math.dist(a, b) for a, b in pairwise(main)]
    real = [math.dist(a, b) for a, b in pairwise(BRANCHED.main)]
    assert [n / lengths[0] for n in lengths] == pytest.approx([n / real[0] for n in real], rel=1e-3)
    assert layout.ports[0].kind == "end"


def test_every_port_of_a_wall_carries_its_number_beside_it():
    layout, picture = drawn(Drawn(WALL), 101.6, "vertical")
    assert layout.count == 37  # 3657.6 / 101.6 = 36 gaps
    places = rings(picture)
    assert [w for w in picture.words() if w.isdigit()] == [str(n) for n in range(1, 38)]
    for number, place in enumerate(places, start=1):
        x, y = picture.place_of(str(number))
        nearest = min(range(37), key=lambda n: math.dist(places[n], (x, y - 5)))
        assert nearest + 1 == number
        assert abs(x - place[0]) < 40


def test_numbers_do_not_run_into_each_other():
    _, picture = drawn(Drawn([(0, 0), (4267.2, 0)]), 76.2, "horizontal")
    numbers = [w for w in picture.words() if w.isdigit()]
    assert len(numbers) == 57
    places = [(*picture.place_of(w), len(w)) for w in numbers]
    for (x, y, letters), (other_x, other_y, other_letters) in pairwise(sorted(places)):
        is_beside = abs(x - other_x) >= 4 * (letters + other_letters) - 0.01
        assert is_beside or abs(y - other_y) >= 12


def test_the_extent_is_written_in_both_systems():
    _, picture = drawn(Drawn(WALL), 304.8, "vertical")
    assert "3658 mm / 12 ft" in picture.words()  # 12 ft = 3657.6 mm, NIST SP 811
    _, flat = drawn(Drawn([(0, 0), (1219.2, 0)]), 304.8, "horizontal")
    assert "1219 mm / 4 ft" in flat.words()


def test_title_and_description_come_from_outside():
    _, picture = drawn(Drawn(WALL), 304.8, "vertical")
    assert picture.says("title") == "Crack & ports"
    assert picture.says("desc") == "Numbered < in order"


@given(
    st.lists(st.tuples(st.floats(-5000, 5000), st.floats(-5000, 5000)), min_size=2, max_size=6),
    st.floats(60, 900),
    st.sampled_from(["vertical", "horizontal"]),
)
def test_nothing_is_drawn_outside_the_sheet(line: list[Point], spacing: float, orientation: str):
    if any(math.dist(a, b) <= 5 for a, b in pairwise(line)):
        return
    _, picture = drawn(Drawn(line), spacing, orientation)
    width, height = picture.size
    assert height < 520
    for x, y in rings(picture):
        assert 0 <= x <= width
        assert 0 <= y <= height
    for element in picture.root.iter():
        if element.get("d") and re.fullmatch(r"M[^a-z]*", element.get("d", "")):
            assert all(0 <= x <= width and 0 <= y <= height for x, y in points(element))
