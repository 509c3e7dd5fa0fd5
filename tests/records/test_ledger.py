"""The door to the records, on SQLite and on PostgreSQL: kept once, in order, read back as asked.

What keeps them from being changed is in test_append_only.py, many writers in test_writers.py.
"""

from dataclasses import replace

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
from sqlalchemy import Connection, Engine, select

from app.database import reading_from, writing_to
from app.records.ledger.canonical import NotCanonical, canonical
from app.records.ledger.door import (
    IdTaken,
    UnknownRecord,
    all_events,
    append,
    event_by_id,
    history_of,
    light_events,
    receipt_of,
)
from app.records.ledger.encoding import data_of
from app.records.ledger.tables import record
from app.records.standing.definition import standing


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
    with reading_from(engine) as connection:
        assert list(all_events(connection)) == []


def test_the_bytes_are_kept_as_signed(kept: Connection):
    bodies = kept.execute(select(record.c.body).order_by(record.c.seq)).scalars()
    assert [bytes(body) for body in bodies] == [canonical(data_of(event)) for event in base()]


def test_a_reader_sees_one_state_to_the_end(engine: Engine):
    with reading_from(engine) as reader:
        assert list(all_events(reader)) == []
        with writing_to(engine) as writer:
            append(writer, base()[0])
        assert list(all_events(reader)) == []
    with reading_from(engine) as reader:
        assert list(all_events(reader)) == base()[:1]


def test_text_that_one_of_the_databases_can_t_hold_is_refused_by_both(connection: Connection):
    with pytest.raises(NotCanonical, match=r"record\.job"):
        append(connection, practical("p9", "2024-02-10", "R\x009", "A1"))
