"""Appending and verifying records, each beside its floor in the same run. All events invented.

writing: canonical bytes of a record's plain data, checked; floor is SHA-256 of those bytes. The
standards note's goal of 4 is for the writer alone.
append: floor is fdatasync of one page, in the same folder. Goal: at least 0.25 of it per second.
verify: floor is iterating the same stored bytes on the same connection. Goal: at most 2 times.
memory: the most that `lowport records verify` held, at a tenth and at all of the records. Goal:
flat, under 100 MiB. Floor and subject take turns; only ratios mean anything on a busy machine.

Fewer records for a first look: python tests/bench/bench_records.py 100000
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from hashlib import sha256
from typing import Any

import orjson
from sqlalchemy import Connection, create_engine, insert, text

from app.database import engine_at, prepare_engine, reading_from, writing_to
from app.records.events import Event, Practical, Quiz
from app.records.ledger.canonical import canonical
from app.records.ledger.chain import GENESIS, link
from app.records.ledger.columns import columns_of
from app.records.ledger.door import append
from app.records.ledger.encoding import data_of
from app.records.ledger.streaming import stored_rows
from app.records.ledger.tables import record
from app.records.ledger.tree import node_hash
from app.records.ledger.triggers import TRIGGERS
from app.records.observation import Observation, Signature, StepOutcome
from app.records.projection.stored.interval_tables import TABLES
from app.records.proof.verifying import verify

APPEND_ROUNDS, APPENDS = 15, 40
WRITING_ROUNDS, WRITINGS = 31, 200
VERIFY_ROUNDS = 7
MARK = "00000000-0000-7000-8000-000000000000"


def main(size: int) -> None:
    with tempfile.TemporaryDirectory(prefix="lowport-bench-") as folder:
        print(bench_writing())
        print(bench_append(folder))
        few, many = f"sqlite:///{folder}/few.db", f"sqlite:///{folder}/many.db"
        fill(few, size // 10)
        fill(many, size)
        print(bench_verify(many, size))
        for url, count in ((few, size // 10), (many, size)):
            print(f"memory: {peak_mib(folder, url):.0f} MiB at {count:,} records (goal 100)")


def create_tables(url: str) -> None:
    """The table of records, its triggers, and whatever else the ledger writes to."""
    engine = engine_at(url)
    with writing_to(engine) as connection:
        for table in (record, *TABLES):
            table.create(connection)
        for trigger in TRIGGERS[engine.dialect.name]:
            connection.execute(text(trigger))


def bench_writing() -> str:
    data = data_of(supervised_repair(MARK))
    body = canonical(data)
    checked, alone = [], []
    for _ in range(WRITING_ROUNDS):
        floor = seconds(lambda: sha256(body).digest(), WRITINGS)
        checked.append(seconds(lambda: canonical(data), WRITINGS) / floor)
        alone.append(
            seconds(lambda: orjson.dumps(data, option=orjson.OPT_SORT_KEYS), WRITINGS) / floor
        )
    return (
        f"writing {len(body):,} bytes: {statistics.median(alone):.1f} times their SHA-256 (goal 4),"
        f" {statistics.median(checked):.0f} times with every value checked"
    )


def bench_append(folder: str) -> str:
    url = f"sqlite:///{folder}/appended.db"
    create_tables(url)
    engine = create_engine(url)
    prepare_engine(engine)
    done = iter(range(10**9))

    def append_one() -> None:
        with writing_to(engine) as connection:
            append(connection, quiz(f"{next(done):036d}"))

    page = os.urandom(4096)
    with open(f"{folder}/floor", "wb") as file:

        def sync_one() -> None:
            file.write(page)
            file.flush()
            os.fdatasync(file.fileno())

        ratios, rate = [], 0.0
        for _ in range(APPEND_ROUNDS):
            floor, subject = seconds(sync_one, APPENDS), seconds(append_one, APPENDS)
            ratios.append(floor / subject)
            rate = APPENDS / subject
    return f"append: {statistics.median(ratios):.2f} of fdatasync (goal 0.25), {rate:.0f} a second"


def bench_verify(url: str, size: int) -> str:
    cores = os.cpu_count() or 1
    alone, shared = [], []
    with reading_from(engine_at(url)) as connection:
        for _ in range(VERIFY_ROUNDS):
            floor = seconds(lambda: iterate(connection, size))
            alone.append(seconds(lambda: check(connection, size, 1)) / floor)
            shared.append(seconds(lambda: check(connection, size, cores)) / floor)
    return (
        f"verify {size:,} records: {statistics.median(shared):.2f} times iterating on {cores} "
        f"cores (goal 2), {statistics.median(alone):.2f} times in one process"
    )


def iterate(connection: Connection, size: int) -> None:
    assert sum(1 for _ in stored_rows(connection, 1, size)) == size


def check(connection: Connection, size: int, processes: int) -> None:
    found = verify(connection, processes=processes)
    assert (found.count, found.wrong) == (size, None)


def seconds(work: Callable[[], object], times: int = 1) -> float:
    start = time.perf_counter()
    for _ in range(times):
        work()
    return time.perf_counter() - start


RUN_AND_TELL_PEAK = """
import sys
from app.cli import lowport
lowport.main(["records", "verify"], standalone_mode=False)
status = dict(line.split(":", 1) for line in open("/proc/self/status"))
print(int(status["VmHWM"].split()[0]) / 1024, file=sys.stderr)
"""


def peak_mib(folder: str, url: str) -> float:
    """The most memory that the command held; Linux tells it of the process as it ends."""
    settings = {"LOWPORT_INSTANCE": folder, "LOWPORT_DATABASE_URL": url}
    done = subprocess.run(
        [sys.executable, "-c", RUN_AND_TELL_PEAK],
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        check=True,
    )
    return float(done.stderr)


def stamped(name: str) -> dict[str, Any]:
    moment = datetime(2024, 1, 12, 18, tzinfo=UTC)
    return {"id": name, "occurred_on": date(2024, 1, 12), "zone": "UTC", "recorded_at": moment}


def quiz(name: str) -> Event:
    return Quiz(person="W", module="ratio-sample", passed=True, right=9, asked=10, **stamped(name))


def supervised_repair(name: str) -> Event:
    """About as long as most: twelve steps and a signature."""
    steps = tuple(
        StepOutcome(module="ratio-sample", step=f"step-{n}", outcome="done") for n in range(12)
    )
    signature = Signature(
        printed_name="Ana Invented",
        meaning="I watched this repair from start to end.",
        signed_at=datetime(2024, 1, 12, 18, tzinfo=UTC),
    )
    seen = Observation(items=steps, judgement="works-safely-alone", signature=signature)
    return Practical(
        person="W",
        qualification="pump-operator",
        trainer="A1",
        job="J1",
        observation=seen,
        **stamped(name),
    )


def fill(url: str, size: int) -> None:
    """Many records that hold, made of a few templates with another id each."""
    create_tables(url)
    with writing_to(engine_at(url)) as connection:
        for part in parts_of(rows_of(size), 10_000):
            connection.execute(insert(record), part)


def rows_of(size: int) -> Iterator[dict[str, Any]]:
    events = [quiz(MARK), quiz(MARK), quiz(MARK), supervised_repair(MARK)]
    templates = [(columns_of(event), canonical(data_of(event))) for event in events]
    previous, subtrees = GENESIS, list[bytes]()
    for seq in range(1, size + 1):
        columns, body = templates[seq % len(templates)]
        name = f"{seq:036d}"
        body = body.replace(MARK.encode(), name.encode())
        previous = node = link(previous, body)
        level = seq
        while not level & 1:
            node, level = node_hash(subtrees.pop(), node), level >> 1
        subtrees.append(node)
        kept = {"seq": seq, "id": name, "is_shared": 0, "body": body}
        yield {**EMPTY, **columns, **kept, "hash": previous, "node": node}


EMPTY: dict[str, Any] = {
    column.name: "" if column.server_default is not None else None for column in record.columns
}


def parts_of(rows: Iterator[dict[str, Any]], at_once: int) -> Iterator[list[dict[str, Any]]]:
    part: list[dict[str, Any]] = []
    for row in rows:
        part.append(row)
        if len(part) == at_once:
            yield part
            part = []
    if part:
        yield part


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
