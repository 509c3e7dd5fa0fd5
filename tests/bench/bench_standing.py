"""Everybody's standing at scale, each beside its floor in the same run. The firm is invented.

board: 5,000 people in 10 qualifications as of a day, as known on a day; floor is fetching 50,000
rows of the same seven numbers from a plain indexed table. Goals: at most 1.5 times that, and at
most 1.5 times the board's own time in a firm of a hundred thousand records. Timed is all of
board_standings(). A page then makes cells of what it shows; the time for all of them is told too.
rebuild: seconds for all records, as the command does it (goal: under 60 for a million); on a busy
machine the seconds of processor over the number of cores tell more. Memory is the most held.
append: records one by one, each with its standing, of kinds mixed as in the firm's past; floor is
fdatasync of one page in the same folder. Goal: at least 0.25 of it per second. Told beside it: rows
of a record's length into a table without an index by bare sqlite3, which no program can pass.

At real size it takes some ten minutes on two idle cores, 7 GB of disk and 2 GB of memory:
python tests/bench/bench_standing.py 3000000
"""

import os
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from io import FileIO
from pathlib import Path

from invented_firm import OPENED_ON, PEOPLE, PER_STEP, POLICY, Firm, found, person_id
from invented_work import Work
from sqlalchemy import Connection, Engine, create_engine, text

from app.database import prepare_engine, reading_from, writing_to
from app.driver import fetched, sent_many
from app.records.boards.board import Board, board_standings
from app.records.ledger.door import append

BOARD_ROUNDS, APPEND_ROUNDS, APPENDS = 21, 15, 40
FEW, FEWEST = 100_000, 200_000
PLAIN = "SELECT a, b, c, d, e, f, g FROM plain WHERE board = 5"
Point = tuple[date, date | None]  # as of, known on


def main(size: int) -> None:
    with tempfile.TemporaryDirectory(prefix="lowport-bench-") as folder:
        few, many = engine_for(f"{folder}/few.db"), engine_for(f"{folder}/many.db")
        small, large = built(few, FEW), built(many, size)
        plain = plain_table(engine_for(f"{folder}/plain.db"))
        bench_boards(plain, (few, small), (many, large))
        print(bench_append(Path(folder), many, Work(large)))


def engine_for(path: str) -> Engine:
    engine = create_engine(f"sqlite:///{path}")
    prepare_engine(engine)
    return engine


