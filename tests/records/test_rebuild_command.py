"""`lowport records rebuild`, and what the commands say where there is nothing to work on."""

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask import Flask
from records_cast import Run
from sqlalchemy import Connection, delete, func, select

from app.cli.database import database as database_command
from app.curriculum.model import Curriculum
from app.database import db, reading, writing
from app.records.boards.board import WhyNot, board_standings
from app.records.policy import policy_from
from app.records.projection.stored.interval_tables import standing_interval, standing_projection
from app.settings import Settings


def why_not(connection: Connection, curriculum: Curriculum) -> WhyNot:
    return board_standings(connection, policy_from(curriculum), date(2026, 3, 2)).why_not


def forget(app: Flask) -> None:
    """As if nothing had ever been worked out."""
    with app.app_context(), writing() as connection:
        connection.execute(delete(standing_projection))
        connection.execute(delete(standing_interval))


def test_it_works_everything_out_and_says_how_much(
    app: Flask, run: Run, kept, curriculum: Curriculum
):
    forget(app)
    with app.app_context(), reading() as connection:
        assert why_not(connection, curriculum) == "not-built"
    result = run("rebuild")
    assert result.exit_code == 0, result.exception
    with app.app_context(), reading() as connection:
        rows = connection.scalar(select(func.count()).select_from(standing_interval))
        assert why_not(connection, curriculum) == ""
    assert result.stdout == f"The board is ready: 7 records, {rows} rows.\n"
    assert "Working out standings" in result.stderr


def test_it_leaves_nothing_in_the_log_beside_the_database(app: Flask, run: Run, kept):
    # Rows read from SQLite's write-ahead log take longer: https://www.sqlite.org/wal.html, 3.2.
    with app.app_context():
        if db.engine.dialect.name != "sqlite":
            pytest.skip("PostgreSQL keeps its log elsewhere")
        log = Path(f"{db.engine.url.database}-wal")
        assert log.stat().st_size > 0
        run("rebuild")
        assert log.stat().st_size == 0


def test_without_records_the_board_is_ready_too(run: Run):
    result = run("rebuild")
    assert result.output == "There are no records yet; the board is ready for the first.\n"


@pytest.mark.parametrize("words", [("verify",), ("rebuild",), ("checkpoint",), ("prove", "a")])
def test_a_database_without_tables_gets_a_sentence(
    run: Run, words: tuple[str, ...], tmp_path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("LOWPORT_DATABASE_URL", f"sqlite:///{tmp_path / 'new.db'}")
    result = run(*words)
    assert result.exit_code == 1
    assert result.output == (
        "Error: This database has no tables for records yet. First run: lowport database upgrade\n"
    )


def test_an_upgrade_leaves_the_board_ready(
    app: Flask, run: Run, kept, curriculum: Curriculum, settings: Settings
):
    forget(app)
    result = CliRunner().invoke(database_command, ["upgrade"])
    assert result.exit_code == 0, result.exception
    assert "The database is up to date.\n" in result.output
    assert "The board is ready: 7 records" in result.output
    with app.app_context(), reading() as connection:
        assert why_not(connection, curriculum) == ""
    again = CliRunner().invoke(database_command, ["upgrade"])
    assert "board" not in again.output
