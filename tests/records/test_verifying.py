"""Somebody with the database changes a record; verifying names the first wrong one."""

from collections.abc import Callable
from hashlib import sha256
from typing import Any

import pytest
from pymerkle import InmemoryTree
from records_cast import base, countered, quiz
from sqlalchemy import Connection, Engine, func, select, text, update

from app.database import reading_from, writing_to
from app.records.ledger.chain import GENESIS, link
from app.records.ledger.door import append
from app.records.ledger.kept_hashes import KeptHashes
from app.records.ledger.tables import record
from app.records.ledger.triggers import SQLITE_TRIGGER_NAMES
from app.records.proof import verifying
from app.records.proof.verifying import Verified, verify

Act = Callable[[Connection], object]


@pytest.fixture
def kept(engine: Engine) -> Engine:
    """The base history, and a correction of a trainer's authorisation."""
    with writing_to(engine) as connection:
        for event in base():
            append(connection, event)
        append(connection, countered("x1", "2024-03-20", "auth-A2", person="A2"))
    return engine


@pytest.fixture
def tamper(kept: Engine) -> Callable[[Act], None]:
    """The owner of the database at work: the triggers are gone."""

    def tamper(act: Act) -> None:
        with writing_to(kept) as connection:
            take_triggers_off(connection)
            act(connection)

    return tamper


def take_triggers_off(connection: Connection) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text("ALTER TABLE record DISABLE TRIGGER USER"))
        return
    for name in SQLITE_TRIGGER_NAMES:
        connection.execute(text(f"DROP TRIGGER IF EXISTS {name}"))


def verified(engine: Engine, **how: Any) -> Verified:
    with reading_from(engine) as connection:
        return verify(connection, **how)


def setting(seq: int, /, **values: Any) -> Act:
    return lambda connection: connection.execute(
        update(record).where(record.c.seq == seq).values(values)
    )


def rewriting(seq: int) -> Act:
    """The bytes of one record say another trainer."""

    def act(connection: Connection) -> None:
        body = connection.scalar(select(record.c.body).where(record.c.seq == seq))
        setting(seq, body=bytes(body).replace(b"A1", b"A9"))(connection)

    return act


def deleting(seq: int) -> Act:
    return lambda connection: connection.execute(record.delete().where(record.c.seq == seq))


def test_no_records_hold(engine: Engine):
    assert verified(engine) == Verified(0, GENESIS.hex(), None)


@pytest.mark.parametrize("is_deep", [False, True])
def test_untouched_records_hold(kept: Engine, is_deep: bool):
    found = verified(kept, is_deep=is_deep)
    assert (found.count, found.wrong) == (8, None)


def test_the_last_hash_can_be_worked_out_with_sha_256_alone(kept: Engine):
    previous = bytes(32)
    with kept.connect() as connection:
        for body in connection.scalars(select(record.c.body).order_by(record.c.seq)):
            previous = sha256(b"\0" + previous + body).digest()
    assert verified(kept).last_hash == previous.hex()


def test_the_kept_root_is_the_reference_library_s_at_every_size(kept: Engine):
    tree, previous = InmemoryTree(algorithm="sha256"), bytes(32)
    with kept.connect() as connection:
        rows = connection.execute(select(record.c.body, record.c.hash).order_by(record.c.seq))
        for size, (body, leaf) in enumerate(rows.all(), start=1):
            tree.append_entry(previous + body)
            assert KeptHashes(connection).root(size) == tree.get_root()
            previous = leaf


@pytest.mark.parametrize(
    ("act", "seq", "says"),
    [
        (rewriting(5), 5, "bytes"),
        (setting(3, hash=bytes(32)), 3, "bytes"),
        (setting(8, body=b""), 8, "bytes"),
        (deleting(4), 4, "missing"),
        (deleting(1), 1, "missing"),
        (setting(4, seq=90), 4, "missing"),
    ],
)
@pytest.mark.parametrize("is_deep", [False, True])
def test_the_first_wrong_record_is_named(
    tamper, kept: Engine, act: Act, seq: int, says: str, is_deep: bool
):
    tamper(act)
    found = verified(kept, is_deep=is_deep)
    assert found.wrong is not None
    assert (found.wrong.seq, found.count) == (seq, seq - 1)
    assert says in found.wrong.sentence


