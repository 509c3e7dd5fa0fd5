"""Ports on drawn cracks: at each end and junction (UFGS 03930 §3.3.4), closer at islands (common
practice), and no gap over the spacing.
"""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotListed, OutOfRange
from app.trade.port_layout import NotAttached, WidestNotKnown, port_layout

ISLAND = [(300, 0), (300, 100), (600, 100), (600, 0)]
RING = [(900, 0), (1000, 100), (1100, 0), (1000, -100), (900, 0)]


def places(layout, kind=None):
    return {(round(p.x_mm), round(p.y_mm)) for p in layout.ports if kind is None or p.kind == kind}


def test_a_straight_crack():
    layout = port_layout([(0, 0), (1000, 0)], 300, "horizontal")
    assert [round(p.x_mm) for p in layout.ports] == [0, 250, 500, 750, 1000]
    assert places(layout, "end") == {(0, 0), (1000, 0)}
    assert layout.largest_gap_mm == pytest.approx(250)


def test_a_bent_crack_is_measured_along_its_bends():
    layout = port_layout([(0, 0), (300, 400), (300, 900)], 500, "vertical")
    assert places(layout) == {(0, 0), (300, 400), (300, 900)}
    assert layout.length_mm == pytest.approx(1000)


def test_a_branch_brings_a_junction_and_an_end():
    layout = port_layout([(0, 0), (0, 900)], 300, "vertical", [[(0, 500), (200, 600)]])
    assert places(layout, "junction") == {(0, 500)}
    assert places(layout, "end") == {(0, 0), (0, 900), (200, 600)}


def test_a_branch_of_a_branch():
    layout = port_layout(
        [(0, 0), (0, 900)], 300, "vertical", [[(0, 500), (400, 500)], [(200, 500), (200, 700)]]
    )
    assert places(layout, "junction") == {(0, 500), (200, 500)}


def test_cracks_that_cross_meet_in_one_port():
    layout = port_layout([(0, 0), (1000, 0)], 500, "horizontal", [[(500, -300), (500, 300)]])
    assert places(layout, "junction") == {(500, 0)}
    crossing = next(p for p in layout.ports if p.kind == "junction")
    assert len(crossing.neighbours) == 4


def test_ports_stand_closer_on_both_sides_of_an_island():
    layout = port_layout([(0, 0), (1000, 0)], 300, "horizontal", islands_mm=[ISLAND])
    assert places(layout, "junction") == {(300, 0), (600, 0)}
    assert (450, 0) in places(layout), "beside the island the main crack has closer ports too"
    strand = [p.at_mm for p in layout.ports if p.line == 1]
    assert len(strand) == 3, "500 mm of strand at 150 mm or less: three ports between"


def test_the_spacing_at_islands_can_be_given_but_not_wider_than_the_rest():
    wide = port_layout([(0, 0), (1000, 0)], 300, "horizontal", (), [ISLAND], 250)
    close = port_layout([(0, 0), (1000, 0)], 300, "horizontal", (), [ISLAND], 60)
    assert close.count > wide.count
    with pytest.raises(OutOfRange, match="island_spacing_mm is 400"):
        port_layout([(0, 0), (1000, 0)], 300, "horizontal", (), [ISLAND], 400)


def test_a_ring_at_the_end_of_a_crack():
    layout = port_layout([(0, 0), (900, 0)], 300, "horizontal", islands_mm=[RING])
    assert places(layout, "junction") == {(900, 0)}
    assert places(layout, "end") == {(0, 0)}


def test_a_ring_may_be_drawn_from_any_of_its_points():
    far_side = [(1100, 0), (1000, -100), (900, 0), (1000, 100), (1100, 0)]
    layout = port_layout([(0, 0), (900, 0)], 300, "horizontal", islands_mm=[far_side])
    assert len(places(layout)) == layout.count, "one port where the ring closes, not two"
    assert places(layout, "end") == {(0, 0)}


def test_a_vertical_crack_is_numbered_from_the_lowest_port_up():
    layout = port_layout([(0, 900), (0, 0)], 300, "vertical", [[(0, 600), (200, 300)]])
    heights = [p.y_mm for p in layout.ports]
    assert heights == sorted(heights)
    assert [p.number for p in layout.ports] == list(range(1, layout.count + 1))


def test_a_horizontal_crack_starts_at_the_end_that_is_named():
    crack = [(0, 0), (1000, 0)]
    assert port_layout(crack, 300, "horizontal").ports[0].x_mm == 0
    assert port_layout(crack, 300, "overhead", start_at="last-end").ports[0].x_mm == 1000


