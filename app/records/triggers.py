"""The triggers that make the table of records append-only on SQLite. Run once, by a migration.

INSERT OR REPLACE deletes the old row without a word to a DELETE trigger unless recursive_triggers
is on (https://www.sqlite.org/pragma.html#pragma_recursive_triggers), so the place in the sequence
and the id are also checked before every insert, whatever the pragma says.
"""

SQLITE_TRIGGERS = (
    """
    CREATE TRIGGER record_no_update BEFORE UPDATE ON record
    BEGIN SELECT RAISE(ABORT, 'records are never changed'); END
    """,
    """
    CREATE TRIGGER record_no_delete BEFORE DELETE ON record
    BEGIN SELECT RAISE(ABORT, 'records are never deleted'); END
    """,
    """
    CREATE TRIGGER record_only_next BEFORE INSERT ON record
    WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM record)
      OR EXISTS (SELECT 1 FROM record WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'records are only added at the end, each id once'); END
    """,
)
SQLITE_TRIGGER_NAMES = ("record_no_update", "record_no_delete", "record_only_next")
