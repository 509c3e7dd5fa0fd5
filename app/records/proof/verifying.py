"""Checking the records: all of them, in spans that several processes can share.

A span needs nothing of the ones before it but the last kept hash, which they check in turn.
"""

import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context

from sqlalchemy import Connection

from app.database import engine_at, reading_from
from app.records.ledger.chain import GENESIS
from app.records.ledger.kept_hashes import KeptHashes
from app.records.proof.deep_check import first_wrong_deep
from app.records.proof.hash_check import Wrong, first_wrong_hash

# Below this a second process costs more than it saves.
FEWEST_TO_SHARE = 200_000

Check = Callable[[Connection, int, int], Wrong | None]


@dataclass(frozen=True, slots=True)
class Verified:
    """How many records hold, the hash of the last of them, and the first wrong one or None."""

    count: int
    last_hash: str
    wrong: Wrong | None


def verify(connection: Connection, is_deep: bool = False, processes: int = 1) -> Verified:
    """Go through all records and name the first wrong one.

    is_deep also decodes each record and compares the columns and the tree's nodes with it.
    processes: more than one only from a program with a single thread. A chain alone can't show
    that records were cut off at the end, or that all were rebuilt: see comparing.py.
    """
    hashes = KeptHashes(connection)
    size = hashes.size()
    check = first_wrong_deep if is_deep else first_wrong_hash
    if processes == 1 or size < FEWEST_TO_SHARE:
        wrong = check(connection, 1, size)
    else:
        wrong = _shared_out(connection, check, size, processes)
    count = wrong.seq - 1 if wrong else size
    last = hashes.leaf(count) if count else GENESIS
    return Verified(count, last.hex(), wrong)


def _shared_out(connection: Connection, check: Check, size: int, processes: int) -> Wrong | None:
    url = connection.engine.url.render_as_string(hide_password=False)
    # A fork starts at once and shares what is loaded; elsewhere it is not safe.
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    spans = list(_spans(size, processes))
    with ProcessPoolExecutor(processes, mp_context=context) as pool:
        found = [pool.submit(_check_alone, url, check, *span) for span in spans]
        return next((wrong for job in found if (wrong := job.result())), None)


def _spans(size: int, parts: int) -> Iterator[tuple[int, int]]:
    """First and last of each part, in order."""
    for part in range(parts):
        yield size * part // parts + 1, size * (part + 1) // parts


def _check_alone(url: str, check: Check, first: int, last: int) -> Wrong | None:
    with reading_from(engine_at(url)) as connection:
        return check(connection, first, last)
