"""The triggers that make the table of records append-only. Run once, by a migration.

SQLite: INSERT OR REPLACE deletes the old row without a word to a DELETE trigger unless
recursive_triggers is on (https://www.sqlite.org/pragma.html#pragma_recursive_triggers), so the
place in the sequence and the id are also checked before every insert, whatever the pragma says.

PostgreSQL: TRUNCATE passes row triggers by, so it has its own. The table is asked for by its full
name, since a temporary table of the same name would come first. An owner of the table can still
drop a trigger; let the servers sign in as a role that is not the owner (granting_to).
"""

from collections.abc import Iterable

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

POSTGRES_TRIGGERS = (
    """
    CREATE FUNCTION record_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      RAISE EXCEPTION 'records are never %', TG_ARGV[0] USING ERRCODE = 'restrict_violation';
    END $$
    """,
    """
    CREATE FUNCTION record_next() RETURNS trigger LANGUAGE plpgsql AS $$
    DECLARE following bigint;
    BEGIN
      EXECUTE format('SELECT coalesce(max(seq), 0) + 1 FROM %I.record', TG_TABLE_SCHEMA)
        INTO following;
      IF NEW.seq IS DISTINCT FROM following THEN
        RAISE EXCEPTION 'records are only added at the end, each id once'
          USING ERRCODE = 'restrict_violation';
      END IF;
      RETURN NEW;
    END $$
    """,
    """
    CREATE TRIGGER record_no_update BEFORE UPDATE ON record
    FOR EACH ROW EXECUTE FUNCTION record_refuse('changed')
    """,
    """
    CREATE TRIGGER record_no_delete BEFORE DELETE ON record
    FOR EACH ROW EXECUTE FUNCTION record_refuse('deleted')
    """,
    """
    CREATE TRIGGER record_no_truncate BEFORE TRUNCATE ON record
    FOR EACH STATEMENT EXECUTE FUNCTION record_refuse('deleted')
    """,
    """
    CREATE TRIGGER record_only_next BEFORE INSERT ON record
    FOR EACH ROW EXECUTE FUNCTION record_next()
    """,
)

TRIGGERS = {"sqlite": SQLITE_TRIGGERS, "postgresql": POSTGRES_TRIGGERS}


def granting_to(role: str, others: Iterable[str], schema: str) -> list[str]:
    """Statements for PostgreSQL that let a role read and append records, and no more than that.

    role, others (the other tables) and schema: names already quoted.
    """
    working = ", ".join(f"{schema}.{name}" for name in others)
    return [
        f"GRANT USAGE ON SCHEMA {schema} TO {role}",
        f"REVOKE ALL ON {schema}.record FROM {role}",
        f"GRANT SELECT, INSERT ON {schema}.record TO {role}",
        f"GRANT SELECT, INSERT, UPDATE, DELETE ON {working} TO {role}",
        f"GRANT USAGE ON ALL SEQUENCES IN SCHEMA {schema} TO {role}",
        f"GRANT SELECT ON {schema}.alembic_version TO {role}",
    ]
