"""Signed-in pages beside a Flask app that says hello, and the start of a fresh process.

pages: what is timed is the WSGI application answering one request of somebody signed in (session,
person, texts in force, page, headers, ETag), from the invented crew's database; a board of 25
people, a lesson's step, a job. Floor is a bare Flask app that says hello. They take turns; each
number is the median of the ratios within a round. Goals: a step 4.5 times hello, the heaviest of
them 8 times. A browser takes the page compressed: that ratio is told too, it has no goal.
start: seconds of processor from an empty process to the first answer, files compiled; floor is
importing flask and sqlalchemy. Goal: 0.6 s.

Times are of the processor, so that other work on the machine is not counted; it still slows
caches, so the ratios are what means most.
"""

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from called_app import SECRET, Call, by_turns, caller, cookie_of, demo_app, hello_app, ratio
from flask import Flask

from app.accounts.people import add_person
from app.database import db, reading, writing
from app.workbook.jobs import all_jobs

ROUNDS, AT_ONCE, STARTS = 21, 10, 7
ROWS = 25
STEP = "/learn/pump-purge/steps/8"
GOALS = {"lesson step": "goal 4.5", "board": "goal 8", "job": "goal 8"}

FLOOR = "import flask, sqlalchemy"
SUBJECT = """
from app.factory import create_app
assert create_app().test_client().get("/sign-in").status_code == 200
"""
TIMED = "\nimport time; print(time.process_time())"


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="lowport-bench-") as name:
        app = demo_app(Path(name))
        with app.app_context():
            fill_board()
            job = job_path()
        tell_pages(app, job)
        tell_start(name)
        with app.app_context():
            db.engine.dispose()


def fill_board() -> None:
    """Invented people, newly hired, until the board has its rows."""
    with writing() as connection:
        for number in range(15, ROWS):
            add_person(
                connection,
                sign_in_name=f"newly-{number}",
                printed_name=f"Newly Hired {number}",
                password="seal-before-port-4",
                roles=("worker",),
            )


def job_path() -> str:
    with reading() as connection:
        return f"/jobs/{all_jobs(connection)[0].id}"


def tell_pages(app: Flask, job: str) -> None:
    asked = {"lesson step": ("nia", STEP), "board": ("olga", "/board"), "job": ("tomas", job)}
    calls: dict[str, Call] = {"hello": caller(hello_app(), "/")}
    for page, (person, path) in asked.items():
        cookie = {"Cookie": cookie_of(app, person)}
        calls[page] = caller(app, path, cookie)
        calls[f"{page}, compressed"] = caller(app, path, {**cookie, "Accept-Encoding": "gzip"})
    sizes = {page: call() for page, call in calls.items()}
    times = by_turns(calls, ROUNDS, AT_ONCE)
    print(f"hello: {statistics.median(times['hello']) * 1000:.0f} µs of processor")
    for page in list(calls)[1:]:
        goal = GOALS.get(page, "no goal")
        took = statistics.median(times[page])
        size = sizes[page] / 1024
        found = ratio(times, page, "hello")
        print(f"{page}: {found:.1f} times hello ({goal}), {took:.2f} ms, {size:.1f} kB")


def tell_start(folder: str) -> None:
    floors, starts = [], []
    for _ in range(STARTS + 1):  # the first one compiles
        floors.append(seconds_of(FLOOR, folder))
        starts.append(seconds_of(SUBJECT, folder))
    floor, start = statistics.median(floors[1:]), statistics.median(starts[1:])
    found = statistics.median(s / f for s, f in zip(starts[1:], floors[1:], strict=True))
    print(f"start to first answer: {start:.2f} s of processor (goal 0.6 s), {found:.1f} times")
    print(f"  importing flask and sqlalchemy, {floor:.2f} s; best {min(starts):.2f} s")


def seconds_of(program: str, folder: str) -> float:
    """Seconds of processor that a fresh process took for a program."""
    settings = {"LOWPORT_INSTANCE": folder, "LOWPORT_SECRET_KEY": SECRET}
    environment = {**os.environ, **settings, "PYTHONPATH": os.pathsep.join(sys.path)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # files are to be compiled
    command = [sys.executable, "-c", program + TIMED]
    done = subprocess.run(command, env=environment, stdout=subprocess.PIPE, check=True)
    return float(done.stdout)


if __name__ == "__main__":
    main()
