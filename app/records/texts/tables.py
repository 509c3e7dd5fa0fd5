"""The kept texts: whatever was approved, byte for byte, each file under its SHA-256.

A text's manifest (app/curriculum/bundles.py) is kept in the same way, under the text's hash. Rows
are only added; reading compares each with its hash, so that a changed one is never served.
"""

from sqlalchemy import Column, LargeBinary, Table, Text

from app.database import db

kept_text = Table(
    "kept_text",
    db.metadata,
    Column("sha256", Text, primary_key=True),
    Column("body", LargeBinary, nullable=False),
    sqlite_strict=True,
)

SQLITE_TRIGGERS = (
    """
    CREATE TRIGGER kept_text_no_update BEFORE UPDATE ON kept_text
    BEGIN SELECT RAISE(ABORT, 'kept texts are never changed'); END
    """,
    """
    CREATE TRIGGER kept_text_no_delete BEFORE DELETE ON kept_text
    BEGIN SELECT RAISE(ABORT, 'kept texts are never deleted'); END
    """,
)
# record_refuse() was made with the triggers of the records; see triggers.py.
POSTGRES_TRIGGERS = (
    """
    CREATE TRIGGER kept_text_no_update BEFORE UPDATE ON kept_text
    FOR EACH ROW EXECUTE FUNCTION record_refuse('changed')
    """,
    """
    CREATE TRIGGER kept_text_no_delete BEFORE DELETE ON kept_text
    FOR EACH ROW EXECUTE FUNCTION record_refuse('deleted')
    """,
    """
    CREATE TRIGGER kept_text_no_truncate BEFORE TRUNCATE ON kept_text
    FOR EACH STATEMENT EXECUTE FUNCTION record_refuse('deleted')
    """,
)
TRIGGERS = {"sqlite": SQLITE_TRIGGERS, "postgresql": POSTGRES_TRIGGERS}
