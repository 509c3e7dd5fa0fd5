"""Which hands a job needs is chosen, stands in the address, and decides who fills what."""

import re
from html import unescape

import pytest
from flask import Flask
from sqlalchemy import update

from app.curriculum.loading.crew import crew_in
from app.database import reading, writing
from app.workbook.jobs import all_jobs
from app.workbook.tables import job
from tests.officer.crew_asking import ask, row, sentences


def chosen(page: str) -> str:
    """The set that is ticked in the form."""
    (found,) = re.findall(r'<input checked[^>]*name="hands"[^>]*value="([^"]*)"', page)
    return found


def caption(page: str) -> str:
    return re.search(r"<caption>(.*?)</caption>", page)[1]


@pytest.fixture
def path(wall) -> str:
    return f"/crews/{wall}"


def test_an_address_without_a_set_means_the_default(olga, path, crew):
    page = ask(olga, path, crew["jon"], crew["ida"])
    assert chosen(page) == "one-pump"
    named = ask(olga, path, crew["jon"], crew["ida"], hands="one-pump")
    main = [one.split('class="crew-answer"')[1].split("</main>")[0] for one in (page, named)]
    assert main[0] == main[1]
    assert caption(page) == "Hands the job needs: One pump"


def test_two_pumps_take_two_at_the_pumps(olga, path, crew):
    page = ask(olga, path, crew["jon"], crew["ida"], hands="two-pumps")
    assert sentences(page) == [
        "This crew can't do the job on 10 Mar 2026.",
        "Missing: a pump operator. Jon Invented is one too, but is needed as a lead injector, and "
        "nobody can be in two places. Could cover it: Kaya Invented.",
    ]
    assert row(page, "Pump operator") == ["2", "Ida Invented missing"]
    assert caption(page) == "Hands the job needs: Two pumps"
    full = ask(olga, path, crew["jon"], crew["ida"], crew["kaya"], hands="two-pumps")
    assert row(full, "Pump operator") == ["2", "Ida Invented, Kaya Invented"]
    assert "This crew can do the job on 10 Mar 2026." in full


def test_cartridges_by_hand_need_no_pump_operator(olga, firm, path, crew):
    firm.ready("ben", "preparation-hand")
    firm.decide("grant", olga, person="ben", qualification="preparation-hand")
    page = ask(olga, path, crew["jon"], crew["ben"], hands="hand-cartridges")
    assert sentences(page) == ["This crew can do the job on 10 Mar 2026."]
    assert row(page, "Preparation hand") == ["1", "Ben Invented"]
    assert "Pump operator</th>" not in page
    assert "Missing: a pump operator" in ask(olga, path, crew["jon"], crew["ben"])


def test_overhead_takes_one_hand_more(olga, path, crew):
    page = ask(olga, path, crew["jon"], crew["ida"], hands="overhead")
    assert "Missing: a preparation hand. Jon Invented is one too" in sentences(page)[1]
    assert row(page, "Preparation hand") == ["1", "missing"]
    assert len(row(page, "Ida Invented")) == 5  # what they do, three hands, the gear


def test_the_choice_tells_the_hands_and_the_list_says_who_can_fill_them(olga, path, crew):
    page = unescape(olga.get(path).get_data(as_text=True)).replace("\u00a0", " ")
    assert "Two pumps (1 × Lead injector, 2 × Pump operator)" in page
    assert "Jon Invented · Pump operator, Lead injector" in page
    by_hand = unescape(olga.get(f"{path}?hands=hand-cartridges").get_data(as_text=True))
    assert chosen(by_hand) == "hand-cartridges"
    assert "Jon Invented · Preparation hand, Lead injector" in by_hand


@pytest.mark.parametrize("wrong", ["astronauts", "x" * 3000, "'; --", "one-pump,two-pumps"])
def test_hands_nobody_knows_get_a_sentence(olga, path, crew, wrong):
    page = ask(olga, path, crew["jon"], code=422, hands=wrong)
    assert "The rules in force know no such hands. Choose them again." in page
    assert "can do the job" not in page


def test_a_job_that_says_which_hands_it_needs_starts_with_them(olga, firm, app, wall, crew):
    with app.app_context(), writing() as connection:
        connection.execute(update(job).where(job.c.id == wall).values(crew_set="two-pumps"))
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["ida"])
    assert chosen(page) == "two-pumps"
    assert chosen(ask(olga, f"/crews/{wall}", crew["jon"], hands="overhead")) == "overhead"
    of_job = firm.sign_in("tomas").get(f"/jobs/{wall}").get_data(as_text=True)
    assert "Two pumps" in of_job


def test_a_set_that_is_gone_falls_back_on_the_default(olga, app, wall, crew):
    with app.app_context(), writing() as connection:
        connection.execute(update(job).where(job.c.id == wall).values(crew_set="three-pumps"))
    assert chosen(ask(olga, f"/crews/{wall}", crew["jon"])) == "one-pump"


def test_it_is_told_in_spanish(olga, path, crew):
    olga.post("/show", data={"language": "es"})
    page = ask(olga, path, crew["jon"], crew["ida"], hands="two-pumps")
    assert caption(page) == "Puestos que pide el trabajo: Dos bombas"
    words = page.replace("\u00a0", " ")
    assert "Dos bombas (1 × Encargado de inyección, 2 × Operador de bomba)" in words


def test_a_policy_from_before_there_were_sets_is_asked_as_it_was(olga, app: Flask, path, crew):
    old = b"""crew_version: "2025-1"
everyone:
  - module: safety-gear
    title: {en: Safety gear}
    quiz_months: 12
hands:
  - qualification: pump-operator
    one: {en: a pump operator}
"""
    shelf = app.extensions["lowport_texts"]
    known = crew_in({"crew.yaml": old}, shelf.files.qualifications)
    shelf._crews[shelf.files.policy_hash] = known
    page = ask(olga, path, crew["ida"])
    assert "This crew can do the job on 10 Mar 2026." in page
    assert caption(page) == "Hands the job needs"
    assert 'name="hands"' not in page


def test_a_trainer_says_it_when_the_job_is_opened(firm, app, wall):
    tomas = firm.sign_in("tomas")
    page = unescape(tomas.get("/jobs/new").get_data(as_text=True))
    assert re.search(r'<input checked[^>]*name="crew_set"[^>]*value="one-pump"', page)
    with app.app_context(), reading() as connection:
        (first,) = all_jobs(connection)
    sizes = {"length": "12 ft", "width": "20 mil", "thickness": "8 in", "spacing": "4 in"}
    form = {
        "site": "Mill (invented)", "structure": "Ceiling", "orientation": "overhead",
        "access": "one", "is_full": "y", "port_kind": "surface", "spacing_rule": "none",
        "spacing_chosen_by": "E. Invented", "resin": first.resin_id, "act": "open", **sizes,
    }  # fmt: skip
    wrong = tomas.post("/jobs/new", data={**form, "crew_set": "astronauts"})
    assert wrong.status_code == 422
    assert "The rules in force know no such hands." in wrong.get_data(as_text=True)
    answer = tomas.post("/jobs/new", data={**form, "crew_set": "overhead"})
    assert answer.status_code == 303, answer.get_data(as_text=True)
    assert tomas.post("/jobs/new", data=form).status_code == 303
    with app.app_context(), reading() as connection:
        assert sorted(one.crew_set for one in all_jobs(connection)) == ["", "", "overhead"]
