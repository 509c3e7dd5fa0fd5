"""Checkpoints of the records, and a history that was rewritten with all its hashes."""

from base64 import b64encode
from collections.abc import Iterable

import pytest
from records_cast import base, quiz
from sqlalchemy import Connection, Engine, text

from app.database import reading_from, writing_to
from app.records.events import Event
from app.records.ledger.door import append
from app.records.ledger.tables import record
from app.records.ledger.triggers import SQLITE_TRIGGER_NAMES
from app.records.proof.checkpoint import (
    Checkpoint,
    NotACheckpoint,
    checkpoint_at,
    newest,
    newest_line,
    read_checkpoint,
)
from app.records.proof.comparing import Compared, compare
from app.records.proof.verifying import verify

ROOT = "CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I="


def keep(engine: Engine, events: Iterable[Event]) -> None:
    with writing_to(engine) as connection:
        for event in events:
            append(connection, event)


def checkpoints(engine: Engine, *sizes: int) -> list[Checkpoint]:
    with reading_from(engine) as connection:
        return [checkpoint_at(connection, size) for size in sizes]


def compared(engine: Engine, kept: list[Checkpoint]) -> Compared:
    with reading_from(engine) as connection:
        return compare(connection, verify(connection), kept)


def rewrite(engine: Engine, events: Iterable[Event]) -> None:
    """The owner starts the records again, so that every hash fits the one before."""
    with writing_to(engine) as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("ALTER TABLE record DISABLE TRIGGER USER"))
        else:
            connection.execute(text(f"DROP TRIGGER {SQLITE_TRIGGER_NAMES[1]}"))
        connection.execute(record.delete())
    keep(engine, events)


def other_quiz_at(seq: int) -> list[Event]:
    """The base history with another record at one place."""
    events = base()
    return [*events[: seq - 1], quiz("forged", "2024-01-12"), *events[seq:]]


def test_without_records_there_is_no_checkpoint(connection: Connection):
    assert newest(connection) is None
    assert newest_line(connection) == ""


def test_a_checkpoint_has_three_lines(engine: Engine):
    keep(engine, base())
    (found,) = checkpoints(engine, 7)
    # C2SP tlog-checkpoint: origin, size, base64 of the root, each on a line of its own.
    origin, size, root, rest = found.text.split("\n")
    assert (size, rest) == ("7", "")
    assert root == b64encode(found.root).decode()
    assert origin.startswith("lowport/")
    assert not set(" +") & set(origin)


def test_it_comes_back_from_its_lines_and_from_the_line_on_paper(engine: Engine):
    keep(engine, base())
    with reading_from(engine) as connection:
        found = newest(connection)
        line = newest_line(connection)
    assert found is not None
    assert "\n" not in line
    assert read_checkpoint(line) == read_checkpoint(found.text) == found


def test_the_specification_s_own_example_is_read():
    text = f"example.com/behind-the-sofa\n20852163\n{ROOT}\n"
    assert read_checkpoint(text).text == text


@pytest.mark.parametrize(
    "text",
    ["", "a\n7\n", f"a\n07\n{ROOT}", f"a\n-7\n{ROOT}", f"a\nx\n{ROOT}", "a\n7\nAAAA", "a\n7\n%%"],
)
def test_what_is_not_a_checkpoint_is_refused(text: str):
    with pytest.raises(NotACheckpoint):
        read_checkpoint(text)


def test_a_history_that_went_on_holds(engine: Engine):
    keep(engine, base()[:4])
    early = checkpoints(engine, 1, 2, 3, 4)
    keep(engine, base()[4:])
    assert compared(engine, [*early, *checkpoints(engine, 7)]) == Compared(7, None)
    assert compared(engine, []) == Compared(0, None)


@pytest.mark.parametrize("seq", [1, 4, 7])
def test_a_rewritten_history_is_told_though_every_hash_fits(engine: Engine, seq: int):
    keep(engine, base())
    kept = checkpoints(engine, 7)
    rewrite(engine, other_quiz_at(seq))
    with reading_from(engine) as connection:
        assert verify(connection, is_deep=True).wrong is None
    found = compared(engine, kept)
    assert "The history was rewritten: between record 1 and record 7" in (found.sentence or "")


def test_older_checkpoints_say_between_which_records(engine: Engine):
    keep(engine, base())
    kept = checkpoints(engine, 2, 3, 5, 7)
    rewrite(engine, other_quiz_at(4))
    found = compared(engine, kept)
    assert found.holds_to == 3
    assert "between record 4 and record 5" in (found.sentence or "")


def test_a_cut_end_is_told(engine: Engine):
    keep(engine, base())
    kept = checkpoints(engine, 5, 7)
    rewrite(engine, base()[:6])
    found = compared(engine, kept)
    assert found.holds_to == 5
    assert found.sentence == "Records were cut off: the checkpoint counts 7, here are only 6."


def test_a_spoilt_node_is_not_taken_for_a_rewritten_history(engine: Engine):
    keep(engine, base())
    kept = checkpoints(engine, 7)
    with writing_to(engine) as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("ALTER TABLE record DISABLE TRIGGER USER"))
        else:
            connection.execute(text(f"DROP TRIGGER {SQLITE_TRIGGER_NAMES[0]}"))
        connection.execute(record.update().where(record.c.seq == 6).values(node=bytes(32)))
    sentence = compared(engine, kept).sentence or ""
    assert "Record 6 (p2) is wrong" in sentence
    assert "node" in sentence


def test_the_checkpoint_of_other_records_is_told_apart(engine: Engine):
    keep(engine, base())
    (own,) = checkpoints(engine, 7)
    other = Checkpoint("lowport/other", own.size, own.root)
    assert "named lowport/other" in (compared(engine, [other]).sentence or "")
