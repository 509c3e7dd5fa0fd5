"""The first tables: people, working papers, and the records with their append-only triggers."""

import sqlalchemy as sa
from alembic import op

from app.records.ledger.triggers import TRIGGERS

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Create every table, then close the one of records against change."""
    op.create_table(
        "person",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("sign_in_name", sa.String(length=60), nullable=False),
        sa.Column("printed_name", sa.String(length=120), nullable=False),
        sa.Column("password_hash", sa.String(length=200), nullable=False),
        sa.Column("language", sa.String(length=5), server_default="en", nullable=False),
        sa.Column("units", sa.String(length=6), server_default="us", nullable=False),
        sa.Column("theme", sa.String(length=5), server_default="auto", nullable=False),
        sa.Column("is_active", sa.Boolean(), server_default="1", nullable=False),
        sa.Column("created_at", sa.DateTime(), server_default=sa.func.now(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("sign_in_name"),
    )
    op.create_table(
        "record",
        sa.Column("seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column(
            "occurred_on",
            sa.Text().with_variant(sa.Text(collation="C"), "postgresql"),
            nullable=False,
        ),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.Column(
            "recorded_at",
            sa.Text().with_variant(sa.Text(collation="C"), "postgresql"),
            nullable=False,
        ),
        sa.Column("recorded_by", sa.Text(), server_default="", nullable=False),
        sa.Column("person", sa.Text(), server_default="", nullable=False),
        sa.Column("qualification", sa.Text(), server_default="", nullable=False),
        sa.Column("module", sa.Text(), server_default="", nullable=False),
        sa.Column("revision", sa.Integer(), nullable=True),
        sa.Column("trainer", sa.Text(), server_default="", nullable=False),
        sa.Column("job", sa.Text(), server_default="", nullable=False),
        sa.Column("is_passed", sa.Integer(), nullable=True),
        sa.Column("critical", sa.Text(), server_default="", nullable=False),
        sa.Column("target", sa.Text(), server_default="", nullable=False),
        sa.Column("change", sa.Text(), server_default="", nullable=False),
        sa.Column("flag", sa.Text(), server_default="", nullable=False),
        sa.Column("is_shared", sa.Integer(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.Column("hash", sa.LargeBinary(), nullable=False),
        sa.Column("node", sa.LargeBinary(), nullable=False),
        sa.CheckConstraint("is_passed IN (0, 1)", name="record_is_passed_flag"),
        sa.CheckConstraint("is_shared IN (0, 1)", name="record_is_shared_flag"),
        sa.CheckConstraint("seq > 0", name="record_seq_from_one"),
        sa.PrimaryKeyConstraint("seq"),
        sa.UniqueConstraint("id"),
        sqlite_strict=True,
    )
    op.create_index(
        "record_granted",
        "record",
        ["occurred_on"],
        unique=False,
        sqlite_where=sa.text("kind = 'grant'"),
        postgresql_where=sa.text("kind = 'grant'"),
    )
    op.create_index(
        "record_of_cell", "record", ["person", "qualification", "occurred_on"], unique=False
    )
    op.create_index("record_of_trainer", "record", ["trainer", "occurred_on"], unique=False)
    op.create_index(
        "record_shared",
        "record",
        ["seq"],
        unique=False,
        sqlite_where=sa.text("is_shared = 1"),
        postgresql_where=sa.text("is_shared = 1"),
    )
    op.create_index("record_target", "record", ["target"], unique=False)
    op.create_table(
        "sign_in_failure",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sign_in_name", sa.String(length=60), nullable=False),
        sa.Column("failed_at", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(
        "sign_in_failure_of_name", "sign_in_failure", ["sign_in_name", "failed_at"], unique=False
    )
    op.create_table(
        "browser_session",
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("opened_at", sa.DateTime(), nullable=False),
        sa.Column("seen_at", sa.DateTime(), nullable=False),
        sa.Column("ended_at", sa.DateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("token_hash"),
    )
    op.create_index("browser_session_of_person", "browser_session", ["person_id"], unique=False)
    op.create_table(
        "device",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("label", sa.String(length=80), nullable=False),
        sa.Column("last_sequence", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(), nullable=False),
        sa.Column("seen_at", sa.DateTime(), nullable=False),
        sa.Column("revoked_at", sa.DateTime(), nullable=True),
        sa.Column("revoked_by", sa.String(length=36), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.ForeignKeyConstraint(
            ["revoked_by"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("device_of_person", "device", ["person_id"], unique=False)
    op.create_table(
        "person_role",
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("role", sa.String(length=20), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("person_id", "role"),
    )
    op.create_table(
        "practice_answer",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("module_id", sa.String(length=40), nullable=False),
        sa.Column("item_id", sa.String(length=60), nullable=False),
        sa.Column("item_version", sa.Integer(), nullable=False),
        sa.Column("set_day", sa.String(length=10), nullable=False),
        sa.Column("set_round", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(length=80), nullable=False),
        sa.Column("is_right", sa.Boolean(), nullable=True),
        sa.Column("slip", sa.String(length=60), server_default="", nullable=False),
        sa.Column("answered_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(
        "practice_answer_of_person", "practice_answer", ["person_id", "module_id"], unique=False
    )
    op.create_table(
        "quiz_attempt",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("module_id", sa.String(length=40), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("content_hash", sa.String(length=64), nullable=False),
        sa.Column("items", sa.Text(), nullable=False),
        sa.Column("language", sa.String(length=5), nullable=False),
        sa.Column("units", sa.String(length=6), nullable=False),
        sa.Column("started_at", sa.DateTime(), nullable=False),
        sa.Column("finished_at", sa.DateTime(), nullable=True),
        sa.Column("is_passed", sa.Boolean(), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(
        "quiz_attempt_of_person", "quiz_attempt", ["person_id", "module_id"], unique=False
    )
    op.create_table(
        "resin",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("sheet", sa.String(length=200), nullable=False),
        sa.Column("parts_a", sa.Float(), nullable=True),
        sa.Column("parts_b", sa.Float(), nullable=True),
        sa.Column("ratio_tolerance", sa.Float(), nullable=True),
        sa.Column("density_a_g_per_ml", sa.Float(), nullable=True),
        sa.Column("density_b_g_per_ml", sa.Float(), nullable=True),
        sa.Column("viscosity_pa_s", sa.Float(), nullable=True),
        sa.Column("pot_life_min", sa.Float(), nullable=True),
        sa.Column("pot_life_reference_c", sa.Float(), nullable=True),
        sa.Column("gel_time_min", sa.Float(), nullable=True),
        sa.Column("min_temperature_c", sa.Float(), nullable=True),
        sa.Column("max_temperature_c", sa.Float(), nullable=True),
        sa.Column("max_pressure_mpa", sa.Float(), nullable=True),
        sa.Column("is_invented", sa.Boolean(), server_default="0", nullable=False),
        sa.Column("created_by", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["created_by"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name"),
    )
    op.create_table(
        "step_done",
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("module_id", sa.String(length=40), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.String(length=60), nullable=False),
        sa.Column("done_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("person_id", "module_id", "revision", "step_id"),
    )
    op.create_table(
        "device_key",
        sa.Column("id", sa.String(length=43), nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("public_key", sa.Text(), nullable=False),
        sa.Column("enrolled_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["device_id"],
            ["device.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("device_key_of_person", "device_key", ["person_id"], unique=False)
    op.create_table(
        "job",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("site", sa.String(length=120), nullable=False),
        sa.Column("structure", sa.String(length=120), nullable=False),
        sa.Column("orientation", sa.String(length=12), nullable=False),
        sa.Column("access", sa.String(length=5), nullable=False),
        sa.Column("length_mm", sa.Float(), nullable=False),
        sa.Column("thickness_mm", sa.Float(), nullable=False),
        sa.Column("depth_mm", sa.Float(), nullable=False),
        sa.Column("width_mm", sa.Float(), nullable=False),
        sa.Column("spacing_mm", sa.Float(), nullable=False),
        sa.Column("spacing_rule", sa.String(length=60), nullable=False),
        sa.Column("spacing_chosen_by", sa.String(length=120), nullable=False),
        sa.Column("port_kind", sa.String(length=10), server_default="surface", nullable=False),
        sa.Column("resin_id", sa.String(length=36), nullable=False),
        sa.Column("note", sa.Text(), server_default="", nullable=False),
        sa.Column("is_invented", sa.Boolean(), server_default="0", nullable=False),
        sa.Column("created_by", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["created_by"],
            ["person.id"],
        ),
        sa.ForeignKeyConstraint(
            ["resin_id"],
            ["resin.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "outbox_receipt",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("claimed_at", sa.DateTime(), nullable=False),
        sa.Column("claimed_offset_min", sa.Integer(), nullable=False),
        sa.Column("server_seen_at", sa.DateTime(), nullable=True),
        sa.Column("arrived_at", sa.DateTime(), nullable=False),
        sa.Column("carried_by", sa.String(length=36), nullable=True),
        sa.Column("result", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["carried_by"],
            ["person.id"],
        ),
        sa.ForeignKeyConstraint(
            ["device_id"],
            ["device.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(
        "outbox_receipt_of_device", "outbox_receipt", ["device_id", "sequence"], unique=False
    )
    op.create_index("outbox_receipt_of_person", "outbox_receipt", ["person_id"], unique=False)
    op.create_table(
        "quiz_answer",
        sa.Column("attempt_id", sa.String(length=36), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.String(length=60), nullable=False),
        sa.Column("item_version", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(length=80), nullable=False),
        sa.Column("read_as", sa.String(length=120), server_default="", nullable=False),
        sa.Column("is_right", sa.Boolean(), nullable=False),
        sa.Column("slip", sa.String(length=60), server_default="", nullable=False),
        sa.Column("answered_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["attempt_id"],
            ["quiz_attempt.id"],
        ),
        sa.PrimaryKeyConstraint("attempt_id", "position"),
    )
    op.create_table(
        "card_plan",
        sa.Column("job_id", sa.String(length=36), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("saved_by", sa.String(length=36), nullable=False),
        sa.Column("saved_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job.id"],
        ),
        sa.ForeignKeyConstraint(
            ["saved_by"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("job_id"),
    )
    op.create_table(
        "observation",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("job_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("trainer_id", sa.String(length=36), nullable=False),
        sa.Column("qualification_id", sa.String(length=40), nullable=False),
        sa.Column("occurred_on", sa.Date(), nullable=False),
        sa.Column("overall", sa.String(length=30), server_default="", nullable=False),
        sa.Column("remarks", sa.Text(), server_default="", nullable=False),
        sa.Column("started_at", sa.DateTime(), nullable=False),
        sa.Column("signed_at", sa.DateTime(), nullable=True),
        sa.Column("dropped_at", sa.DateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.ForeignKeyConstraint(
            ["trainer_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("observation_of_trainer", "observation", ["trainer_id"], unique=False)
    op.create_table(
        "practice_run",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("crack", sa.String(length=40), nullable=False),
        sa.Column("job_id", sa.String(length=36), nullable=True),
        sa.Column("setup", sa.Text(), nullable=False),
        sa.Column("acts", sa.Text(), nullable=False),
        sa.Column("acts_count", sa.Integer(), server_default="0", nullable=False),
        sa.Column("started_at", sa.DateTime(), nullable=False),
        sa.Column("finished_at", sa.DateTime(), nullable=True),
        sa.Column("is_done", sa.Boolean(), server_default="0", nullable=False),
        sa.Column("filled_share", sa.Float(), nullable=True),
        sa.Column("result", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job.id"],
        ),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["person.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("practice_run_of_person", "practice_run", ["person_id", "crack"], unique=False)
    op.create_table(
        "observed_item",
        sa.Column("observation_id", sa.String(length=36), nullable=False),
        sa.Column("module_id", sa.String(length=40), nullable=False),
        sa.Column("item_id", sa.String(length=60), nullable=False),
        sa.Column("outcome", sa.String(length=20), nullable=False),
        sa.Column("reason", sa.String(length=400), server_default="", nullable=False),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.id"],
        ),
        sa.PrimaryKeyConstraint("observation_id", "module_id", "item_id"),
    )
    op.create_table(
        "observed_measure",
        sa.Column("observation_id", sa.String(length=36), nullable=False),
        sa.Column("module_id", sa.String(length=40), nullable=False),
        sa.Column("item_id", sa.String(length=60), nullable=False),
        sa.Column("measure_id", sa.String(length=60), nullable=False),
        sa.Column("typed", sa.String(length=40), nullable=False),
        sa.Column("value", sa.String(length=40), nullable=False),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.id"],
        ),
        sa.PrimaryKeyConstraint("observation_id", "module_id", "item_id", "measure_id"),
    )
    op.create_table(
        "phone_sign_off",
        sa.Column("observation_id", sa.String(length=36), nullable=False),
        sa.Column("way", sa.String(length=10), nullable=False),
        sa.Column("signed_text", sa.Text(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("key_id", sa.String(length=43), server_default="", nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("claimed_at", sa.String(length=40), nullable=False),
        sa.Column("server_seen_at", sa.String(length=40), server_default="", nullable=False),
        sa.Column("arrived_at", sa.DateTime(), nullable=False),
        sa.Column("recorded_at", sa.DateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["device_id"],
            ["device.id"],
        ),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.id"],
        ),
        sa.PrimaryKeyConstraint("observation_id"),
    )
    op.create_table(
        "photo",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("observation_id", sa.String(length=36), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("module_id", sa.String(length=40), server_default="", nullable=False),
        sa.Column("item_id", sa.String(length=60), server_default="", nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("arrived_at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("photo_of_observation", "photo", ["observation_id"], unique=False)
    op.create_table(
        "port_log",
        sa.Column("observation_id", sa.String(length=36), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("port", sa.Integer(), nullable=False),
        sa.Column("opened_at", sa.String(length=5), nullable=False),
        sa.Column("next_showed_at", sa.String(length=5), server_default="", nullable=False),
        sa.Column("pressure_typed", sa.String(length=40), server_default="", nullable=False),
        sa.Column("pressure_mpa", sa.Float(), nullable=True),
        sa.Column("note", sa.String(length=200), server_default="", nullable=False),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.id"],
        ),
        sa.PrimaryKeyConstraint("observation_id", "row"),
    )
    op.create_table(
        "standing_projection",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("policy", sa.Text(), nullable=False),
        sa.Column("fingerprint", sa.Text(), nullable=False),
        sa.Column("building", sa.Text(), nullable=False),
        sa.Column("through_seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column(
            "latest_at",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=False,
            nullable=False,
        ),
        sa.Column("is_in_order", sa.Integer(), autoincrement=False, nullable=False),
        sa.CheckConstraint("id = 1", name="standing_projection_one_row"),
        sa.PrimaryKeyConstraint("id"),
        sqlite_strict=True,
    )
    op.create_table(
        "standing_person",
        sa.Column("no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column(
            "known_from",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=False,
            nullable=False,
        ),
        sa.PrimaryKeyConstraint("no"),
        sa.UniqueConstraint("person"),
        sqlite_strict=True,
    )
    op.create_table(
        "standing_qualification",
        sa.Column("no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("qualification", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("no"),
        sa.UniqueConstraint("qualification"),
        sqlite_strict=True,
    )
    op.create_table(
        "standing_trained",
        sa.Column("no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("qualification_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("revisions", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("no"),
        sqlite_strict=True,
    )
    op.create_index(
        "standing_trained_once",
        "standing_trained",
        ["qualification_no", "revisions"],
        unique=True,
    )
    op.create_table(
        "standing_interval",
        sa.Column("lane", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("lane_start", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("person_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("qualification_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("from_day", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column(
            "recorded_from",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=False,
            nullable=False,
        ),
        sa.Column("to_day", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column(
            "recorded_to",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=False,
            nullable=False,
        ),
        sa.Column("held", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("granted_on", sa.Integer(), nullable=True),
        sa.Column("last_good_day", sa.Integer(), nullable=True),
        sa.Column("continuity_due_on", sa.Integer(), nullable=True),
        sa.Column("decided_on", sa.Integer(), nullable=True),
        sa.Column("trained_no", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint(
            "lane",
            "lane_start",
            "person_no",
            "qualification_no",
            "from_day",
            "recorded_from",
        ),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )
    op.create_index(
        "standing_interval_of_person",
        "standing_interval",
        ["person_no", "qualification_no", "recorded_to", "from_day", "to_day"],
        unique=False,
    )
    for trigger in TRIGGERS[op.get_bind().dialect.name]:
        op.execute(sa.text(trigger))
