"""Server time of one job card, beside a Flask app that says hello, in the same run.

Both are called as WSGI applications, turn about, so that a busy machine slows both alike. Only the
ratio means something. Wished for: a card under 30 ms.
"""

import statistics
import tempfile
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from flask import Flask
from werkzeug.test import EnvironBuilder

from app.database import db, writing
from app.demo.crew import DEMO_PASSWORD
from app.demo.loading import load_demo
from app.factory import create_app
from app.migrations.upgrading import upgrade_database
from app.settings import settings_from
from app.web.now import system_clock
from app.workbook.card_plans import keep_card_plan
from app.workbook.jobs import Job, all_jobs

ROUNDS = 31
WISHED_MS = 30

TYPED = {
    "resin_temperature_c": "68 F",
    "waste": "15",
    "mixing": "hand",
    "placing_ml_per_min": "1 fl oz/min",
    "tested_ml": "200 mL",
    "start": "08:30",
    "pressure_mpa": "30 psi",
    "port_opening_mm": "1/4 in",
    "hose_diameter_mm": "3/8 in",
    "hose_length_mm": "10 ft",
    "mixer_diameter_mm": "3/8 in",
    "mixer_length_mm": "8 in",
    "tube_diameter_mm": "1/4 in",
    "tube_length_mm": "3 ft",
    "mixers": "2",
    "ratio_tests": "2",
    "per_test_ml": "5 fl oz",
    "physical_samples": "1",
    "per_sample_ml": "2 fl oz",
    "seal_width_mm": "1 1/4 in",
    "seal_thickness_mm": "1/8 in",
    "seal_sides": "1",
    "seal_waste": "20",
    "collar_outer_mm": "2 in",
    "collar_foot_mm": "1 in",
    "collar_height_mm": "1/4 in",
    "grinding": "indoors",
    "grinding_min": "2 h",
    "controls": "yes",
    "wheel_mm": "5 in",
    "solvent": "xylene",
    "space_ml": "1800 ft3",
}


def hello_app() -> Flask:
    """The floor: Flask answering one line."""
    app = Flask("floor")
    app.add_url_rule("/", view_func=lambda: "hello")
    return app


def demo_app(folder: Path) -> tuple[Flask, Job]:
    """The invented crew's jobs; the one with the most ports has its card's options typed."""
    settings = settings_from(
        {"LOWPORT_INSTANCE": str(folder), "LOWPORT_SECRET_KEY": "a-secret-for-the-bench-only"}
    )
    app = create_app(settings)
    with app.app_context():
        upgrade_database()
        with writing() as connection:
            curriculum = app.extensions["lowport_curriculum"]
            load_demo(connection, curriculum, system_clock(), "UTC")
            job = max(all_jobs(connection), key=lambda job: job.length_mm / job.spacing_mm)
            keep_card_plan(connection, job.id, TYPED, job.created_by, system_clock())
    return app, job


def cookie_of(app: Flask, name: str) -> str:
    """The session cookie of a person signed in."""
    client = app.test_client()
    answer = client.post("/sign-in", data={"sign_in_name": name, "password": DEMO_PASSWORD})
    assert answer.status_code == 302
    kept = client.get_cookie("lowport")
    assert kept is not None
    return f"lowport={kept.value}"


def caller(app: Flask, path: str, cookie: str = "") -> Callable[[], int]:
    """A function that asks for the page once and gives the length of the answer."""
    base = EnvironBuilder(path=path, headers={"Cookie": cookie}).get_environ()

    def call() -> int:
        said: list[str] = []

        def start(status: str, headers: Iterable[Any], _exc: Any = None) -> Callable[[bytes], None]:
            said.append(status)
            return lambda _data: None

        body = app.wsgi_app(dict(base), start)
        length = sum(map(len, body))
        assert said[0].startswith("200"), said[0]
        return length

    return call


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        app, job = demo_app(Path(folder))
        app.config["WTF_CSRF_ENABLED"] = False
        card = caller(app, f"/jobs/{job.id}/card", cookie_of(app, "tomas"))
        floor = caller(hello_app(), "/")
        size = card(), floor()
        times: dict[str, list[float]] = {"card": [], "floor": []}
        for _ in range(ROUNDS):
            for name, call in (("card", card), ("floor", floor)):
                start = time.perf_counter()
                call()
                times[name].append((time.perf_counter() - start) * 1000)
        with app.app_context():
            db.engine.dispose()
    middle = {name: statistics.median(found) for name, found in times.items()}
    ratio = middle["card"] / middle["floor"]
    print(f"job card, {job.title}: {size[0] / 1024:.0f} kB")
    print(f"  {middle['card']:.1f} ms, floor {middle['floor']:.3f} ms: {ratio:.0f} times the floor")
    print(f"  wished for: under {WISHED_MS} ms")


if __name__ == "__main__":
    main()
