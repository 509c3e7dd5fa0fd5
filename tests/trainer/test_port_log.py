"""The port log and the pot-life clock while a repair is watched."""

from itertools import pairwise

import pytest

from tests.trainer.conftest import text


@pytest.fixture
def repair(yard) -> str:
    yard.authorise("ana.trainer", "lead-injector")
    return yard.started(qualification="lead-injector")


def test_lines_in_order_and_under_the_limits_have_no_remark(yard, repair):
    # 12 ft at 3 in: 48 gaps, 49 ports (assessment: a port at both ends).
    assert "Planned order, 49 ports" in text(yard.client.get(f"/repairs/{repair}/ports"))
    answer = yard.post(
        f"/repairs/{repair}/ports",
        port="1", opened_at="09:05", next_showed_at="09:14", pressure="20",
    )  # fmt: skip
    assert answer.status_code == 303
    page = text(yard.client.get(f"/repairs/{repair}/ports"))
    assert "Resin showed at port 2 at 09:14 · 20 psi" in page
    assert "The plan had" not in page
    assert "leak" not in page.split("A new line")[0].lower()


def test_pressure_is_judged_by_port_kind_and_by_data_sheet(yard, repair):
    # EM 1110-2-2002 section 6-22c(3)(a): surface ports leaked from 0.3 to 1.0 MPa (50 to 150 psi).
    # trade-facts section 7 number 13: 0.25 normal, 0.35 may leak, 1.1 leaks. Data sheet: 45 psi.
    for pressure in ("0.25 MPa", "0.35 MPa", "1.1 MPa"):
        yard.post(f"/repairs/{repair}/ports", port="1", opened_at="09:05", pressure=pressure)
    page = text(yard.client.get(f"/repairs/{repair}/ports"))
    assert page.count("have leaked at such a pressure") == 1
    assert page.count("leak at such a pressure") == 1
    assert page.count("Over the data sheet's 45 psi") == 2


def test_a_port_out_of_turn_is_remarked_not_refused(yard, repair):
    yard.post(f"/repairs/{repair}/ports", port="1", opened_at="09:05")
    yard.post(f"/repairs/{repair}/ports", port="3", opened_at="09:20")
    assert "The plan had port 2 here." in text(yard.client.get(f"/repairs/{repair}/ports"))


@pytest.mark.parametrize(
    ("runs", "order"),
    [
        # Up a wall the lowest port is first (EM 1110-2-2002 section 6-22c(5)).
        ("vertical", ["1", "2", "3"]),
        # Along a wall either end may begin: from port 49 the plan goes down.
        ("horizontal", ["49", "48", "47"]),
    ],
)
def test_the_next_planned_port_stands_in_the_form(yard, runs, order):
    yard.authorise("ana.trainer", "lead-injector")
    started = yard.start(yard.new_job(orientation=runs), qualification="lead-injector")
    repair = started.location.rsplit("/", 1)[1]
    offered = 'name="port" required type="text" value="{}"'
    assert offered.format("1") in yard.page(f"/repairs/{repair}/ports")
    for port, following in pairwise(order):
        yard.post(f"/repairs/{repair}/ports", port=port, opened_at="09:05")
        assert offered.format(following) in yard.page(f"/repairs/{repair}/ports")


def test_after_the_last_port_none_is_offered(yard, repair):
    yard.post(f"/repairs/{repair}/ports", port="49", opened_at="11:05")
    page = yard.page(f"/repairs/{repair}/ports")
    assert 'name="port" required type="text" value=""' in page
    assert "As planned." not in page


def test_a_line_is_finished_when_resin_shows_and_can_be_struck_out(yard, repair):
    yard.post(f"/repairs/{repair}/ports", port="1", opened_at="09:05", note="slow")
    assert 'value="09:05"' in yard.page(f"/repairs/{repair}/ports/1")
    yard.post(f"/repairs/{repair}/ports/1", port="1", opened_at="09:05", next_showed_at="09:31")
    assert "at 09:31" in text(yard.client.get(f"/repairs/{repair}/ports"))
    yard.post(f"/repairs/{repair}/ports/1/strike")
    assert "opened 09:05" not in text(yard.client.get(f"/repairs/{repair}/ports"))


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("port", "1.5", "is not a whole number"),
        ("port", "0", "It must lie from 1"),
        ("opened_at", "9h", "Type a time like 14:05."),
        ("next_showed_at", "08:50", "That is before the port was opened at 09:05."),
        ("pressure", "20 bananas", "What unit is"),
        ("pressure", "40 MPa", "It must lie from"),
    ],
)
def test_a_line_that_cannot_be_is_kept_beside_its_field(yard, repair, field, typed, sentence):
    good = {"port": "1", "opened_at": "09:05", "note": "by hand"}
    answer = yard.post(f"/repairs/{repair}/ports", **(good | {field: typed}))
    assert answer.status_code == 422
    html = answer.get_data(as_text=True)
    assert f'id="{field}-error-1"' in html
    assert sentence in text(answer)
    assert f'value="{typed}"' in html
    assert 'value="by hand"' in html
    assert "Change it" not in yard.page(f"/repairs/{repair}/ports")


