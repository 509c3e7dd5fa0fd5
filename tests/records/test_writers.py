"""Sixteen writers at once, in four processes: nothing is lost, nobody fails, nobody starves."""

import os
import sys
from collections import defaultdict
from itertools import pairwise
from pathlib import Path
from subprocess import PIPE, Popen

from sqlalchemy import Engine, select
from writer_process import THREADS

from app.database import reading_from
from app.records.ledger.tables import record
from app.records.proof.verifying import verify
from app.settings import ROOT

PROCESSES = 4
EACH = 20


def run_writers(url: str) -> list[str]:
    """Start all, let them go together, and return what went wrong in any of them."""
    script = Path(__file__).with_name("writer_process.py")
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    running = [
        Popen(
            [sys.executable, str(script), url, f"w{number}", str(EACH)],
            stdin=PIPE,
            stdout=PIPE,
            text=True,
            env=environment,
        )
        for number in range(PROCESSES)
    ]
    for process in running:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
    for process in running:
        assert process.stdin is not None
        process.stdin.write("go\n")
        process.stdin.flush()
    found = [process.communicate()[0] for process in running]
    assert [process.returncode for process in running] == [0] * PROCESSES
    return [line for text in found for line in text.splitlines()]


def longest_waits(engine: Engine) -> dict[str, int]:
    """For each writer the most records of others between two of its own."""
    places = defaultdict(list)
    with reading_from(engine) as connection:
        rows = connection.execute(select(record.c.seq, record.c.person).order_by(record.c.seq))
        for seq, writer in rows:
            places[writer].append(seq)
    return {
        writer: max(after - before for before, after in pairwise(seqs))
        for writer, seqs in places.items()
    }


def test_sixteen_writers(engine: Engine):
    url = engine.url.render_as_string(hide_password=False)
    assert run_writers(url) == []
    everybody = PROCESSES * THREADS * EACH
    with reading_from(engine) as connection:
        found = verify(connection, is_deep=True)
    assert (found.count, found.wrong) == (everybody, None)
    waits = longest_waits(engine)
    assert len(waits) == PROCESSES * THREADS
    # In turn it would be 16. A writer without a queue in front of it can wait for nearly all.
    assert max(waits.values()) < everybody // 2, waits
