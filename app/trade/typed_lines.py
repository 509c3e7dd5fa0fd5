"""Reading the lines of a crack as they are typed, and widths gauged along it. No Flask here.

A point is two lengths, across and up, with a comma between them; points are parted by a semicolon:

    0, 0; 2 in, 36 in; 0, 6 ft

Every length carries its unit, except 0. A unit in front holds for all that carry none:

    in: 0, 0; 2, 36; 0, 72

Of branches and islands each line of text is one. Gauged widths are pairs of a place along the
crack and the width there.
"""

import math
import re
from collections.abc import Sequence
from itertools import pairwise

from app.trade.calculator import Point
from app.trade.lengths import read_quantity
from app.trade.typed_number import Unreadable
from app.trade.units import folded, words_for

MOST_LETTERS = 4000
_UNIT_IN_FRONT = re.compile(r"^\s*([^\d:;,]+?)\s*:")
_POINT = "“{text}” is not a point. Type across and up, as in 2 in, 36 in."
_GAUGE = "“{text}” is not a pair. Type the place and the width, as in 3 ft, 20 mil."

Pairs = tuple[Point, ...]


def read_line(text: str) -> Pairs:
    """The points of one line in mm; line breaks part points as semicolons do.

    Errors: Unreadable with the sentence for the page.
    Example: read_line("mm: 0, 0; 0, 900") == ((0.0, 0.0), (0.0, 900.0)).
    """
    pairs = _pairs(";".join(text.splitlines()), _POINT)
    if len(pairs) < 2:
        raise Unreadable(text[:40], "A line needs two points or more. Where does it end?")
    return pairs


def read_lines(text: str) -> tuple[Pairs, ...]:
    """One line of points for each line of text that is not empty."""
    return tuple(read_line(line) for line in text.splitlines() if line.strip())


def read_gauges(text: str) -> Pairs:
    """Places along the crack and the width at each, both in mm.

    Example: read_gauges("0, 0.3 mm; 3 m, 20 mil") == ((0.0, 0.3), (3000.0, 0.508)).
    """
    pairs = _pairs(";".join(text.splitlines()), _GAUGE)
    if len(pairs) < 2:
        raise Unreadable(
            text[:40], "Gauge two places or more, the first at 0, the last at the end."
        )
    return pairs


def _pairs(text: str, question: str) -> Pairs:
    if len(text) > MOST_LETTERS:
        raise Unreadable(text[:40], "That is too long to be one crack. Draw fewer points.")
    unit, rest = _unit_in_front(text)
    pieces = [piece.strip() for piece in rest.split(";") if piece.strip()]
    return tuple(_pair(piece, unit, question) for piece in pieces)


def _unit_in_front(text: str) -> tuple[str | None, str]:
    found = _UNIT_IN_FRONT.match(text)
    if found is None:
        return None, text
    known = words_for("length")
    word = folded(found[1])
    if word not in known:
        sentence = "What unit is “{text}”? Use mm, cm, m, in, ft or mil."
        raise Unreadable(found[1][:40], sentence)
    return known[word].name, text[found.end() :]


def _pair(piece: str, unit: str | None, question: str) -> Point:
    sides = piece.split(",")
    if len(sides) != 2:
        raise Unreadable(piece[:40], question)
    first, second = (_length(side, unit) for side in sides)
    return first, second


def _length(typed: str, unit: str | None) -> float:
    """One length in mm; a line may run to the left of its start or below it."""
    text = typed.strip()
    if text == "0":
        return 0.0
    is_negative = text[:1] in ("-", "−", "–")
    value = float(read_quantity(text[1:] if is_negative else text, "length", unit).value)
    return -value if is_negative else value


def length_of(points: Sequence[Point]) -> float:
    """Length along a line, in the unit of its points."""
    return math.fsum(math.dist(a, b) for a, b in pairwise(points))
