"""The ports of a crack as a network: at its ends and junctions, and between within a spacing."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.trade.calculator import Point
from app.trade.crack_lines import TOUCH_MM, Line, Meeting
from app.trade.spacing import gaps

Cut = tuple[int, int]  # a line, and one of the places on it that must have a port


@dataclass(frozen=True, slots=True)
class Port:
    """One port: its number in the order of injection, its place, and the ports next to it."""

    number: int
    x_mm: float
    y_mm: float
    line: int  # 0 the main crack, then the branches, then the island strands
    at_mm: float  # along that line
    kind: str  # end | junction | between
    neighbours: tuple[int, ...]


class Network:
    """Ports as nodes, stretches of crack between neighbouring ports as links; built up in place."""

    def __init__(self) -> None:
        self.ports: list[Port] = []
        self.links: dict[int, dict[int, float]] = {}
        self.gaps: list[float] = []

    def add(self, line: int, at_mm: float, point: Point, kind: str) -> int:
        """A new node; its number and neighbours come once the order is known."""
        self.ports.append(Port(0, *point, line, at_mm, kind, ()))
        self.links[len(self.ports) - 1] = {}
        return len(self.ports) - 1

    def link(self, a: int, b: int, gap_mm: float) -> None:
        """A stretch of crack between two ports; of two such stretches the shorter leads."""
        self.gaps.append(gap_mm)
        if a != b:
            shorter = min(gap_mm, self.links[a].get(b, gap_mm))
            self.links[a][b] = self.links[b][a] = shorter


def network_of(
    lines: Sequence[Line],
    met: Sequence[Meeting],
    first_island: int,
    spacing_mm: float,
    close_mm: float,
) -> Network:
    """Ports at every end and junction, and between them within the spacing.

    Lines from `first_island` on are strands around islands: they, and what runs beside them, get
    `close_mm`.
    """
    network = Network()
    cuts = [_cuts(index, line, met) for index, line in enumerate(lines)]
    corners = _corners(network, lines, cuts, met)
    beside = _stretches_beside_islands(met, first_island)
    for index, line in enumerate(lines):
        for number, (start, end) in enumerate(pairwise(cuts[index])):
            middle = (start + end) / 2
            is_close = index >= first_island or any(
                low <= middle <= high for low, high in beside.get(index, ())
            )
            ends = (corners[index, number], corners[index, number + 1])
            steps = gaps(end - start, close_mm if is_close else spacing_mm)
            _fill(network, (index, line), ends, [start, end], steps)
    return network


def _cuts(index: int, line: Line, met: Sequence[Meeting]) -> list[float]:
    """The places along a line that must have a port, in order: its ends and its junctions."""
    cuts = [0.0, line.length_mm]
    joined = [m.at_mm for m in met if m.line == index]
    joined += [m.other_at_mm for m in met if m.other == index]
    for at in sorted(joined):
        if all(abs(cut - at) > 2 * TOUCH_MM for cut in cuts):
            cuts.append(at)
    return sorted(cuts)


def _corners(
    network: Network, lines: Sequence[Line], cuts: Sequence[Sequence[float]], met: Sequence[Meeting]
) -> dict[Cut, int]:
    """One node for every end and junction, shared by all the lines that meet there."""

    def nearest(line: int, at_mm: float) -> Cut:
        return line, min(range(len(cuts[line])), key=lambda n: abs(cuts[line][n] - at_mm))

    joints = [(nearest(m.line, m.at_mm), nearest(m.other, m.other_at_mm)) for m in met]
    rings = [((i, 0), (i, len(cuts[i]) - 1)) for i, line in enumerate(lines) if line.is_ring]
    same = {(i, n): (i, n) for i, places in enumerate(cuts) for n in range(len(places))}
    for a, b in joints + rings:
        keep, drop = sorted((same[a], same[b]))
        same = {cut: keep if root == drop else root for cut, root in same.items()}
    junctions = {same[a] for a, _ in joints}
    nodes: dict[Cut, int] = {}
    for line, n in sorted(set(same.values())):
        kind = "junction" if (line, n) in junctions else "between" if lines[line].is_ring else "end"
        at = cuts[line][n]
        nodes[line, n] = network.add(line, at, lines[line].point(at), kind)
    return {cut: nodes[root] for cut, root in same.items()}


def _stretches_beside_islands(
    met: Sequence[Meeting], first_island: int
) -> dict[int, list[tuple[float, float]]]:
    """Where a line runs past an island: between its first and its last contact with the strand."""
    contacts: dict[tuple[int, int], list[float]] = {}
    for meeting in met:
        for line, at, other in (
            (meeting.line, meeting.at_mm, meeting.other),
            (meeting.other, meeting.other_at_mm, meeting.line),
        ):
            if other >= first_island > line:
                contacts.setdefault((line, other), []).append(at)
    beside: dict[int, list[tuple[float, float]]] = {}
    for (line, _), places in contacts.items():
        beside.setdefault(line, []).append((min(places), max(places)))
    return beside


def _fill(
    network: Network, on: tuple[int, Line], ends: tuple[int, int], stretch: list[float], steps: int
) -> None:
    index, line = on
    start, end = stretch
    gap = (end - start) / steps
    previous = ends[0]
    for step in range(1, steps):
        at = start + step * gap
        node = network.add(index, at, line.point(at), "between")
        network.link(previous, node, gap)
        previous = node
    network.link(previous, ends[1], gap)
