"""What the benches of pages share: the demo's app, somebody signed in, and a page asked for.

Pages are asked for through the WSGI application itself: the test client adds its own time to floor
and subject, and that flatters the ratio.
"""

import statistics
import time
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from flask import Flask
from werkzeug.test import EnvironBuilder

from app.database import db, writing
from app.demo.crew import DEMO_PASSWORD
from app.demo.loading import load_demo
from app.factory import create_app
from app.migrations.upgrading import upgrade_database
from app.records.policy import policy_from
from app.records.projection.stored.rebuilding import rebuild
from app.settings import settings_from
from app.web.now import system_clock
from app.web.texts import served_curriculum

Call = Callable[[], int]
SECRET = "a-secret-for-the-bench-only"


def hello_app() -> Flask:
    """The floor: Flask answering one line."""
    app = Flask("floor")
    app.add_url_rule("/", view_func=lambda: "hello")
    return app


def demo_app(folder: Path) -> Flask:
    """A fresh installation with the invented crew in it, its board worked out."""
    settings = settings_from({"LOWPORT_INSTANCE": str(folder), "LOWPORT_SECRET_KEY": SECRET})
    app = create_app(settings)
    with app.app_context():
        upgrade_database()
        with writing() as connection:
            load_demo(connection, app.extensions["lowport_curriculum"], system_clock(), "UTC")
        rebuild(db.engine, policy_from(served_curriculum()))
    return app


def cookie_of(app: Flask, name: str) -> str:
    """The session cookie of a person signed in who has opened a page, so a form token is in it."""
    client = app.test_client()
    app.config["WTF_CSRF_ENABLED"] = False
    answer = client.post("/sign-in", data={"sign_in_name": name, "password": DEMO_PASSWORD})
    app.config["WTF_CSRF_ENABLED"] = True
    assert answer.status_code == 302
    client.get("/sources")
    kept = client.get_cookie("lowport")
    assert kept is not None
    return f"lowport={kept.value}"


def caller(app: Flask, path: str, headers: Mapping[str, str] | None = None) -> Call:
    """A function that asks for the page once and gives the length of the answer."""
    base = EnvironBuilder(path=path, headers=dict(headers or {})).get_environ()

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


def by_turns(calls: Mapping[str, Call], rounds: int, at_once: int) -> dict[str, list[float]]:
    """Milliseconds of processor for one call of each, round by round, turn about."""
    times: dict[str, list[float]] = {name: [] for name in calls}
    for _ in range(rounds):
        for name, call in calls.items():
            start = time.process_time()
            for _ in range(at_once):
                call()
            times[name].append((time.process_time() - start) * 1000 / at_once)
    return times


def ratio(times: Mapping[str, list[float]], subject: str, floor: str) -> float:
    """How many times the floor: the median of the ratios within each round."""
    return statistics.median(s / f for s, f in zip(times[subject], times[floor], strict=True))