def test_past_midnight_the_next_port_may_show_earlier_by_the_clock(yard, repair):
    answer = yard.post(
        f"/repairs/{repair}/ports", port="1", opened_at="23:55", next_showed_at="00:10"
    )
    assert answer.status_code == 303


def test_the_log_kept_cannot_be_done_while_it_is_empty(yard, repair):
    answer = yard.note(repair, "injection-order", "port-log-kept")
    assert answer.status_code == 422
    assert "The port log is empty." in text(answer)
    yard.post(f"/repairs/{repair}/ports", port="1", opened_at="09:05")
    assert yard.note(repair, "injection-order", "port-log-kept").status_code == 303


def test_the_clock_says_by_when_the_batch_must_be_out(yard, repair):
    # UFGS 09971: halves per 10 °C; the band's factors 1.5 to 2.5 give 30 / 2.5 = 12 to 20 min at
    # 31 °C for 30 min at 21 °C. By the short end, mixed at 09:00 it must be out by 09:12.
    answer = yard.post(f"/repairs/{repair}/batches", mixed_at="09:00", resin_temperature="31 C")
    assert answer.status_code == 303
    page = text(yard.client.get(f"/repairs/{repair}/batches"))
    assert "Out by 09:12" in page
    assert "pot life 12 min to 20 min" in page
    assert "Batch 1 must be out by 09:12." in text(yard.client.get(f"/repairs/{repair}"))
    yard.post(f"/repairs/{repair}/batches/1/strike")
    assert "Out by" not in text(yard.client.get(f"/repairs/{repair}/batches"))


def test_near_midnight_the_batch_is_out_the_next_day(yard, repair):
    yard.post(f"/repairs/{repair}/batches", mixed_at="23:50", resin_temperature="31 C")
    assert "Out by 00:02 (the next day)" in text(yard.client.get(f"/repairs/{repair}/batches"))


def test_a_batch_needs_a_temperature_with_its_unit(yard, repair):
    answer = yard.post(f"/repairs/{repair}/batches", mixed_at="09:00", resin_temperature="31")
    assert answer.status_code == 422
    assert "31 what? Add the unit" in text(answer)
    assert 'value="31"' in answer.get_data(as_text=True)


def test_without_a_pot_life_on_the_sheet_no_time_is_worked_out(yard):
    yard.authorise("ana.trainer", "lead-injector")
    resin = yard.new_resin(name="Gull One (invented)", pot_life_min="")
    repair = yard.start(yard.new_job(resin=resin)).location.rsplit("/", 1)[1]
    yard.post(f"/repairs/{repair}/batches", mixed_at="09:00", resin_temperature="31 C")
    page = text(yard.client.get(f"/repairs/{repair}/batches"))
    assert "The data sheet gives no pot life" in page
    assert "Out by" not in page


def test_log_and_batches_are_signed_with_the_repair(yard):
    repair = yard.started()
    yard.post(
        f"/repairs/{repair}/ports",
        port="1", opened_at="09:05", next_showed_at="09:14", pressure="0.2 MPa", note="slow",
    )  # fmt: skip
    yard.post(f"/repairs/{repair}/batches", mixed_at="09:00", resin_temperature="31 C")
    yard.watch_all(repair)
    yard.sign(repair)
    event = next(e for e in yard.events() if e.id == repair)
    (port,) = event.observation.ports
    assert (port.port, port.next_port, port.shown_at) == (1, 2, "09:14")
    assert port.pressure_mpa == "0.2"
    assert (port.opened_at, port.note) == ("09:05", "slow")
    batch = {m.name: m.value for m in event.observation.measured if m.step == "batch-1"}
    assert batch == {"mixed_at": "540", "resin_temperature": "31"}
    record = text(yard.client.get(f"/repairs/{repair}"))
    assert "Batch 1: A met B at 09:00" in record
