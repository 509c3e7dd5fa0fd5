"""A trainer types what a card is worked out with; what can't be read is kept beside its field."""

import re

import pytest

from app.database import reading
from app.workbook.card_plans import card_plan_of
from tests.trainer.card_reading import OPTIONS, lines, plain


def kept(yard, job: str) -> dict[str, str]:
    with yard.app.app_context(), reading() as connection:
        plan = card_plan_of(connection, job)
    return plan.typed if plan else {}


def send(yard, job: str, typed: dict[str, str]):
    return yard.client.post(f"/jobs/{job}/card/options", data=typed)


def field_text(page: str, name: str) -> str:
    """The field's part of the page, from its label to the next field."""
    start = page.index(f'for="{name}"') if f'for="{name}"' in page else page.index(f'id="{name}"')
    return re.split(r'<(?:div|fieldset) class="field|</form>', page[start:])[0]


def test_what_is_typed_is_kept_as_it_was_typed_and_shown_again(yard):
    job = yard.new_job()
    send(yard, job, OPTIONS)
    assert kept(yard, job) == OPTIONS
    page = yard.page(f"/jobs/{job}/card/options")
    assert 'value="0.2 MPa"' in page
    assert "We read 31 °C" in plain(page)
    assert 'value="08:30"' in page


def test_saving_again_replaces_what_was_there(yard):
    job = yard.new_job()
    send(yard, job, OPTIONS)
    send(yard, job, {"waste": "10"})
    assert kept(yard, job) == {"waste": "10"}
    assert lines(yard.page(f"/jobs/{job}/card"))["Left in mixer and tube"].startswith("missing")


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("pressure_mpa", "0,2", "What does the comma in “0,2” mean?"),
        ("pressure_mpa", "30", "30 what? Add the unit"),
        ("pressure_mpa", "31 MPa", "We read 31 MPa. It must lie from"),
        ("waste", "300", "It must lie from"),
        ("resin_temperature_c", "90 C", "We read 90 °C. It must lie from"),
        ("mixers", "1.5", "is not a whole number"),
        ("mixer_diameter_mm", "-3 mm", "is below zero"),
        ("port_opening_mm", "20 cm", "It must lie from"),
        ("space_ml", "5 mL", "It must lie from"),
        ("start", "half past", "Type a time like 14:05."),
        ("path", "0, 0", "A line needs two points or more."),
        ("path", "0, 0; 0, 12", "12 what? Add the unit"),
        ("path", "0, 0; 0, 12, 3", "is not a point"),
        ("gauges", "0, 1 mm", "Gauge two places or more"),
    ],
)
def test_what_cannot_be_read_is_kept_beside_its_field(yard, name: str, typed: str, said: str):
    job = yard.new_job()
    answer = send(yard, job, {name: typed})
    page = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert said in plain(field_text(page, name))
    assert typed in field_text(page, name)
    assert kept(yard, job) == {}


@pytest.mark.parametrize(
    ("typed", "name", "said"),
    [
        ({"path": "ft: 0, 0; 0, 10"}, "path", "10 ft long, the job says 12 ft"),
        (
            {"branches": "ft: 1, 1; 2, 2"},
            "branches",
            "Branch number 1 does not touch the crack.",
        ),
        ({"islands": "ft: 1, 1; 2, 2"}, "islands", "Island number 1 does not touch the crack."),
        ({"gauges": "0, 20 mil; 6 ft, 10 mil"}, "gauges", "the first place is 0, the last 12 ft"),
        (
            {"gauges": "0, 20 mil; 8 ft, 9 mil; 7 ft, 9 mil; 12 ft, 10 mil"},
            "gauges",
            "Each place must lie beyond the one before.",
        ),
        ({"start_at": "widest"}, "start_at", "Where is the crack widest?"),
        (
            {"island_spacing_mm": "4 in"},
            "island_spacing_mm",
            "We read 4 in. It must lie from",
        ),
        ({"path": "in: 0, 0; 0, 72; 0, 72.01; 0, 144"}, "path", "This line can't be drawn."),
    ],
)
def test_what_does_not_go_with_the_crack_is_refused_beside_its_field(
    yard, typed: dict[str, str], name: str, said: str
):
    job = yard.new_job()
    answer = send(yard, job, typed)
    assert answer.status_code == 422
    assert said in plain(field_text(answer.get_data(as_text=True), name))
    assert kept(yard, job) == {}


def test_branches_and_islands_get_ports_and_count_in_the_volume(yard):
    job = yard.new_job()
    typed = {
        "path": "ft: 0, 0; 0, 12",
        "branches": "ft: 0, 6; 2, 6",
        "islands": "ft: 0, 8; 0.3, 8.5; 0, 9",
    }
    answer = send(yard, job, typed)
    assert answer.status_code == 303
    page = yard.page(f"/jobs/{job}/card")
    log = re.findall(r'<th scope="row">(\d+)</th><td class="num">([^<]+)</td>', page)
    places = [where for _, where in log]
    assert [int(n) for n, _ in log] == list(range(1, len(log) + 1))
    assert "branch 1, 2 ft" in places  # its end has a port
    assert any(where.startswith("island 1") for where in places)
    # 12 ft, the branch of 2 ft and two strands of √(0.3² + 0.5²) ft, at the job's depth and width.
    length = (12 + 2 + 2 * (0.3**2 + 0.5**2) ** 0.5) * 304.8
    fl_oz = length * 152.4 * 0.508 / 1000 / 29.5735295625
    assert lines(page)["The crack itself"] == f"{fl_oz:.1f} fl oz"
    assert "Branches and islands are counted at the depth and mean width" in plain(page)


def test_work_on_a_slab_may_begin_at_the_widest_part(yard):
    job = yard.new_job(orientation="horizontal", length="2 ft", spacing="6 in")
    typed = {"gauges": "0, 10 mil; 1 ft, 30 mil; 2 ft, 10 mil", "start_at": "widest"}
    assert send(yard, job, typed).status_code == 303
    page = yard.page(f"/jobs/{job}/card")
    first = re.findall(r'<th scope="row">1</th><td class="num">([^<]+)</td>', page)
    assert first[-1] == "12 in"


def test_another_trainer_sees_who_typed_it(yard, cast):
    job = yard.new_job()
    send(yard, job, {"waste": "10"})
    other = cast.sign_in("tom.trainer").get(f"/jobs/{job}/card").get_data(as_text=True)
    assert "Typed by Ana.Trainer Invented" in plain(other)


def test_a_job_that_is_not_there_has_no_card(yard):
    assert yard.client.get("/jobs/none/card").status_code == 404
    assert yard.client.get("/jobs/none/card/options").status_code == 404
