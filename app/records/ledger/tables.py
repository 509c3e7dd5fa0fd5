"""The one table of records. Only appended to; see triggers.py.

body holds the record's canonical bytes as first written, hash the chain over them (chain.py), node
the full subtree of the Merkle tree that ends with the record (tree.py). The other columns repeat
what a standing is worked out from, so that a board reads no bodies. Days and times are text that
sorts by its bytes, also where PostgreSQL sorts by a language; the table is STRICT on SQLite.
"""

from sqlalchemy import CheckConstraint, Column, Index, Integer, LargeBinary, Table, Text, text

from app.database import db

# Conditions written out, or SQLite would not see that the index on only these records fits.
IS_GRANT = text("kind = 'grant'")
IS_SHARED = text("is_shared = 1")
IS_PROPOSAL = text("kind = 'correction-proposed'")
# Flagged, or recorded on a later day by UTC. The column stands left, or SQLite would turn it round.
IS_LATER = text("(flag <> '' OR occurred_on < substr(recorded_at, 1, 10))")
_IN_ORDER = Text().with_variant(Text(collation="C"), "postgresql")


def _text(name: str) -> Column[str]:
    return Column(name, Text, nullable=False, server_default="")


record = Table(
    "record",
    db.metadata,
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("id", Text, nullable=False, unique=True),
    Column("kind", Text, nullable=False),
    Column("occurred_on", _IN_ORDER, nullable=False),
    Column("zone", Text, nullable=False),
    Column("recorded_at", _IN_ORDER, nullable=False),
    _text("recorded_by"),
    _text("person"),
    _text("qualification"),
    _text("module"),
    Column("revision", Integer),
    _text("trainer"),  # who taught, examined, watched, decided or countersigned
    _text("job"),
    Column("is_passed", Integer),
    _text("critical"),  # JSON: the critical steps' outcomes
    _text("target"),  # the record countered or countersigned; the id merged away
    _text("change"),
    _text("flag"),  # why it counts only with a countersign
    Column("is_shared", Integer, nullable=False),  # bears on everybody's standing
    Column("body", LargeBinary, nullable=False),
    Column("hash", LargeBinary, nullable=False),
    Column("node", LargeBinary, nullable=False),
    CheckConstraint("seq > 0", name="record_seq_from_one"),
    CheckConstraint("is_shared IN (0, 1)", name="record_is_shared_flag"),
    CheckConstraint("is_passed IN (0, 1)", name="record_is_passed_flag"),
    Index("record_of_cell", "person", "qualification", "occurred_on"),
    Index("record_of_trainer", "trainer", "occurred_on"),
    Index("record_granted", "occurred_on", sqlite_where=IS_GRANT, postgresql_where=IS_GRANT),
    Index("record_shared", "seq", sqlite_where=IS_SHARED, postgresql_where=IS_SHARED),
    Index("record_target", "target"),
    Index("record_proposed", "seq", sqlite_where=IS_PROPOSAL, postgresql_where=IS_PROPOSAL),
    Index("record_later", "kind", sqlite_where=IS_LATER, postgresql_where=IS_LATER),
    sqlite_strict=True,
)
