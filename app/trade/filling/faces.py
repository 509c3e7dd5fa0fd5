"""What conducts between neighbouring cells, and the order in which the cells are best solved.

A face conducts by the cubic law, w³ b / (12 L) for breadth b and length L, with each half of L at
the width of its own cell: the two resistances add up. Source: cubic-law.
"""

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import reverse_cuthill_mckee

from app.trade.filling.arrays import Array, Faces, Index, Mask


class Link(NamedTuple):
    """Two neighbouring columns, and how far the middle of each lies from the face between."""

    a: int
    b: int
    half_a_m: float
    half_b_m: float


def links_along(starts: Sequence[int], cell_m: Sequence[float]) -> list[Link]:
    """Links between the columns of each strip, which follow each other from its start."""
    found = []
    for (start, end), cell in zip(pairwise(starts), cell_m, strict=True):
        found += [Link(c, c + 1, cell / 2, cell / 2) for c in range(start, end - 1)]
    return found


def solving_order(count: int, links: Sequence[Link]) -> Index:
    """For each column its place among the unknowns, so that neighbours stand close together."""
    places = np.arange(count)
    if any(link.b != link.a + 1 for link in links):
        ends = np.array([link[:2] for link in links])
        graph = coo_array((np.ones(len(links)), ends.T), shape=(count, count)).tocsr()
        order = reverse_cuthill_mckee((graph + graph.T).tocsr(), symmetric_mode=True)
        places[order] = np.arange(count)
    return places


def faces_between(
    links: Sequence[Link],
    along_m: Array,
    deep_m: float,
    width_m: Array,
    height_m: Array,
    is_crack: Mask,
) -> tuple[Faces, ...]:
    """Faces within each column from row to row, then faces between columns, nearest first.

    links name columns by their place among the unknowns; along_m is each column's own length.
    """
    resistance = 12 / width_m**3
    upper, lower = np.s_[:, :-1], np.s_[:, 1:]
    half = deep_m / 2 / along_m[:, None]
    conductance = is_crack[upper] * is_crack[lower] / half / (resistance[upper] + resistance[lower])
    found = [Faces(upper, lower, 1, conductance, height_m[upper] - height_m[lower])]
    by_offset: dict[int, list[Link]] = defaultdict(list)
    for link in sorted({_rising(link) for link in links}):
        by_offset[link.b - link.a].append(link)
    for offset, group in sorted(by_offset.items()):
        a, b = np.array([link.a for link in group]), np.array([link.b for link in group])
        half_a = np.array([link.half_a_m for link in group])[:, None] / deep_m
        half_b = np.array([link.half_b_m for link in group])[:, None] / deep_m
        conductance = is_crack[a] * is_crack[b] / (half_a * resistance[a] + half_b * resistance[b])
        lift = height_m[a] - height_m[b]
        found.append(Faces(_rows(a), _rows(b), offset * width_m.shape[1], conductance, lift))
    return tuple(found)


def _rising(link: Link) -> Link:
    return link if link.a < link.b else Link(link.b, link.a, link.half_b_m, link.half_a_m)


def _rows(columns: Index) -> Any:
    """A slice where the columns follow each other: a view is much quicker than a copy."""
    first, last = int(columns[0]), int(columns[-1])
    return slice(first, last + 1) if last - first + 1 == len(columns) else columns


def neighbours(faces: Sequence[Faces], shape: tuple[int, ...]) -> tuple[Index, Array]:
    """For each cell, by its place in the flattened arrays, its neighbours and the conductance.

    As many columns as the cell with the most neighbours has; a cell with fewer is its own
    neighbour there, with conductance 0.
    """
    cells = np.arange(shape[0] * shape[1]).reshape(shape)
    one, other, ease = [], [], []
    for face in faces:
        a, b, c = cells[face.a].ravel(), cells[face.b].ravel(), face.conductance.ravel()
        one += [a, b]
        other += [b, a]
        ease += [c, c]
    start, end, conductance = np.concatenate(one), np.concatenate(other), np.concatenate(ease)
    order = np.argsort(start, kind="stable")
    start, end, conductance = start[order], end[order], conductance[order]
    rank = np.arange(len(start)) - np.searchsorted(start, start)
    most = int(rank.max(initial=0)) + 1
    beside = np.repeat(cells.reshape(-1, 1), most, axis=1)
    ease_beside = np.zeros(beside.shape)
    beside[start, rank] = end
    ease_beside[start, rank] = conductance
    return beside, ease_beside