def built(engine: Engine, size: int) -> Firm:
    """A firm with about so many records, and its projection."""
    firm = found(engine, max(2, round(size / PER_STEP)))
    bench = [sys.executable, "-c", REBUILD, str(engine.url)]
    path = {"PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run(bench, env={**os.environ, **path}, stdout=subprocess.PIPE, check=True)
    print(done.stdout.decode(), end="")
    return firm


# In a process of its own, so that its memory can be told.
REBUILD = """
import os, resource, sys, time
from app.database import engine_at
from app.records.projection.stored.rebuilding import rebuild
from invented_firm import POLICY
start, cores = time.perf_counter(), os.cpu_count() or 1
done = rebuild(engine_at(sys.argv[1]), POLICY, processes=cores)
took, spent = time.perf_counter() - start, sum(os.times()[:4])
most = [resource.getrusage(who).ru_maxrss / 1024
        for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
print(f"rebuild {done.records:,} records: {took:.0f} s (goal 60 s a million), {spent:.0f} s of"
      f" processor, {done.rows:,} rows; {most[0]:.0f} MiB,"
      f" {most[1]:.0f} in each of {cores} workers")
"""


def plain_table(engine: Engine) -> Connection:
    """Ten boards of 50,000 rows one after the other, with an index on which one it is."""
    with writing_to(engine) as connection:
        connection.execute(text("CREATE TABLE plain (board, a, b, c, d, e, f, g)"))
        add = f"INSERT INTO plain VALUES ({', '.join('?' * 8)})"
        for number in range(10):
            rows = [(number, n // 10, n % 10, 1, 738000 + n, 737000 + n, None, n % 9)
                    for n in range(50_000)]  # fmt: skip
            sent_many(connection, add, rows)
        connection.execute(text("CREATE INDEX plain_of_board ON plain (board)"))
    return engine.connect()


def bench_boards(plain: Connection, few: tuple[Engine, Firm], many: tuple[Engine, Firm]) -> None:
    """The board of today, and that of a day long ago as known some time after."""
    days = many[1].days
    points: dict[str, Point] = {
        "of today": (day(days), None),
        "of the past": (day(days * 2 // 3), day(days * 5 // 6)),
    }
    with reading_from(few[0]) as less, reading_from(many[0]) as more:
        for name, point in points.items():
            rounds = [board_round(plain, less, day(few[1].days), more, point)
                      for _ in range(BOARD_ROUNDS)]  # fmt: skip
            print(f"board {name}, {many[1].records:,} records: {told(rounds)}")
            print(f"  {cells(more, point)}")


def day(number: int) -> date:
    return OPENED_ON + timedelta(days=number)


def board_round(
    plain: Connection, less: Connection, today: date, more: Connection, point: Point
) -> tuple[float, float, float]:
    return (
        seconds(lambda: fetched(plain, PLAIN)),
        seconds(lambda: board(less, (today, None))),
        seconds(lambda: board(more, point)),
    )


def told(rounds: list[tuple[float, float, float]]) -> str:
    to_floor = statistics.median(subject / floor for floor, _, subject in rounds)
    to_few = statistics.median(subject / small for _, small, subject in rounds)
    best = [min(times) * 1000 for times in zip(*rounds, strict=True)]
    return (
        f"{to_floor:.2f} times fetching 50,000 plain rows (goal 1.5), {to_few:.2f} times its own"
        f" time at {FEW:,} (goal 1.5); at best {best[0]:.0f}, {best[1]:.0f} and {best[2]:.0f} ms"
    )


def board(connection: Connection, point: Point) -> Board:
    found = board_standings(connection, POLICY, *point)
    assert found.why_not == ""
    return found


def cells(connection: Connection, point: Point) -> str:
    """All cells made of the rows, and how many are more than "not qualified"."""
    found = board(connection, point)
    held = 0

    def look_at_all() -> None:
        nonlocal held
        rows = [found.row(person_id(number)) for number in range(PEOPLE)]
        held = sum(cell.status != "not-qualified" for row in rows for cell in row)

    took = seconds(look_at_all)
    assert held > 45_000, "a board with less in it is no measure"
    return f"{held:,} of 50,000 cells hold something; making all of them took {took * 1000:.0f} ms"


def bench_append(folder: Path, engine: Engine, work: Work) -> str:
    events = iter([work.next_event() for _ in range(APPEND_ROUNDS * APPENDS)])

    def append_one() -> None:
        with writing_to(engine) as connection:
            append(connection, next(events))

    bare = bare_table(folder / "bare.db")
    with (folder / "floor").open("wb", buffering=0) as file:
        subjects = (lambda: sync_one(file), lambda: insert_one(bare), append_one)
        rounds = [[seconds(subject, APPENDS) for subject in subjects] for _ in range(APPEND_ROUNDS)]
    with reading_from(engine) as connection:
        board(connection, (work.today, None))  # up to date, or it fails
    to_sync = statistics.median(floor / subject for floor, _, subject in rounds)
    to_bare = statistics.median(bare / subject for _, bare, subject in rounds)
    per_second = [APPENDS * len(rounds) / sum(times) for times in zip(*rounds, strict=True)]
    return (
        f"append with standing: {to_sync:.2f} of fdatasync (goal 0.25), {to_bare:.2f} of a bare"
        " insert; {2:.0f} a second where fdatasync makes {0:.0f} and bare sqlite3 {1:.0f}"
    ).format(*per_second)


PAGE, BODY = os.urandom(4096), os.urandom(700)


def sync_one(file: FileIO) -> None:
    file.write(PAGE)
    os.fdatasync(file.fileno())


def bare_table(path: Path) -> sqlite3.Connection:
    bare = sqlite3.connect(path, isolation_level=None)
    for statement in ("PRAGMA journal_mode=WAL", "PRAGMA synchronous=FULL",
                      "CREATE TABLE bare (seq INTEGER PRIMARY KEY, body)"):  # fmt: skip
        bare.execute(statement)
    return bare


def insert_one(bare: sqlite3.Connection) -> None:
    bare.execute("BEGIN IMMEDIATE")
    bare.execute("INSERT INTO bare (body) VALUES (?)", (BODY,))
    bare.execute("COMMIT")


def seconds(work: Callable[[], object], times: int = 1) -> float:
    start = time.perf_counter()
    for _ in range(times):
        work()
    return time.perf_counter() - start


if __name__ == "__main__":
    main(max(FEWEST, int(sys.argv[1]) if len(sys.argv) > 1 else FEWEST))
