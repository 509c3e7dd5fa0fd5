"""Room for labels: boxes already taken in a picture, kept by square so that a look is quick."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from app.drawing.svg import Point

SQUARE = 16.0


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in the picture, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """True when the two share more than an edge."""
        is_beside = self.right <= other.left or other.right <= self.left
        return not (is_beside or self.bottom <= other.top or other.bottom <= self.top)


def around(place: Point, half: float) -> Box:
    """A square box around a point."""
    return Box(place[0] - half, place[1] - half, place[0] + half, place[1] + half)


@dataclass(slots=True)
class Room:
    """What is taken, and whether a box is still free inside the limits."""

    limits: Box
    _taken: dict[tuple[int, int], list[Box]] = field(default_factory=dict)

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        for square in _squares(box):
            self._taken.setdefault(square, []).append(box)

    def is_free(self, box: Box) -> bool:
        """True when the box lies inside the limits and meets nothing taken."""
        lies_inside = (
            self.limits.left <= box.left
            and box.right <= self.limits.right
            and self.limits.top <= box.top
            and box.bottom <= self.limits.bottom
        )
        return lies_inside and not any(
            box.meets(other) for square in _squares(box) for other in self._taken.get(square, ())
        )

    def first_free(self, boxes: Sequence[Box]) -> int | None:
        """The index of the first box that is free, which is then taken; None when none is."""
        for index, box in enumerate(boxes):
            if self.is_free(box):
                self.take(box)
                return index
        return None


def _squares(box: Box) -> Iterator[tuple[int, int]]:
    for column in range(int(box.left // SQUARE), int(box.right // SQUARE) + 1):
        for row in range(int(box.top // SQUARE), int(box.bottom // SQUARE) + 1):
            yield column, row
