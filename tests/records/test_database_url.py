"""Where the database is: SQLite or PostgreSQL, and nothing that would fail later."""

import pytest

from app import settings
from app.settings import SettingsError, database_url


@pytest.mark.parametrize(
    ("given", "becomes"),
    [
        ("sqlite:////srv/lowport.db", "sqlite:////srv/lowport.db"),
        ("postgresql://crew@db/lowport", "postgresql+psycopg://crew@db/lowport"),
        ("postgresql+psycopg://crew@db/lowport", "postgresql+psycopg://crew@db/lowport"),
    ],
)
def test_the_driver_is_put_in(given: str, becomes: str):
    assert database_url(given) == becomes


@pytest.mark.parametrize(
    "given", ["", "lowport.db", "mysql://crew:secret@db/x", "postgresql+x://y"]
)
def test_another_database_stops_the_start(given: str):
    with pytest.raises(SettingsError, match=r"sqlite:/// or postgresql://") as refused:
        database_url(given)
    assert "secret" not in refused.value.sentence


def test_a_missing_driver_is_told_in_a_sentence(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(settings, "find_spec", lambda _name: None)
    with pytest.raises(SettingsError, match="driver for PostgreSQL is not installed"):
        database_url("postgresql://crew@db/lowport")
    assert database_url("sqlite:///x.db") == "sqlite:///x.db"
