"""The crew check by page: the answer in sentences, what is missing, and who could cover it.

The needs are those of content/crew.yaml: a lead injector, a pump operator, safety gear for all.
"""

import re
from html import unescape

from app.database import writing
from app.demo.loading import load_demo
from app.ids import new_id
from app.records.events import CounterEntry, IdentityMerged
from tests.officer.crew_asking import PUMP, ask, row, sentences


def test_a_crew_that_can_do_the_job(olga, wall, crew):
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["ida"])
    assert sentences(page) == ["This crew can do the job on 10 Mar 2026."]
    assert row(page, "Lead injector") == ["1", "Jon Invented"]
    assert row(page, "Pump operator") == ["1", "Ida Invented"]
    assert row(page, "Safety gear") == ["everyone", "everyone"]
    # Six months after the last watched repair, 20 February 2026 (rule 8).
    good = "Current good through 20 Aug 2026"
    assert row(page, "Jon Invented") == ["Lead injector", good, good, "Shown"]
    assert "Runs out first in this crew: Ida Invented, Pump operator, after 20 Aug 2026." in page


def test_what_is_missing_why_and_who_could_cover_it(olga, wall, crew):
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["ben"])
    assert sentences(page) == [
        "This crew can't do the job on 10 Mar 2026.",
        "Missing: a pump operator. Jon Invented is one too, but is needed as a lead injector, and "
        "nobody can be in two places. Could cover it: Ida Invented, Kaya Invented.",
    ]
    assert row(page, "Pump operator") == ["1", "missing"]
    why = "Not qualified Nobody has granted this qualification."
    assert row(page, "Ben Invented") == ["Helps", why, why, "Shown"]


def test_with_places_changed_somebody_else_could_help(olga, wall, crew, firm, cast):
    firm.people["una"] = cast.add("una", "worker", printed_name="Una Invented")
    for qualification in ("preparation-hand", PUMP, "lead-injector"):
        firm.ready("una", qualification)
        firm.decide("grant", olga, person="una", qualification=qualification)
    # Una's pump is taken away; Jon goes to the pump, if Una leads.
    firm.decide("suspend", olga, person="una", qualification=PUMP)
    page = ask(olga, f"/crews/{wall}", crew["jon"])
    assert "If the crew changes places, as a lead injector: Una Invented." in sentences(page)[1]


def test_nobody_could_cover_it(olga, wall, crew):
    page = ask(olga, f"/crews/{wall}", crew["ida"])
    assert "Missing: a lead injector. Could cover it: Jon Invented." in sentences(page)
    page = ask(olga, f"/crews/{wall}", crew["ida"], as_of="2026-08-21")  # all lapsed by then
    assert "Missing: a lead injector. Nobody outside this crew could cover it" in page
    assert (
        "Lapsed: no counted repair or verified job by 20 Aug 2026." in row(page, "Ida Invented")[2]
    )


def test_somebody_without_the_gear_stops_the_crew(olga, wall, crew):
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["ida"], crew["nia"])
    assert sentences(page) == [
        "This crew can't do the job on 10 Mar 2026.",
        "Everyone on the job must have shown this: Safety gear. May not come along yet: "
        "Nia Invented. The table says why.",
        "Without them this crew can do the job.",
    ]
    assert row(page, "Nia Invented")[0] == "May not come"
    assert row(page, "Nia Invented")[3].startswith(
        "Not shown Training in “Safety gear” is missing."
    )


def test_both_clocks_are_asked_and_told(olga, firm, wall, crew, clock):
    held = next(e.id for e in firm.of_kind("grant") if e.person == crew["ida"])
    firm.record(
        CounterEntry, "2026-03-05", person=crew["ida"], target=held, reason="Wrong person picked."
    )
    clock.pass_time(days=10)
    olga = firm.sign_in("olga")
    now = ask(olga, f"/crews/{wall}", crew["jon"], crew["ida"], as_of="2026-03-10")
    assert "Missing: a pump operator" in now
    assert "As of 10 Mar 2026, as known now." in now
    then = ask(
        olga, f"/crews/{wall}", crew["jon"], crew["ida"], as_of="2026-03-10", known_on="2026-03-04"
    )
    assert "This crew can do the job on 10 Mar 2026." in then
    assert "As of 10 Mar 2026, as known on 4 Mar 2026." in then


def test_the_sheet_says_what_it_was_made_from_and_has_lines_to_sign_on(olga, wall, crew, app):
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["ida"])
    assert "Made on 2 Mar 2026, 09:00 EST by Olga Invented." in page
    assert "Needed hands: version 2026-1; qualifications: version 2026-2." in page
    # Origin, number of records, root: C2SP tlog-checkpoint.
    line = re.sub(r"<wbr>", "", page.split("Checkpoint of the records:")[1].split("</p>")[0])
    assert re.fullmatch(r"\s*lowport/[0-9a-f]{16} \d+ [A-Za-z0-9+/]{43}=\s*", line), line
    lines = page.split('class="sign-lines"')[1].split("</dl>")[0]
    assert lines.count("Signed, date") == 3
    assert "Whether the work may start, the engineer and the site decide." in page


