"""The board as a CSV file that a spreadsheet opens without running anything. No Flask here."""

import csv
from collections.abc import Callable, Iterable, Iterator, Sequence
from io import StringIO

from app.accounts.people import Person
from app.officer.board.pages import page_status
from app.officer.telling import Telling
from app.records.standing.definition import Standing

# OWASP "CSV Injection": a cell that begins with one of these may be run as a formula; the
# full-width signs are taken for the plain ones by some spreadsheets.
_DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def safe_cell(text: str) -> str:
    """The text, with an apostrophe in front where a spreadsheet would take it for a formula."""
    return f"'{text}" if text.lstrip(" ").startswith(_DANGEROUS) else text


def board_csv(
    told: Iterable[tuple[Person, Standing]],
    heading: Iterable[Sequence[str]],
    columns: Sequence[str],
    telling: Telling,
    status_word: Callable[[str], str],
) -> str:
    """The heading's lines, an empty line, the columns' names, then a line per standing.

    Days are 2026-03-02, so `telling` should write them so too.
    """
    file = StringIO()
    writer = csv.writer(file, lineterminator="\r\n")
    writer.writerows([[safe_cell(cell) for cell in line] for line in heading])
    writer.writerow([])
    writer.writerow(columns)
    for cells in _lines(told, telling, status_word):
        writer.writerow([safe_cell(cell) for cell in cells])
    return file.getvalue()


def _lines(
    told: Iterable[tuple[Person, Standing]], telling: Telling, status_word: Callable[[str], str]
) -> Iterator[list[str]]:
    for person, standing in told:
        yield [
            person.name,
            person.sign_in_name,
            telling.qualification(standing.qualification),
            _status(standing, status_word),
            *(day.isoformat() if day else "" for day in _days(standing)),
            " ".join(telling.sentence(r) for r in (*standing.reasons, *standing.warnings)),
        ]


def _status(standing: Standing, status_word: Callable[[str], str]) -> str:
    """Both words for what is due soon, so that a filter for "current" finds it."""
    words = dict.fromkeys((standing.status, page_status(standing)))
    return ", ".join(status_word(word) for word in words)


def _days(standing: Standing) -> tuple:
    return standing.granted_on, standing.last_good_day, standing.continuity_due_on
