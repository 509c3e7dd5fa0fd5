"""The tables of people and their sessions."""

from sqlalchemy import (
    Boolean,
    Column,
    DateTime,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    String,
    Table,
    Text,
    func,
)

from app.database import db

person = Table(
    "person",
    db.metadata,
    Column("id", String(36), primary_key=True),
    Column("sign_in_name", String(60), nullable=False, unique=True),
    Column("printed_name", String(120), nullable=False),
    Column("password_hash", String(200), nullable=False),
    Column("language", String(5), nullable=False, server_default="en"),
    Column("units", String(6), nullable=False, server_default="us"),
    Column("theme", String(5), nullable=False, server_default="auto"),
    Column("is_active", Boolean, nullable=False, server_default="1"),
    Column("created_at", DateTime, nullable=False, server_default=func.now()),
)

person_role = Table(
    "person_role",
    db.metadata,
    Column("person_id", ForeignKey("person.id"), primary_key=True),
    Column("role", String(20), primary_key=True),
)

browser_session = Table(
    "browser_session",
    db.metadata,
    Column("token_hash", String(64), primary_key=True),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("opened_at", DateTime, nullable=False),
    Column("seen_at", DateTime, nullable=False),
    Column("ended_at", DateTime),
    Index("browser_session_of_person", "person_id"),
)

sign_in_failure = Table(
    "sign_in_failure",
    db.metadata,
    Column("id", Integer, primary_key=True),
    Column("sign_in_name", String(60), nullable=False),
    Column("failed_at", DateTime, nullable=False),
    Index("sign_in_failure_of_name", "sign_in_name", "failed_at"),
)

device = Table(
    "device",
    db.metadata,
    Column("id", String(36), primary_key=True),  # made by the phone, one for each person on it
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("label", String(80), nullable=False),
    Column("last_sequence", Integer, nullable=False),  # the highest number it has given out
    Column("created_at", DateTime, nullable=False),
    Column("seen_at", DateTime, nullable=False),
    Column("revoked_at", DateTime),
    Column("revoked_by", ForeignKey("person.id")),
    Index("device_of_person", "person_id"),
)

device_key = Table(
    "device_key",
    db.metadata,
    Column("id", String(43), primary_key=True),  # RFC 7638 thumbprint of the public key
    Column("device_id", ForeignKey("device.id"), nullable=False),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("public_key", Text, nullable=False),  # JWK, canonical
    Column("enrolled_at", DateTime, nullable=False),
    Index("device_key_of_person", "person_id"),
)

# The names that stand under signatures; see printed_names.py. Rows go when a name is erased.
name_key = Table(
    "name_key",
    db.metadata,
    Column("person_id", String(36), primary_key=True),
    Column("key", LargeBinary, nullable=False),
)

signed_name = Table(
    "signed_name",
    db.metadata,
    Column("seal", String(64), primary_key=True),
    Column("person_id", String(36), nullable=False),
    Column("printed_name", String(120), nullable=False),
    Index("signed_name_of_person", "person_id"),
)
