"""The practice wall, its gauge and the opened crack: to scale, and true to their numbers."""

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from app.drawing.opened_crack import Layout, Plane, Pocket, Spot, opened_crack, still
from app.drawing.pump_gauge import Reading, pump_gauge, turn_of
from app.drawing.wall_front import LeakSeen, Line, PortSeen, wall_front

SVG = "{http://www.w3.org/2000/svg}"
RUN = re.compile(r"M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)h-[\d.]+z")
UP = Layout("up", 400.0, 80.0)


def parsed(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def classes(svg: str) -> list[str]:
    return [node.get("class", "") for node in parsed(svg).iter()]


def rings(svg: str) -> dict[int, tuple[float, float, float]]:
    """Centre and radius of each port's ring, by number."""
    found = {}
    for group in parsed(svg).iter(f"{SVG}g"):
        if group.get("data-port"):
            ring = next(c for c in group.iter(f"{SVG}circle") if c.get("class") == "wall-ring")
            found[int(group.get("data-port"))] = tuple(
                float(ring.get(k)) for k in ("cx", "cy", "r")
            )
    return found


CRACK = Line(((0.0, 0.0), (0.0, 1.5)))


def wall(ports, leaks=()) -> str:
    return wall_front([CRACK], ports, leaks, (176.0, 336.0), "Wall", "words")


def test_ports_stand_to_scale_along_the_crack():
    places = (0.0, 0.25, 1.0, 1.5)
    drawn = rings(wall([PortSeen(n, 0, at, "open") for n, at in enumerate(places, 1)]))
    heights = [drawn[n][1] for n in range(1, 5)]
    scale = (heights[0] - heights[3]) / 1.5
    for at, height in zip(places, heights, strict=True):
        assert heights[0] - height == pytest.approx(at * scale, abs=0.02)


@pytest.mark.parametrize("count", [2, 7, 12, 16])
def test_rings_never_cover_each_other(count: int):
    ports = [PortSeen(n + 1, 0, 1.5 * n / (count - 1), "open") for n in range(count)]
    drawn = list(rings(wall(ports)).values())
    for n, (ax, ay, ar) in enumerate(drawn):
        for bx, by, br in drawn[:n]:
            assert math.dist((ax, ay), (bx, by)) >= ar + br


@pytest.mark.parametrize(
    ("state", "sign"),
    [
        ("open", "wall-bore"),
        ("shows", "wall-drop"),
        ("capped", "wall-cross"),
        ("hose", "wall-hose"),
        ("hose-open", "wall-hose"),
    ],
)
def test_each_state_has_a_shape_of_its_own(state: str, sign: str):
    assert sign in classes(wall([PortSeen(1, 0, 0.5, state)]))


def test_what_cannot_be_seen_is_not_drawn():
    dry = classes(wall([PortSeen(1, 0, 0.5, "open")]))
    assert not {"wall-drop", "wall-leak", "wall-wet", "wall-hose"} & set(dry)
    assert "wall-leak" in classes(wall([PortSeen(1, 0, 0.5, "open")], [LeakSeen(0, 0.6)]))


def test_every_port_has_its_number_once_and_the_chosen_one_is_marked():
    svg = wall([PortSeen(n, 0, 0.1 * n, "open", n == 5) for n in range(1, 12)])
    numbers = [node.text for node in parsed(svg).iter(f"{SVG}text")]
    assert sorted(numbers, key=int) == [str(n) for n in range(1, 12)]
    assert [c for c in classes(svg) if "is-chosen" in c] == ["wall-port is-open is-chosen"]


def test_the_needle_turns_evenly_with_the_pressure():
    turns = [turn_of(share) for share in (0, 0.25, 0.5, 0.75, 1)]
    assert turns[2] == 0  # half the scale stands upright
    steps = [b - a for a, b in pairwise(turns)]
    assert steps == pytest.approx([steps[0]] * 4)
    reading = Reading(0.3, 0.4, 0.6, [(0, "0"), (1, "0.5")], "MPa")
    needle = parsed(pump_gauge(reading, "Gauge", "words")).find(f".//{SVG}path[@id='needle']")
    assert needle.get("transform").startswith(f"rotate({turn_of(0.3):g} ")


def area(svg: str, *names: str) -> float:
    paths = [n for n in parsed(svg).iter(f"{SVG}path") if n.get("class") in names]
    return sum(float(w) * float(h) for p in paths for _, _, w, h in RUN.findall(p.get("d")))


WET = tuple(f"wet-{tone}" for tone in range(1, 6))
# Two columns of three blocks: the face first, the back never reached.
SMALL = Plane(2, 3, bytes((0, 100, 255, 50, 254, 255)), 0.0, 1.0)


def test_the_coloured_area_is_the_filled_share():
    svg = opened_crack("you", UP, [SMALL], [Spot(1, 0, 0.0)], [], "You", "words")
    assert area(svg, *WET) == pytest.approx(4 / 6 * 400 * 80, rel=0.001)


def test_each_tone_is_a_fifth_of_what_was_filled():
    plane = Plane(10, 10, bytes(range(0, 200, 2)), 0.0, 1.0)
    svg = opened_crack("you", UP, [plane], [], [], "You", "words")
    for tone in WET:
        assert area(svg, tone) == pytest.approx(400 * 80 / 5, rel=0.001)


def test_a_still_holds_what_had_come_by_then_and_no_more():
    areas = [area(still("s", UP, [SMALL], share, "s"), *WET) for share in (0, 0.2, 0.4, 1)]
    blocks = [round(one / (400 * 80 / 6)) for one in areas]
    assert blocks == [1, 2, 3, 4]


def test_an_empty_crack_and_a_pocket_are_drawn_as_such():
    empty = Plane(2, 2, bytes([255] * 4), 0.0, 1.0)
    pocket = Pocket(0, (0.5, 1.0), (0.5, 1.0))
    svg = opened_crack("you", UP, [empty], [], [pocket], "You", "words")
    assert area(svg, *WET) == 0
    box = next(n for n in parsed(svg).iter(f"{SVG}rect") if n.get("class") == "open-pocket")
    x, y, *_ = UP.box(0, empty)
    assert [float(box.get(k)) for k in ("x", "y", "width", "height")] == [x + 40, y, 40, 200]


@pytest.mark.parametrize(("way", "top"), [("across", 0.0), ("under", 2 / 3)])
def test_the_face_is_on_top_of_a_level_crack_and_under_an_overhead_one(way: str, top: float):
    face_only = Plane(1, 3, bytes((0, 255, 255)), 0.0, 1.0)
    layout = Layout(way, 300.0, 90.0)
    svg = opened_crack("you", layout, [face_only], [], [], "You", "words")
    path = next(n for n in parsed(svg).iter(f"{SVG}path") if n.get("class") in WET)
    _, y, _, height = (float(v) for v in RUN.search(path.get("d")).groups())
    assert (y, height) == (layout.box(0, face_only)[1] + top * 90, 30)
