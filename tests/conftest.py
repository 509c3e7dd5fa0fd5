"""The app under test, its clock, and a small cast of invented people."""

import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from app.accounts.people import add_person
from app.curriculum.loading.content import load_curriculum
from app.curriculum.model import Curriculum
from app.database import db, writing
from app.factory import create_app
from app.ids import PersonId
from app.migrations.upgrading import upgrade_database
from app.records.policy import policy_from
from app.records.projection.stored.rebuilding import rebuild
from app.settings import ROOT, Settings, settings_from
from tests.postgres_server import Postgres, running_postgres

# As the server does: one thread, or small systems of equations crawl on a busy machine.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

PASSWORD = "wet-phone-in-basement"


class Clock:
    """A clock that stands where it is set."""

    def __init__(self, moment: datetime) -> None:
        self.moment = moment

    def __call__(self) -> datetime:
        return self.moment

    def pass_time(self, **parts: float) -> None:
        self.moment += timedelta(**parts)


@pytest.fixture(scope="session")
def postgres() -> Iterator[Postgres]:
    """A PostgreSQL server, started when a test first asks for it."""
    with running_postgres() as server:
        yield server


@pytest.fixture(scope="session")
def curriculum() -> Curriculum:
    """The real content, loaded once."""
    return load_curriculum(ROOT / "content")


def settings_at(folder: Path, database_url: str | None = None) -> Settings:
    """Settings for an instance in this folder, in New York; its own SQLite file if not told."""
    return settings_from(
        {
            "LOWPORT_INSTANCE": str(folder),
            "LOWPORT_DATABASE_URL": database_url or f"sqlite:///{folder / 'lowport.db'}",
            "LOWPORT_SECRET_KEY": "a-secret-for-tests-only",
            "LOWPORT_ZONE": "America/New_York",
        }
    )


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum) -> Path:
    """A migrated database without people, ready as the command leaves it; copied for each test."""
    folder = tmp_path_factory.mktemp("instance")
    app = create_app(settings_at(folder), curriculum=curriculum)
    with app.app_context():
        upgrade_database()
        rebuild(db.engine, policy_from(curriculum))
        db.engine.dispose()
    return folder / "lowport.db"


@pytest.fixture(scope="session")
def empty_postgres(
    tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum, postgres: Postgres
) -> str:
    """The same on PostgreSQL, as a template for each test; the URL."""
    url = postgres.create()
    app = create_app(settings_at(tmp_path_factory.mktemp("instance"), url), curriculum=curriculum)
    with app.app_context():
        upgrade_database()
        rebuild(db.engine, policy_from(curriculum))
        db.engine.dispose()
    return url


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--database",
        choices=("sqlite", "postgresql"),
        default="sqlite",
        help="the database that the app under test runs on",
    )


@pytest.fixture
def database_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A migrated database without people, of one's own."""
    if request.config.getoption("database") == "sqlite":
        shutil.copy(request.getfixturevalue("empty_database"), tmp_path / "lowport.db")
        yield f"sqlite:///{tmp_path / 'lowport.db'}"
        return
    postgres: Postgres = request.getfixturevalue("postgres")
    url = postgres.create(request.getfixturevalue("empty_postgres"))
    yield url
    postgres.drop(url)


@pytest.fixture
def clock() -> Clock:
    """A moment in the morning of 2 March 2026, New York."""
    return Clock(datetime(2026, 3, 2, 14, 0, tzinfo=UTC))


@pytest.fixture
def settings(tmp_path: Path, database_url: str) -> Settings:
    return settings_at(tmp_path, database_url)


@pytest.fixture
def app(settings: Settings, clock: Clock, curriculum: Curriculum) -> Iterator[Flask]:
    """The app on an empty, migrated database; no context is open, so each request has its own."""
    app = create_app(settings, clock, curriculum)
    app.config["WTF_CSRF_ENABLED"] = False
    yield app
    with app.app_context():
        db.engine.dispose()


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()


class Cast:
    """Adds invented people and signs them in."""

    def __init__(self, app: Flask) -> None:
        self.app = app

    def add(self, sign_in_name: str, *roles: str, printed_name: str = "") -> PersonId:
        with self.app.app_context(), writing() as connection:
            return add_person(
                connection,
                sign_in_name=sign_in_name,
                printed_name=printed_name or f"{sign_in_name.title()} Invented",
                password=PASSWORD,
                roles=roles or ("worker",),
            )

    def sign_in(self, sign_in_name: str) -> FlaskClient:
        """A browser of their own, signed in."""
        client = self.app.test_client()
        data = {"sign_in_name": sign_in_name, "password": PASSWORD}
        answer = client.post("/sign-in", data=data)
        assert answer.status_code == 302, answer.get_data(as_text=True)
        return client


@pytest.fixture
def cast(app: Flask) -> Cast:
    return Cast(app)