def test_bad_questions_get_a_sentence_and_keep_what_was_ticked(olga, wall, crew):
    path, jon = f"/crews/{wall}", crew["jon"]
    page = ask(olga, path, jon, new_id(), code=422)
    assert "Somebody who was ticked is not in the list. Tick the people again." in page
    assert re.search(rf'<input checked[^>]*value="{jon}"', page)
    assert "Tick at least one person." in ask(olga, path, code=422)
    many = ask(olga, path, *(new_id() for _ in range(200)), code=422)
    assert "Tick 8 people at most; that is one sheet." in many
    assert "Write the day as year-month-day" in ask(olga, path, jon, code=422, as_of="soon")
    assert "Check the year." in ask(olga, path, jon, code=422, as_of="0026-03-10")
    assert "This day is still to come." in ask(olga, path, jon, code=422, known_on="2026-03-03")
    assert "can do the job" not in many
    for wrong in ("", "x" * 3000, "'; --"):
        ask(olga, path, wrong, code=422)
    assert olga.get(f"/crews/{new_id()}").status_code == 404
    assert olga.get("/crews/nonsense").status_code == 404


def test_far_days_are_answered(olga, wall, crew):
    for on in ("2000-01-01", "9999-12-31"):
        assert "This crew can't do the job" in ask(olga, f"/crews/{wall}", crew["jon"], as_of=on)


def test_the_same_person_ticked_twice_is_one(olga, wall, crew):
    page = ask(olga, f"/crews/{wall}", crew["jon"], crew["jon"])
    assert "Missing: a pump operator." in page


def test_somebody_entered_twice_is_one_person(olga, firm, wall, crew):
    firm.record(
        IdentityMerged, "2026-03-02", person=crew["jon"], merged=crew["ida"], reason="One man."
    )
    page = olga.get(f"/crews/{wall}").get_data(as_text=True)
    assert "Ida Invented" not in page
    assert "Somebody who was ticked" in ask(
        olga, f"/crews/{wall}", crew["jon"], crew["ida"], code=422
    )


def test_a_first_visit_only_asks_and_a_list_can_be_narrowed(olga, wall, crew):
    page = unescape(olga.get(f"/crews/{wall}").get_data(as_text=True))
    assert "Jon Invented · Pump operator, Lead injector" in page
    assert page.index("Jon Invented") < page.index("Ben Invented")  # who can fill a hand first
    assert "Something needs another look" not in page
    query = {"name": "IDA", "person": crew["nia"], "find": ""}
    page = olga.get(f"/crews/{wall}", query_string=query).get_data(as_text=True)
    assert "Ida Invented" in page
    assert "Nia Invented" in page  # ticked before
    assert "Kaya Invented" not in page
    assert "can do the job" not in page


def test_a_long_list_says_how_many_are_not_shown(olga, wall, crew, monkeypatch):
    monkeypatch.setattr("app.web.crew.pages.MOST_SHOWN", 3)
    page = olga.get(f"/crews/{wall}").get_data(as_text=True)
    assert "4 more people are not shown. Narrow the list by name." in page


def test_whoever_left_is_in_the_list_for_days_gone_by_only(olga, wall, crew, app):
    olga.post(f"/people/{crew['ida']}/account/active", data={})

    def asked(on: str) -> str:
        return olga.get(f"/crews/{wall}", query_string={"as_of": on}).get_data(as_text=True)

    assert "Ida Invented" in asked("2026-03-01")
    assert "Ida Invented" not in asked("2026-03-02")


def test_the_list_of_jobs_leads_to_the_check(olga, firm, wall):
    assert 'href="/crews"' in olga.get("/board").get_data(as_text=True)
    page = olga.get("/crews").get_data(as_text=True)
    assert f'href="/crews/{wall}"' in page


def test_no_job_yet(firm, olga):
    assert "No jobs yet." in olga.get("/crews").get_data(as_text=True)


def test_a_trainer_asks_from_the_jobs_page(firm, wall, crew):
    tomas = firm.sign_in("tomas")
    assert f'href="/jobs/{wall}/crew"' in tomas.get(f"/jobs/{wall}").get_data(as_text=True)
    page = ask(tomas, f"/jobs/{wall}/crew", crew["jon"])
    assert "Missing: a pump operator." in page
    assert f'href="/people/{crew["jon"]}' not in page  # not a trainer's page
    assert tomas.get(f"/crews/{wall}").status_code == 403
    assert tomas.get(f"/jobs/{new_id()}/crew").status_code == 404


def test_the_demo_has_a_job_with_a_hand_missing(app, clock, curriculum):
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": "wall-before-noon"})
    path = re.search(r'href="(/crews/[^"]+)"', client.get("/crews").get_data(as_text=True))[1]
    ids = dict(
        reversed(pair)
        for pair in re.findall(
            r'value="([0-9a-f-]{36})"><span>(\w+) ', client.get(path).get_data(as_text=True)
        )
    )
    page = ask(client, path, ids["Jon"], ids["Elsa"], as_of="2026-03-03")
    assert "Could cover it: Cora Legend, Kaya Limerick." in sentences(page)[1]
    assert "Suspended from" in row(page, "Elsa Rhyme")[2]