@pytest.mark.parametrize(
    ("act", "seq", "says"),
    [
        (setting(6, person="V"), 6, "column person"),
        (setting(4, is_passed=0), 4, "column is_passed"),
        (setting(7, occurred_on="2023-01-01"), 7, "column occurred_on"),
        (setting(1, is_shared=0), 1, "column is_shared"),
        (setting(8, is_shared=0), 8, "column is_shared"),
        (setting(4, is_shared=1), 4, "column is_shared"),
        (setting(7, job="R1"), 7, "column job"),
        (setting(6, node=bytes(32)), 6, "node"),
    ],
)
def test_what_bytes_alone_do_not_show_the_deep_check_does(
    tamper, kept: Engine, act: Act, seq: int, says: str
):
    tamper(act)
    assert verified(kept).wrong is None
    wrong = verified(kept, is_deep=True).wrong
    assert wrong is not None
    assert wrong.seq == seq
    assert says in wrong.sentence


def test_two_records_that_change_places_are_found(tamper, kept: Engine):
    def change_places(connection: Connection) -> None:
        for was, becomes in ((5, 100), (6, 5), (100, 6)):
            setting(was, seq=becomes)(connection)

    tamper(change_places)
    wrong = verified(kept).wrong
    assert wrong is not None
    assert wrong.seq == 5


def test_a_kind_of_the_future_is_not_passed_over(tamper, kept: Engine):
    def add(connection: Connection) -> None:
        previous = KeptHashes(connection).leaf(8)
        body = b'{"kind":"promotion","version":1}'
        leaf = link(previous, body)
        row = {"seq": 9, "id": "n", "kind": "promotion", "is_shared": 0, "body": body}
        days = dict.fromkeys(("occurred_on", "zone", "recorded_at"), "")
        connection.execute(record.insert().values(**row, **days, hash=leaf, node=leaf))

    tamper(add)
    assert verified(kept).wrong is None
    wrong = verified(kept, is_deep=True).wrong
    assert wrong is not None
    assert "promotion" in wrong.sentence


# In several processes


@pytest.fixture
def many(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> Engine:
    monkeypatch.setattr(verifying, "FEWEST_TO_SHARE", 10)
    with writing_to(engine) as connection:
        for event in base():
            append(connection, event)
        for number in range(30):
            append(connection, quiz(f"q{number + 10}", "2024-01-12"))
    return engine


@pytest.mark.parametrize("is_deep", [False, True])
@pytest.mark.parametrize("processes", [2, 3, 5])
def test_shared_out_it_says_the_same(many: Engine, processes: int, is_deep: bool):
    alone = verified(many, is_deep=is_deep)
    assert alone.count == 37
    assert verified(many, is_deep=is_deep, processes=processes) == alone


@pytest.mark.parametrize("seq", [1, 12, 13, 24, 25, 37])
def test_shared_out_it_names_the_same_first_wrong_record(many: Engine, seq: int):
    # With three processes the spans end at 12, 24 and 37: each edge is tried from both sides.
    with writing_to(many) as connection:
        take_triggers_off(connection)
        size = connection.scalar(select(func.count()).select_from(record))
        assert size == 37
        setting(seq, hash=bytes(32))(connection)
    for is_deep in (False, True):
        alone = verified(many, is_deep=is_deep)
        assert alone.wrong is not None
        assert alone.wrong.seq == seq
        assert verified(many, is_deep=is_deep, processes=3) == alone


@pytest.mark.parametrize("seq", [8, 12, 13, 36])
def test_shared_out_a_record_that_is_gone_is_missed(many: Engine, seq: int):
    with writing_to(many) as connection:
        take_triggers_off(connection)
        deleting(seq)(connection)
    for is_deep in (False, True):
        wrong = verified(many, is_deep=is_deep, processes=3).wrong
        assert wrong is not None
        assert (wrong.seq, wrong.sentence) == (seq, "it is missing.")
