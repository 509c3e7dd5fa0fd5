"""Free practice on the crack measured for a job: the sizes, the spacing tried, what is assumed."""

import re
from dataclasses import replace
from datetime import datetime
from html import unescape

import pytest
from flask import Flask
from flask.testing import FlaskClient

from app.database import reading, writing
from app.ids import new_id
from app.workbook.jobs import Job, keep_job
from app.workbook.practice_runs import run_by_id
from app.workbook.resins import Resin, Sheet, keep_resin
from app.worker.practice.job_crack import job_crack
from app.worker.practice.setup import crack_from

WALL = Job(
    id="job-1",
    site="Mill Pond pump house (invented)",
    structure="North wall",
    orientation="vertical",
    access="one",
    length_mm=1200.0,
    thickness_mm=300.0,
    depth_mm=250.0,
    width_mm=0.4,
    spacing_mm=200.0,
    spacing_rule="none",
    spacing_chosen_by="E. Invented, engineer",
    port_kind="surface",
    resin_id="resin-1",
    note="",
    is_invented=True,
    created_by="",
    created_at=datetime(2026, 3, 2),
)
SHEET = Sheet(viscosity_pa_s=0.4, gel_time_min=70.0, pot_life_min=30.0, max_pressure_mpa=0.25)
RUN = "019cafe0-0000-7000-8000-000000000001"


@pytest.fixture
def job(app: Flask, ola_id: str) -> str:
    """The job's address; its resin's sheet gives what the model needs."""
    resin = Resin("resin-1", "Tern (invented)", "sheet", SHEET, True, ola_id, WALL.created_at)
    with app.app_context(), writing() as connection:
        keep_resin(connection, resin)
        keep_job(connection, replace(WALL, created_by=ola_id))
    return "/practice-crack/jobs/job-1"


def words(page: str) -> str:
    return unescape(re.sub(r"<[^>]+>", " ", page))


def test_the_page_says_model_not_wall_and_what_is_assumed(ola: FlaskClient, job: str):
    ola.post("/show", data={"units": "metric"})
    page = words(ola.get(job).get_data(as_text=True))
    assert "A model, not the wall." in page
    assert "The engineer decides the spacing." in page
    for size in ("1200 mm", "250 mm", "0.4 mm", "7, 200 mm apart", "400 mPa·s", "70 min"):
        assert size in page
    assert "One mean width" in page or "one mean width" in page
    assert "invented figure" not in page  # the sheet gave all the model needs
    assert job in ola.get("/practice-crack").get_data(as_text=True)


def test_a_trainer_tries_another_spacing_on_the_measured_crack(app: Flask, cast, job: str):
    cast.add("tom.trainer", "trainer")
    tom = cast.sign_in("tom.trainer")
    answer = tom.post(job, data={"spacing": "10 in", "run": RUN})
    assert answer.location == f"/practice-crack/runs/{RUN}"
    with app.app_context(), reading() as connection:
        crack = crack_from(run_by_id(connection, RUN).setup)
    # At most 254 mm apart on 1200 mm: five gaps of 240 mm (ports-ends-junctions).
    assert [round(port.at_m, 6) for port in crack.ports] == [0, 0.24, 0.48, 0.72, 0.96, 1.2]
    assert (crack.depth_m, crack.widths[0].width_m) == (0.25, 0.0004)
    assert (crack.resin.viscosity_pa_s, crack.resin.gel_time_s) == (0.4, 4200)
    assert crack.port_limit_pa == 250_000
    assert "Mill Pond" in tom.get(answer.location).get_data(as_text=True)


def test_sent_twice_it_is_one_run_and_nobody_elses(ola: FlaskClient, cast, job: str):
    data = {"spacing": "200 mm", "run": RUN}
    first = ola.post(job, data=data).location
    assert ola.post(job, data=data).location == first
    cast.add("per.other")
    other = cast.sign_in("per.other")
    theirs = other.post(job, data=data).location
    assert theirs != first
    assert other.get(first).status_code == 404


@pytest.mark.parametrize("typed", ["", "abc", "1,5 in", "-3 in", "0 in", "3 psi", "1000000 m"])
def test_a_spacing_that_is_none_is_refused_beside_its_field(ola: FlaskClient, job: str, typed: str):
    answer = ola.post(job, data={"spacing": typed, "run": "garbage"})
    assert answer.status_code == 422
    assert "spacing-error-1" in answer.get_data(as_text=True)


def test_practice_on_a_job_is_no_set_crack_done(ola: FlaskClient, job: str):
    location = ola.post(job, data={"spacing": "200 mm", "run": RUN}).location
    ola.post(location, data={"act": "move", "number": 1, "port": 1})
    ola.post(location, data={"act": "pump", "number": 2})
    opened = ola.post(location + "/opened")
    page = ola.get(opened.location).get_data(as_text=True)
    assert "Behind the wall" in page
    assert 'href="/practice-crack/jobs/job-1"' in page
    assert "0 of 12 cracks done" in ola.get("/practice-crack").get_data(as_text=True)


def test_the_seed_of_the_roughness_is_the_runs_own():
    one, same = (job_crack(WALL, SHEET, 200, RUN).crack for _ in range(2))
    other = job_crack(WALL, SHEET, 200, new_id()).crack
    assert one == same
    assert one.roughness.seed != other.roughness.seed


def test_what_the_sheet_leaves_out_is_named():
    bare = job_crack(WALL, Sheet(), 200, RUN)
    assert {"viscosity", "gel", "limit"} <= set(bare.assumed)
    by_pot_life = job_crack(WALL, Sheet(pot_life_min=40.0), 200, RUN)
    assert by_pot_life.crack.resin.gel_time_s == 2400
    assert "gel" not in by_pot_life.assumed


def test_a_long_crack_is_practised_on_a_stretch_of_twelve_ports():
    made = job_crack(replace(WALL, length_mm=9000.0, port_kind="drilled"), SHEET, 300, RUN)
    assert (made.count, made.length_mm) == (12, 3300)
    assert {"stretch", "surface-ports"} <= set(made.assumed)
    assert made.crack.length_m == pytest.approx(3.3)


def test_no_such_job_is_not_found(ola: FlaskClient):
    assert ola.get("/practice-crack/jobs/none").status_code == 404
    assert ola.post("/practice-crack/jobs/none").status_code == 404
