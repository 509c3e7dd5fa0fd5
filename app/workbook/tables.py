"""The tables of the working papers. Times are naive UTC; lengths mm, volumes mL, pressures MPa."""

from sqlalchemy import (
    Boolean,
    Column,
    Date,
    DateTime,
    Float,
    ForeignKey,
    Index,
    Integer,
    String,
    Table,
    Text,
)

from app.database import db

step_done = Table(
    "step_done",
    db.metadata,
    Column("person_id", ForeignKey("person.id"), primary_key=True),
    Column("module_id", String(40), primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("step_id", String(60), primary_key=True),
    Column("done_at", DateTime, nullable=False),
)

quiz_attempt = Table(
    "quiz_attempt",
    db.metadata,
    Column("id", String(36), primary_key=True),  # also the seed, and the id of the quiz record
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("module_id", String(40), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("content_hash", String(64), nullable=False),
    Column("items", Text, nullable=False),  # JSON: [[item id, version], …] in the order asked
    Column("language", String(5), nullable=False),
    Column("units", String(6), nullable=False),
    Column("started_at", DateTime, nullable=False),
    Column("finished_at", DateTime),
    Column("is_passed", Boolean),
    Index("quiz_attempt_of_person", "person_id", "module_id"),
)

quiz_answer = Table(
    "quiz_answer",
    db.metadata,
    Column("attempt_id", ForeignKey("quiz_attempt.id"), primary_key=True),
    Column("position", Integer, primary_key=True),
    Column("item_id", String(60), nullable=False),
    Column("item_version", Integer, nullable=False),
    Column("typed", String(80), nullable=False),
    Column("read_as", String(120), nullable=False, server_default=""),
    Column("is_right", Boolean, nullable=False),
    Column("slip", String(60), nullable=False, server_default=""),
    Column("answered_at", DateTime, nullable=False),
)

resin = Table(
    "resin",
    db.metadata,
    Column("id", String(36), primary_key=True),
    Column("name", String(120), nullable=False, unique=True),
    Column("sheet", String(200), nullable=False),  # title and date of the product data sheet
    Column("parts_a", Float),
    Column("parts_b", Float),
    Column("ratio_tolerance", Float),
    Column("density_a_g_per_ml", Float),
    Column("density_b_g_per_ml", Float),
    Column("viscosity_pa_s", Float),
    Column("pot_life_min", Float),
    Column("pot_life_reference_c", Float),
    Column("gel_time_min", Float),
    Column("min_temperature_c", Float),
    Column("max_temperature_c", Float),
    Column("max_pressure_mpa", Float),
    Column("is_invented", Boolean, nullable=False, server_default="0"),
    Column("created_by", ForeignKey("person.id"), nullable=False),
    Column("created_at", DateTime, nullable=False),
)

job = Table(
    "job",
    db.metadata,
    Column("id", String(36), primary_key=True),
    Column("site", String(120), nullable=False),
    Column("structure", String(120), nullable=False),
    Column("orientation", String(12), nullable=False),  # vertical | horizontal | overhead
    Column("access", String(5), nullable=False),  # one | both
    Column("length_mm", Float, nullable=False),
    Column("thickness_mm", Float, nullable=False),
    Column("depth_mm", Float, nullable=False),
    Column("width_mm", Float, nullable=False),
    Column("spacing_mm", Float, nullable=False),
    Column("spacing_rule", String(60), nullable=False),
    Column("spacing_chosen_by", String(120), nullable=False),
    Column("port_kind", String(10), nullable=False, server_default="surface"),
    Column("resin_id", ForeignKey("resin.id"), nullable=False),
    Column("note", Text, nullable=False, server_default=""),
    Column("is_invented", Boolean, nullable=False, server_default="0"),
    Column("created_by", ForeignKey("person.id"), nullable=False),
    Column("created_at", DateTime, nullable=False),
    # A set of hands in crew.yaml by its id; "": the default one.
    Column("crew_set", String(60), nullable=False, server_default=""),
)

observation = Table(
    "observation",
    db.metadata,
    Column("id", String(36), primary_key=True),  # also the id of the record once it is signed
    Column("job_id", ForeignKey("job.id"), nullable=False),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("trainer_id", ForeignKey("person.id"), nullable=False),
    Column("qualification_id", String(40), nullable=False),
    Column("occurred_on", Date, nullable=False),
    Column("overall", String(30), nullable=False, server_default=""),
    Column("remarks", Text, nullable=False, server_default=""),
    Column("started_at", DateTime, nullable=False),
    Column("signed_at", DateTime),
    Column("dropped_at", DateTime),
    Index("observation_of_trainer", "trainer_id"),
)

observed_item = Table(
    "observed_item",
    db.metadata,
    Column("observation_id", ForeignKey("observation.id"), primary_key=True),
    Column("module_id", String(40), primary_key=True),
    Column("item_id", String(60), primary_key=True),
    Column("outcome", String(20), nullable=False),
    Column("reason", String(400), nullable=False, server_default=""),
)

observed_measure = Table(
    "observed_measure",
    db.metadata,
    Column("observation_id", ForeignKey("observation.id"), primary_key=True),
    Column("module_id", String(40), primary_key=True),
    Column("item_id", String(60), primary_key=True),
    Column("measure_id", String(60), primary_key=True),
    Column("typed", String(40), nullable=False),
    Column("value", String(40), nullable=False),  # exact decimal in the base unit
)

port_log = Table(
    "port_log",
    db.metadata,
    Column("observation_id", ForeignKey("observation.id"), primary_key=True),
    Column("row", Integer, primary_key=True),
    Column("port", Integer, nullable=False),
    Column("opened_at", String(5), nullable=False),  # local clock time, HH:MM
    Column("next_showed_at", String(5), nullable=False, server_default=""),
    Column("pressure_typed", String(40), nullable=False, server_default=""),
    Column("pressure_mpa", Float),
    Column("note", String(200), nullable=False, server_default=""),
)

card_plan = Table(
    "card_plan",
    db.metadata,
    Column("job_id", ForeignKey("job.id"), primary_key=True),
    Column("typed", Text, nullable=False),  # JSON: field name -> what was typed, as it was typed
    Column("saved_by", ForeignKey("person.id"), nullable=False),
    Column("saved_at", DateTime, nullable=False),
)

practice_run = Table(
    "practice_run",
    db.metadata,
    Column("id", String(36), primary_key=True),  # also the seed where a crack is made from a job
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("crack", String(40), nullable=False),  # name of a set crack, "" for a job's crack
    Column("job_id", ForeignKey("job.id")),
    Column("setup", Text, nullable=False),  # JSON: the whole crack as it was given to the model
    Column("acts", Text, nullable=False),  # JSON: every act, its decisions and what was seen
    Column("acts_count", Integer, nullable=False, server_default="0"),
    Column("started_at", DateTime, nullable=False),
    Column("finished_at", DateTime),
    Column("is_done", Boolean, nullable=False, server_default="0"),  # as full as by the book
    Column("filled_share", Float),
    Column("result", Text),  # JSON: what was behind the wall, beside the same crack by the book
    Index("practice_run_of_person", "person_id", "crack"),
)
