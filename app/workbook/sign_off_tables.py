"""The tables of what was signed on phones: the exact bytes, and the photos that belong to them."""

from sqlalchemy import Column, DateTime, ForeignKey, Index, Integer, String, Table, Text

from app.database import db

phone_sign_off = Table(
    "phone_sign_off",
    db.metadata,
    Column("observation_id", ForeignKey("observation.id"), primary_key=True),  # the record's id too
    Column("way", String(10), nullable=False),  # device | password
    # A compact JWS, or the bare body that the trainer still has to confirm with the password.
    Column("signed_text", Text, nullable=False),
    Column("sha256", String(64), nullable=False),  # of signed_text
    Column("key_id", String(43), nullable=False, server_default=""),
    Column("device_id", ForeignKey("device.id"), nullable=False),
    Column("sequence", Integer, nullable=False),
    Column("claimed_at", String(40), nullable=False),  # the phone's wall clock with its offset
    Column("server_seen_at", String(40), nullable=False, server_default=""),
    Column("arrived_at", DateTime, nullable=False),
    Column("recorded_at", DateTime),  # empty while it waits for the password
)

photo = Table(
    "photo",
    db.metadata,
    Column("id", String(36), primary_key=True),  # made by the phone; also the file's name
    Column("observation_id", ForeignKey("observation.id"), nullable=False),
    Column("sha256", String(64), nullable=False),  # of the bytes as the phone sent them
    Column("module_id", String(40), nullable=False, server_default=""),
    Column("item_id", String(60), nullable=False, server_default=""),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("arrived_at", DateTime, nullable=False),
    Index("photo_of_observation", "observation_id"),
)
