"""The tables of what phones sent: a receipt for each thing, and the practice answers."""

from sqlalchemy import (
    Boolean,
    Column,
    DateTime,
    ForeignKey,
    Index,
    Integer,
    String,
    Table,
    Text,
)

from app.database import db

outbox_receipt = Table(
    "outbox_receipt",
    db.metadata,
    Column("id", String(36), primary_key=True),  # the item's own id, made by the phone
    Column("digest", String(64), nullable=False),  # SHA-256 of the item's bytes
    Column("kind", String(40), nullable=False),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("device_id", ForeignKey("device.id"), nullable=False),
    Column("sequence", Integer, nullable=False),  # counted by the device
    # Three times: what the phone says (its wall clock, with its offset), the last server time the
    # phone had seen when it said so, and when the item arrived here.
    Column("claimed_at", DateTime, nullable=False),
    Column("claimed_offset_min", Integer, nullable=False),
    Column("server_seen_at", DateTime),
    Column("arrived_at", DateTime, nullable=False),
    Column("carried_by", ForeignKey("person.id")),  # who brought it in as a file
    Column("result", Text, nullable=False),  # JSON: what the kind's handler answered
    Index("outbox_receipt_of_device", "device_id", "sequence"),
    Index("outbox_receipt_of_person", "person_id"),
)

practice_answer = Table(
    "practice_answer",
    db.metadata,
    Column("id", String(36), primary_key=True),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("module_id", String(40), nullable=False),
    Column("item_id", String(60), nullable=False),
    Column("item_version", Integer, nullable=False),
    Column("set_day", String(10), nullable=False),  # the set's numbers come from day and round
    Column("set_round", Integer, nullable=False),
    Column("typed", String(80), nullable=False),
    Column("is_right", Boolean),  # empty where the question has changed since
    Column("slip", String(60), nullable=False, server_default=""),
    Column("answered_at", DateTime, nullable=False),
    Index("practice_answer_of_person", "person_id", "module_id"),
)
