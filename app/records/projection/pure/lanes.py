"""Where to look for the rows that hold at one point of days and times, among millions of them.

PURE. A row covers a span of days and a span of times of arrival; a board wants every row that holds
on one day as known at one time. An index sorts by one value, so looking for rows that began before
the point finds all that ended long ago too. Therefore each row is put into a lane by the length of
one of its spans, and inside a lane sorted by that span's start: a row of a lane that holds at a
point can't have begun longer ago than the lane is wide. So a board reads a short stretch of each
lane and little else. The technique is that of binning intervals by length.

A row that has no last day but an end of belief (what was expected then) is sorted by when it was
believed; a row with a last day by its days. A row with neither is in the lane OPEN.
"""

from bisect import bisect_left
from typing import NamedTuple

FOREVER = 3_652_059  # date.max.toordinal()
STILL_KNOWN = 2**62
DAY_US = 86_400_000_000
_EPOCH_DAY = 719_163  # date(1970, 1, 1).toordinal()


def _widths() -> list[int]:
    """Widths in days, each about 1.4 times the one before; the last takes in all there can be."""
    found = [1]
    while found[-1] < 20_000:
        found.append(max(found[-1] + 1, round(2 ** (len(found) / 2))))
    return [*found, FOREVER]


WIDTHS = _widths()
OPEN = 0
_BY_TIME = 1
_BY_DAY = 101


class Stretch(NamedTuple):
    """A part of a lane to be read: starts from low to high, both included."""

    lane: int
    low: int
    high: int


def day_of(time_us: int) -> int:
    """The UTC day number of a time in microseconds since 1970."""
    return time_us // DAY_US + _EPOCH_DAY


def place_of(from_day: int, to_day: int, recorded_from: int, recorded_to: int) -> tuple[int, int]:
    """The lane of a row and its start there.

    from_day, to_day: day numbers, both included; recorded_from, recorded_to: microseconds since
    1970. Example: a row for one day, still known, lies in the narrowest lane by day.
    """
    if to_day != FOREVER:
        return _BY_DAY + _narrowest(to_day - from_day + 1), from_day
    start = day_of(recorded_from)
    if recorded_to == STILL_KNOWN:
        return OPEN, start
    return _BY_TIME + _narrowest(day_of(recorded_to) - start + 1), start


def _narrowest(days: int) -> int:
    return bisect_left(WIDTHS, days)


def stretches(as_of_day: int, known_at: int) -> list[Stretch]:
    """All stretches in which rows that hold at a point can lie; the rows must still be compared.

    as_of_day: a day number; known_at: microseconds since 1970.
    """
    known_day = day_of(known_at)
    return [
        Stretch(OPEN, 0, known_day),
        *(Stretch(_BY_TIME + i, known_day - w + 1, known_day) for i, w in enumerate(WIDTHS)),
        *(Stretch(_BY_DAY + i, as_of_day - w + 1, as_of_day) for i, w in enumerate(WIDTHS)),
    ]
