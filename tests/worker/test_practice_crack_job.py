"""Free practice on the crack measured for a job: the sizes, the spacing tried, what is assumed."""

import math
import re
from dataclasses import replace
from datetime import datetime
from html import unescape

import numpy as np
import pytest
from flask import Flask
from flask.testing import FlaskClient

from app.database import reading, writing
from app.ids import new_id
from app.trade.fill import run as fill
from app.trade.set_cracks import by_the_book
from app.workbook.card_plans import keep_card_plan
from app.workbook.jobs import Job, keep_job
from app.workbook.practice_runs import run_by_id
from app.workbook.resins import Resin, Sheet, keep_resin
from app.worker.practice.face import volume_ml
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
    assert "one mean width" in page
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


GAUGED = {"gauges": "0, 0.6 mm; 600 mm, 0.5 mm; 1200 mm, 0"}


def test_gauged_widths_of_the_card_are_the_cracks_own():
    made = job_crack(WALL, SHEET, 200, RUN, GAUGED)
    assert [(one.at_m, one.width_m) for one in made.crack.widths] == [
        (0, 0.0006),
        (0.6, 0.0005),
        (1.2, 0.00001),  # closed: the narrowest that the model takes
    ]
    assert {"gauged", "no-branches"} <= set(made.assumed)
    # Geometry: trapezoids by numpy, times length and depth.
    area = float(np.trapezoid([0.6, 0.5, 0.01], [0, 600, 1200]))
    assert volume_ml(made.crack) == pytest.approx(area * 250 / 1000)


def test_gauged_widths_end_where_a_stretch_ends():
    typed = {"gauges": "0, 0.6 mm; 4 m, 0.5 mm; 9 m, 0.2 mm"}
    made = job_crack(replace(WALL, length_mm=9000.0), SHEET, 300, RUN, typed)
    assert made.length_mm == 3300
    assert [one.at_m for one in made.crack.widths] == [0]


BRANCHED = {
    "branches": "mm: 0, 600; 300, 900",
    "islands": "mm: 0, 200; 100, 300; 0, 400",
}


def test_branches_and_islands_of_the_card_are_strips_with_ports():
    made = job_crack(WALL, SHEET, 400, RUN, BRANCHED)
    branch, island = made.crack.branches
    # Pythagoras: 300 mm across and 300 mm up; 100 mm across and 100 mm up, twice.
    assert (branch.at_m, branch.length_m) == (0.6, pytest.approx(math.sqrt(0.18)))
    assert branch.rise == pytest.approx(math.sqrt(0.5))
    assert (island.at_m, island.rejoins_m) == (0.2, 0.4)
    assert island.length_m == pytest.approx(2 * math.sqrt(0.02))
    # UFGS 03930 §3.3.4, by hand: ports at the ends, 0 and 1200 mm and the branch's tip, and at the
    # junctions, 200, 400 and 600 mm; one between where a stretch is longer than its spacing, which
    # is half of 400 mm beside the island.
    on_main = sorted(round(port.at_m, 6) for port in made.crack.ports if port.strip == 0)
    assert on_main == [0, 0.2, 0.4, 0.6, 0.9, 1.2]
    on_branch = sorted(port.at_m for port in made.crack.ports if port.strip == 1)
    assert on_branch == pytest.approx([branch.length_m / 2, branch.length_m])
    assert [port.at_m for port in made.crack.ports if port.strip == 2] == pytest.approx(
        [island.length_m / 2]
    )
    assert "branches-alike" in made.assumed


def test_a_branch_drawn_towards_the_crack_is_the_same_branch():
    typed = BRANCHED | {
        "branches": "mm: 300, 900; 0, 600",
        "islands": "mm: 0, 400; 100, 300; 0, 200",
    }
    turned, straight = (job_crack(WALL, SHEET, 400, RUN, one).crack for one in (typed, BRANCHED))
    assert turned.branches == straight.branches
    assert {(p.strip, round(p.at_m, 9)) for p in turned.ports} == {
        (p.strip, round(p.at_m, 9)) for p in straight.ports
    }


@pytest.mark.parametrize(
    "branches",
    [
        "mm: 0, 600; 300, 900\nmm: 300, 900; 600, 900",  # a branch of a branch
        "mm: -100, 600; 100, 700",  # across the crack
        "mm: 200, 600; 300, 900",  # touches nothing
        "mm: 0, 600; 9000, 600",  # too many ports
    ],
)
def test_what_the_model_does_not_know_is_left_out_and_said(branches: str):
    made = job_crack(WALL, SHEET, 200, RUN, {"branches": branches})
    assert "branches-left-out" in made.assumed
    assert made.crack.branches == ()
    assert made.crack == job_crack(WALL, SHEET, 200, RUN).crack


def test_a_card_that_can_no_longer_be_read_is_as_if_nothing_were_known():
    typed = {"path": "over there", "gauges": "wide", "branches": "?"}
    assert job_crack(WALL, SHEET, 200, RUN, typed) == job_crack(WALL, SHEET, 200, RUN)


def test_the_branched_crack_can_be_filled_by_the_book():
    crack = job_crack(WALL, SHEET, 400, RUN, BRANCHED).crack
    behind = fill(crack, by_the_book(crack)).behind
    assert behind.filled_share > 0.9


def test_the_page_takes_lines_and_gauges_from_the_jobs_card(app: Flask, ola, ola_id: str, job: str):
    ola.post("/show", data={"units": "metric"})
    with app.app_context(), writing() as connection:
        keep_card_plan(connection, "job-1", GAUGED | BRANCHED, ola_id, WALL.created_at)
    page = words(ola.get(job).get_data(as_text=True))
    assert "0.01 mm to 0.6 mm" in page
    assert "The branches are left out: too many ports" in page  # at the job's own 200 mm
    run = ola.post(job, data={"spacing": "400 mm", "run": RUN}).location
    with app.app_context(), reading() as connection:
        crack = crack_from(run_by_id(connection, RUN).setup)
    assert crack == job_crack(WALL, SHEET, 400, RUN, GAUGED | BRANCHED).crack
    assert ola.get(run).status_code == 200


def test_no_such_job_is_not_found(ola: FlaskClient):
    assert ola.get("/practice-crack/jobs/none").status_code == 404
    assert ola.post("/practice-crack/jobs/none").status_code == 404
