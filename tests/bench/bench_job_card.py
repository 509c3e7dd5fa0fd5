"""Server time of one job card, beside a Flask app that says hello, in the same run.

Both are called as WSGI applications, turn about, so that a busy machine slows both alike. Only the
ratio means something. Wished for: a card under 30 ms.
"""

import statistics
import tempfile
import time
from pathlib import Path

from called_app import caller, cookie_of, demo_app, hello_app

from app.database import db, writing
from app.web.now import system_clock
from app.workbook.card_plans import keep_card_plan
from app.workbook.jobs import Job, all_jobs

ROUNDS = 31
WISHED_MS = 30

TYPED = {
    "resin_temperature_c": "68 F",
    "waste": "15",
    "mixing": "hand",
    "placing_ml_per_min": "1 fl oz/min",
    "tested_ml": "200 mL",
    "start": "08:30",
    "pressure_mpa": "30 psi",
    "port_opening_mm": "1/4 in",
    "hose_diameter_mm": "3/8 in",
    "hose_length_mm": "10 ft",
    "mixer_diameter_mm": "3/8 in",
    "mixer_length_mm": "8 in",
    "tube_diameter_mm": "1/4 in",
    "tube_length_mm": "3 ft",
    "mixers": "2",
    "ratio_tests": "2",
    "per_test_ml": "5 fl oz",
    "physical_samples": "1",
    "per_sample_ml": "2 fl oz",
    "seal_width_mm": "1 1/4 in",
    "seal_thickness_mm": "1/8 in",
    "seal_sides": "1",
    "seal_waste": "20",
    "collar_outer_mm": "2 in",
    "collar_foot_mm": "1 in",
    "collar_height_mm": "1/4 in",
    "grinding": "indoors",
    "grinding_min": "2 h",
    "controls": "yes",
    "wheel_mm": "5 in",
    "solvent": "xylene",
    "space_ml": "1800 ft3",
}


def job_with_most_ports() -> Job:
    """Its card's options are typed too."""
    with writing() as connection:
        job = max(all_jobs(connection), key=lambda job: job.length_mm / job.spacing_mm)
        keep_card_plan(connection, job.id, TYPED, job.created_by, system_clock())
    return job


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        app = demo_app(Path(folder))
        with app.app_context():
            job = job_with_most_ports()
        card = caller(app, f"/jobs/{job.id}/card", {"Cookie": cookie_of(app, "tomas")})
        floor = caller(hello_app(), "/")
        size = card(), floor()
        times: dict[str, list[float]] = {"card": [], "floor": []}
        for _ in range(ROUNDS):
            for name, call in (("card", card), ("floor", floor)):
                start = time.perf_counter()
                call()
                times[name].append((time.perf_counter() - start) * 1000)
        with app.app_context():
            db.engine.dispose()
    middle = {name: statistics.median(found) for name, found in times.items()}
    ratio = middle["card"] / middle["floor"]
    print(f"job card, {job.title}: {size[0] / 1024:.0f} kB")
    print(f"  {middle['card']:.1f} ms, floor {middle['floor']:.3f} ms: {ratio:.0f} times the floor")
    print(f"  wished for: under {WISHED_MS} ms")


if __name__ == "__main__":
    main()
