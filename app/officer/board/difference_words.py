"""What differs, as sentences in the page's language."""

from flask_babel import gettext as _
from flask_babel import ngettext

from app.officer.words import day
from app.records.boards.board_cells import Cell
from app.records.events import Event
from app.records.standing.counting import days_late


def days_changed(then: Cell, now: Cell) -> str:
    """Return how a current standing's last good day moved; empty where it did not."""
    if not (then.is_current and now.is_current):
        return ""
    before, after = (_good_through(cell) for cell in (then, now))
    if before == after:
        return ""
    return _("Believed then: %(before)s. Known now: %(after)s.", before=before, after=after)


def _good_through(cell: Cell) -> str:
    days = [on for on in (cell.last_good_day, cell.continuity_due_on) if on is not None]
    if not days:
        return _("good without an end")
    return _("good through %(day)s", day=day(min(days)))


def late_words(event: Event) -> str:
    """Return how long after its day a record arrived; empty for the same day."""
    days = days_late(event)
    if days <= 0:
        return ""
    return ngettext("one day after it happened", "%(num)s days after it happened", days)
