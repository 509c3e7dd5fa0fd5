"""The commands about records, on the app's own migrated database."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask
from records_cast import Run, base, on, quiz
from sqlalchemy import text, update

from app.accounts.printed_names import forget_signed_names, seal_name
from app.database import db, writing
from app.records.deciding.manifesting import signed
from app.records.events import Suspend
from app.records.ledger.canonical import canonical
from app.records.ledger.door import append
from app.records.ledger.encoding import data_of
from app.records.ledger.tables import record
from app.records.ledger.triggers import SQLITE_TRIGGER_NAMES
from app.records.proof.checkpoint import newest_line
from app.records.proof.keeping import CheckpointRefused
from app.settings import Settings


def take_triggers_off() -> None:
    with writing() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("ALTER TABLE record DISABLE TRIGGER USER"))
            return
        for name in SQLITE_TRIGGER_NAMES:  # fails unless the migration made it
            connection.execute(text(f"DROP TRIGGER {name}"))


@pytest.fixture
def tamper(app: Flask, kept: None) -> Callable[[dict], None]:
    def tamper(values: dict) -> None:
        with app.app_context():
            take_triggers_off()
            with writing() as connection:
                connection.execute(update(record).where(record.c.id == "p2").values(values))

    return tamper


def rewrite(app: Flask) -> None:
    """The same number of records, one of them another, with hashes that fit."""
    with app.app_context():
        take_triggers_off()
        with writing() as connection:
            connection.execute(record.delete())
            for event in [*base()[:3], quiz("forged", "2024-01-12"), *base()[4:]]:
                append(connection, event)


def test_no_records_yet(run: Run):
    assert run("verify").output == "There are no records yet.\n"
    assert "no records yet" in run("checkpoint").output


def test_whole_records_are_counted(run: Run, kept):
    result = run("verify")
    assert result.exit_code == 0
    assert result.output.startswith("7 records hold. Their checkpoint now:\nlowport/")
    assert "--deep" in result.output
    assert "--deep" not in run("verify", "--deep").output


def test_changed_bytes_are_named(run: Run, tamper):
    tamper({"body": b"{}"})
    result = run("verify")
    assert result.exit_code == 1
    assert "Record 6 (p2) is wrong: its bytes" in result.output


def test_a_changed_column_is_named_by_the_deep_check(run: Run, tamper):
    tamper({"person": "V"})
    assert run("verify").exit_code == 0
    result = run("verify", "--deep")
    assert result.exit_code == 1
    assert "Record 6 (p2) is wrong: its column person says 'V'" in result.output


def test_a_checkpoint_is_signed_printed_and_kept(run: Run, kept, settings: Settings, tmp_path):
    result = run("checkpoint", "--to", tmp_path / "mine.txt")
    assert result.exit_code == 0
    note = (tmp_path / "mine.txt").read_text()
    assert result.output == note
    assert (settings.instance / "checkpoints" / "000000000007.txt").read_text() == note
    assert "The first 7 are those" in run("verify", "--against", tmp_path / "mine.txt").output


def test_a_rewritten_history_is_found_by_what_was_kept(app: Flask, run: Run, kept):
    assert run("checkpoint").exit_code == 0
    rewrite(app)
    for result in (run("verify"), run("checkpoint")):
        assert result.exit_code == 1
        assert "The history was rewritten: between record 1 and record 7" in result.output


def test_it_is_found_by_the_line_on_a_printed_sheet(app: Flask, run: Run, kept):
    with app.app_context(), db.engine.connect() as connection:
        line = newest_line(connection)
    assert run("verify", "--against", line).exit_code == 0
    rewrite(app)
    result = run("verify", "--against", line)
    assert result.exit_code == 1
    assert "rewritten" in result.output


def test_it_is_found_by_a_copy_elsewhere_with_the_public_key(
    app: Flask, run: Run, kept, settings: Settings, tmp_path: Path
):
    run("checkpoint", "--to", tmp_path / "mine.txt")
    run("key", "--to", tmp_path / "public.pem")
    # The owner rewrites the records, and starts with another key and nothing kept.
    rewrite(app)
    (settings.instance / "signing-key.pem").unlink()
    (settings.instance / "checkpoints" / "000000000007.txt").unlink()
    assert run("verify").exit_code == 0
    assert run("checkpoint").exit_code == 0
    unknown = run("verify", "--against", tmp_path / "mine.txt")
    assert isinstance(unknown.exception, CheckpointRefused)
    assert "mine.txt: Nobody whose key is known" in unknown.exception.sentence
    known = ("--key", tmp_path / "public.pem")
    result = run("verify", "--against", tmp_path / "mine.txt", *known)
    assert "rewritten" in result.output


def test_a_record_is_proven_without_the_database(run: Run, kept, tmp_path: Path):
    assert run("prove", "p2", "--to", tmp_path / "p2.tlog-proof").exit_code == 0
    result = run("read-proof", tmp_path / "p2.tlog-proof")
    assert result.exit_code == 0
    told, _, place = result.output.rpartition("It is record ")
    assert json.loads(told) == json.loads(canonical(data_of(base()[5])))
    assert place == "6 of the 7 on the checkpoint.\n"
    assert run("prove", "nothing").exit_code == 1


def test_the_name_under_a_proven_signature_can_be_shown(app: Flask, run: Run, kept, tmp_path):
    with app.app_context(), writing() as connection:
        seal = seal_name(connection, "M1", "Mia Invented")
        suspended = Suspend(
            id="s1", person="W", qualification="lead", decider="M1", reason="x", **on("2024-03-05")
        )
        append(connection, signed(suspended, seal))
    file = tmp_path / "s1.tlog-proof"
    told = run("prove", "s1", "--to", file).output
    assert "Signed by Mia Invented." in told
    key = told.split()[-1]
    assert "Mia Invented" not in file.read_text()
    shown = run("read-proof", file, "--signed-by", "Mia Invented", key)
    assert shown.exit_code == 0
    assert shown.output.endswith("It was signed by Mia Invented.\n")
    for name, given in (("Mia Other", key), ("Mia Invented", key[::-1]), ("Mia Invented", "x")):
        assert run("read-proof", file, "--signed-by", name, given).exit_code == 1
    with app.app_context(), writing() as connection:
        forget_signed_names(connection, "M1")
    assert "Signed by" not in run("prove", "s1", "--to", file).output


def test_the_migrated_table_is_strict(app: Flask):
    with app.app_context(), db.engine.connect() as connection:
        if connection.dialect.name != "sqlite":
            pytest.skip("Only SQLite has STRICT tables.")
        sql = connection.scalar(text("SELECT sql FROM sqlite_master WHERE name = 'record'"))
    assert sql.rstrip().endswith("STRICT")
