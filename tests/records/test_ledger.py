"""The door to the records: kept once, in order, never changed, read back as asked."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest
from records_cast import (
    LEAD,
    POLICY,
    again,
    authorised,
    base,
    countered,
    countersigned,
    day,
    merged,
    observation,
    practical,
    quiz,
)
from sqlalchemy import Connection, Engine, create_engine, text
from sqlalchemy.exc import IntegrityError

from app.database import prepare_engine
from app.records.ledger import (
    IdTaken,
    UnknownRecord,
    all_events,
    append,
    event_by_id,
    history_of,
    light_events,
    receipt_of,
)
from app.records.standing import standing
from app.records.tables import record
from app.records.triggers import SQLITE_TRIGGERS
from app.records.verifying import verify


@pytest.fixture
def engine(tmp_path: Path) -> Iterator[Engine]:
    engine = create_engine(f"sqlite:///{tmp_path / 'records.db'}")
    prepare_engine(engine)
    with engine.begin() as connection:
        record.create(connection)
        for trigger in SQLITE_TRIGGERS:
            connection.execute(text(trigger))
    yield engine
    engine.dispose()


@contextmanager
def writing_to(engine: Engine) -> Iterator[Connection]:
    """As app.database.writing(), without an app around it."""
    with engine.connect() as connection:
        connection = connection.execution_options(is_writing=True)
        with connection.begin():
            yield connection


@pytest.fixture
def connection(engine: Engine) -> Iterator[Connection]:
    with writing_to(engine) as connection:
        yield connection


@pytest.fixture
def kept(connection: Connection) -> Connection:
    """The base history in the ledger."""
    for event in base():
        append(connection, event)
    return connection


def ids(events) -> list[str]:
    return [event.id for event in events]


def test_records_come_back_in_the_order_they_came(kept: Connection):
    assert list(all_events(kept)) == base()
    assert event_by_id(kept, "p1") == base()[4]
    assert event_by_id(kept, "nothing") is None


def test_a_receipt_has_place_hash_and_time(connection: Connection):
    first, second = (append(connection, event) for event in base()[:2])
    assert (first.seq, second.seq) == (1, 2)
    assert first.hash != second.hash
    assert first.recorded_at == base()[0].recorded_at
    assert not first.is_repeat


def test_sent_again_it_gets_the_first_receipt(connection: Connection):
    event = practical("p9", "2024-02-10", "R9", "A1", observation=observation(comment="Jose\u0301"))
    first = append(connection, event)
    second = append(connection, again(event))
    assert second == replace(first, is_repeat=True)
    assert receipt_of(connection, "p9") == second
    assert len(list(all_events(connection))) == 1


def test_other_content_under_the_same_id_is_refused(kept: Connection):
    with pytest.raises(IdTaken, match="p1"):
        append(kept, practical("p1", "2024-01-20", "R1", "A2"))
    with pytest.raises(IdTaken, match="p1"):
        append(kept, quiz("p1", "2024-01-20"))
    assert len(list(all_events(kept))) == len(base())


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE record SET person = 'X' WHERE id = 'p1'",
        "UPDATE OR REPLACE record SET id = 'q1' WHERE id = 'p1'",
        "DELETE FROM record WHERE id = 'p1'",
        "DELETE FROM record",
        "INSERT OR REPLACE INTO record SELECT * FROM record WHERE id = 'p1'",
        "REPLACE INTO record SELECT * FROM record WHERE id = 'p1'",
        "INSERT OR REPLACE INTO record (seq, id, kind, occurred_on, zone, recorded_at, is_shared, "
        "body, hash) VALUES (8, 'p1', 'x', 'x', 'x', 'x', 0, x'00', x'00')",
        "INSERT INTO record (seq, id, kind, occurred_on, zone, recorded_at, is_shared, body, hash) "
        "VALUES (99, 'new', 'x', 'x', 'x', 'x', 0, x'00', x'00')",
    ],
)
@pytest.mark.parametrize("recursive", ["ON", "OFF"])
def test_nothing_is_ever_changed(kept: Connection, statement: str, recursive: str):
    kept.exec_driver_sql(f"PRAGMA recursive_triggers={recursive}")
    with pytest.raises(IntegrityError, match="records are"):
        kept.execute(text(statement))
    assert list(all_events(kept)) == base()


def test_the_table_refuses_a_value_of_another_type(connection: Connection):
    with pytest.raises(IntegrityError, match="cannot store TEXT"):
        connection.execute(
            text(
                "INSERT INTO record (seq, id, kind, occurred_on, zone, recorded_at, is_shared, "
                "body, hash) VALUES (1, 'n', 'x', 'x', 'x', 'x', 'yes', x'00', x'00')"
            )
        )


def test_one_persons_history_has_no_record_of_others(kept: Connection):
    append(kept, quiz("q-other", "2024-01-12", person="V"))
    assert ids(history_of(kept, "W")) == ids(base())
    assert ids(history_of(kept, "V")) == ["auth-A1", "auth-A2", "q-other"]
    assert ids(history_of(kept)) == ["auth-A1", "auth-A2"]


def test_a_history_holds_all_that_bears_on_the_standing(kept: Connection):
    append(kept, practical("p3", "2024-02-12", "R3", "A3", person="W2"))
    append(kept, authorised("A3"))
    append(kept, merged("i1", "2024-04-01", "W", "W2"))
    append(kept, countered("x1", "2024-04-02", "auth-A2", person="A2"))
    append(kept, countered("x2", "2024-04-03", "x1", person="A2"))
    append(kept, countersigned("s1", "2024-04-04", "p2", "A1"))
    append(kept, countered("x3", "2024-04-05", "p2"))
    everything = ids(all_events(kept))
    assert ids(history_of(kept, "W")) == everything
    assert ids(history_of(kept, "W2")) == everything


def test_a_history_as_known_on_a_day(kept: Connection):
    assert ids(history_of(kept, "W", known_on=day("2024-01-20")))[-1] == "p1"
    assert ids(all_events(kept, day("2024-01-12")))[-1] == "q1"


def test_a_board_from_columns_says_the_same(kept: Connection):
    append(kept, practical("p3", "2024-02-12", "R3", "A1", passed=False, observation=observation()))
    append(kept, countered("x1", "2024-03-20", "p2"))
    light, full = list(light_events(kept)), list(all_events(kept))
    for text_day in ("2024-03-10", "2024-08-11", "2026-03-01"):
        for known in (None, day("2024-03-15")):
            asked = (POLICY, "W", LEAD, day(text_day), known)
            assert standing(light, *asked) == standing(full, *asked)


@pytest.mark.parametrize(("target", "person"), [("nothing", "W"), ("p2", "V")])
def test_a_record_about_another_must_fit_it(kept: Connection, target: str, person: str):
    with pytest.raises(UnknownRecord, match=target):
        append(kept, countered("x1", "2024-03-20", target, person=person))


def test_an_act_that_fails_leaves_nothing(engine: Engine):
    def act() -> None:
        with writing_to(engine) as connection:
            append(connection, base()[0])
            append(connection, replace(base()[0], person="A9"))

    with pytest.raises(IdTaken):
        act()
    with engine.connect() as connection:
        assert list(all_events(connection)) == []


def test_several_writers_lose_nothing(engine: Engine):
    def write(number: int) -> None:
        with writing_to(engine) as connection:
            append(connection, quiz(f"q{number}", "2024-01-12"))

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(write, range(40)))
    with engine.connect() as connection:
        found = verify(connection)
    assert (found.count, found.wrong) == (40, None)