def test_widest_first_starts_nearest_to_the_widest_place():
    crack = [(0, 0), (1000, 0)]
    layout = port_layout(crack, 300, "horizontal", start_at="widest", widest_at_mm=520)
    assert layout.ports[0].x_mm == pytest.approx(500)
    with pytest.raises(WidestNotKnown, match="Where is the crack widest"):
        port_layout(crack, 300, "horizontal", start_at="widest")
    with pytest.raises(OutOfRange, match="widest_at_mm is 1200"):
        port_layout(crack, 300, "horizontal", start_at="widest", widest_at_mm=1200)


def test_a_loose_branch_is_refused_with_its_number():
    with pytest.raises(NotAttached, match="Branch number 2"):
        port_layout(
            [(0, 0), (0, 900)], 300, "vertical", [[(0, 500), (200, 600)], [(50, 0), (90, 80)]]
        )
    with pytest.raises(NotAttached, match="Island number 1"):
        port_layout([(0, 0), (100, 0)], 300, "vertical", islands_mm=[RING])


def test_a_single_point_or_the_same_point_twice_is_no_line():
    with pytest.raises(NotListed, match="at least two points"):
        port_layout([(0, 0)], 300, "vertical")
    with pytest.raises(NotListed, match="1 mm apart"):
        port_layout([(0, 0), (0, 0)], 300, "vertical")


def test_a_scribble_of_thousands_of_points_is_refused():
    with pytest.raises(NotListed, match="at most 400"):
        port_layout([(x, 0) for x in range(0, 5000, 5)], 300, "horizontal")


coordinates = st.integers(-2000, 2000)
points = st.tuples(coordinates, coordinates)


@st.composite
def cracks(draw):
    """A main crack, branches from points on lines drawn before, and maybe an island strand."""

    def walk(start, least):
        path = [start]
        for step in draw(st.lists(points, min_size=least, max_size=4)):
            if math.dist(step, path[-1]) > 5:
                path.append(step)
        return path

    main = walk(draw(points), 1)
    if len(main) < 2:
        main.append((main[0][0] + 500, main[0][1]))
    branches = []
    for _ in range(draw(st.integers(0, 3))):
        host = draw(st.sampled_from([main, *branches]))
        corner = draw(st.integers(0, len(host) - 2))
        share = draw(st.floats(0, 1))
        (ax, ay), (bx, by) = host[corner : corner + 2]
        branch = walk((ax + share * (bx - ax), ay + share * (by - ay)), 1)
        if len(branch) > 1:
            branches.append(branch)
    islands = []
    if draw(st.booleans()) and math.dist(main[0], main[1]) > 50:
        (ax, ay), (bx, by) = main[:2]
        islands.append([main[0], ((ax + bx) / 2 - (by - ay) / 3, (ay + by) / 2 + 20), main[1]])
    return main, branches, [i for i in islands if all(map(far, i, i[1:]))]


def far(a, b):
    return math.dist(a, b) > 5


def gap_along(line, layout):
    """Largest stretch of a line without a port on it, found by walking it in small steps."""
    largest = run = 0.0
    for (ax, ay), (bx, by) in pairwise(line):
        length = math.dist((ax, ay), (bx, by))
        steps = max(1, math.ceil(length / 10))
        for step in range(steps + 1):
            here = (ax + step / steps * (bx - ax), ay + step / steps * (by - ay))
            near = min(math.dist(here, (p.x_mm, p.y_mm)) for p in layout.ports)
            run = 0.0 if near <= 10 else run + length / steps
            largest = max(largest, run)
    return largest


@given(cracks(), st.floats(100, 1500), st.sampled_from(["vertical", "horizontal", "overhead"]))
def test_ports_at_every_end_and_junction_and_no_gap_over_the_spacing(crack, spacing, orientation):
    main, branches, islands = crack
    layout = port_layout(main, spacing, orientation, branches, islands)
    at = [(p.x_mm, p.y_mm) for p in layout.ports]
    for line in (main, *branches, *islands):
        # Ends, and with them the junctions that branches and strands start from.
        for end in (line[0], line[-1]):
            assert min(math.dist(end, port) for port in at) <= 3
        assert gap_along(line, layout) <= spacing + 20
    assert layout.largest_gap_mm <= spacing * (1 + 1e-8)
    assert [p.number for p in layout.ports] == list(range(1, layout.count + 1))


@given(cracks(), st.floats(100, 1500))
def test_each_port_after_the_first_lies_beside_one_already_injected(crack, spacing):
    main, branches, islands = crack
    layout = port_layout(main, spacing, "horizontal", branches, islands)
    for port in layout.ports[1:]:
        assert min(port.neighbours) < port.number
