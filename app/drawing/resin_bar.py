"""Where the resin goes: one bar, a piece for each place, each piece named below it."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.svg import picture, tag, words_at

WIDTH = 360.0
LEFT, RIGHT = 8.0, 352.0
BAR_TOP, BAR_HEIGHT = 12.0, 46.0
LINE = 26.0
CLASSES = ("resin", "seal", "steel", "concrete")
WIDE_ENOUGH = 18.0  # for its number to stand in a piece


@dataclass(frozen=True, slots=True)
class Piece:
    """One place the resin goes to: how much, and the line that names it with its amount."""

    ml: float
    words: str


def resin_bar(pieces: Sequence[Piece], title: str, description: str) -> str:
    """The total as one bar; each piece as long as its share.

    Inputs:
        pieces: at most four, mL each, 0 or more; a piece of 0 is named but not drawn
        title, description: in the reader's language
    Result: SVG text.
    Errors: ValueError for too many pieces, a negative one, or none over zero.
    Source: crack-volume-geometry, waste-allowance, hold-up, physical-sample
    """
    total = sum(piece.ml for piece in pieces)
    if len(pieces) > len(CLASSES) or min(piece.ml for piece in pieces) < 0 or total <= 0:
        raise ValueError(f"no bar can be drawn of {[piece.ml for piece in pieces]}")
    parts: list[str] = []
    x = LEFT
    for place, (piece, class_) in enumerate(zip(pieces, CLASSES, strict=False), start=1):
        width = piece.ml / total * (RIGHT - LEFT)
        if piece.ml > 0:
            parts.append(tag("rect", class_=class_, x=x, y=BAR_TOP, width=width, height=BAR_HEIGHT))
        if width >= WIDE_ENOUGH:
            parts.append(_call_out(place, x + width / 2, BAR_TOP + BAR_HEIGHT / 2))
        x += width
        parts += _line(place, piece.words, class_)
    height = BAR_TOP + BAR_HEIGHT + 10 + LINE * len(pieces)
    return picture("resin-bar", WIDTH, height, title, description, parts)


def _line(place: int, words: str, class_: str) -> list[str]:
    y = BAR_TOP + BAR_HEIGHT + LINE * place
    return [
        tag("rect", class_=class_, x=LEFT, y=y - 15, width=28, height=18),
        _call_out(place, LEFT + 14, y - 6),
        words_at(LEFT + 38, y, words, 16),
    ]


def _call_out(place: int, x: float, y: float) -> str:
    """The piece's number on a small disc, so that nothing hangs on the colour alone."""
    disc = tag("circle", class_="plot-disc", cx=x, cy=y, r=8)
    return disc + words_at(x, y + 4.5, str(place), 13, "middle")
