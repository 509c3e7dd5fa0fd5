"""What is missing, for everybody who is not qualified, and the chain behind an answer, by page."""

import re
from html import unescape

from dateutil.relativedelta import relativedelta

from app.records.events import Grant, Training

PUMP = "pump-operator"


def words(answer, code: int = 200) -> str:
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == code, page
    inside = page.split("<main")[1].split("<footer")[0]
    return " ".join(re.sub(r"<[^>]+>", " ", inside).split())


def test_everybody_who_lacks_something_is_listed_with_what(firm, olga):
    firm.teach("ben", "2026-02-02")
    firm.watch("ben", "tomas", "2026-02-10")
    page = words(olga.get("/missing", query_string={"qualification": PUMP}))
    assert "Pump operator. As of 2 Mar 2026, as known now: 3 people are not qualified" in page
    about = page.split("Ben Invented")[1].split("Tomas Invented")[0]
    # Two supervised repairs by two trainers: content/qualifications.yaml.
    assert "1 of 2 supervised repairs count." in about
    assert "Trainers who signed those repairs: 1 of 2." in about
    assert "A safety officer has to grant it." in about
    assert "Training is missing in “Safety gear”, “Purging and checking the pump”" in page


def test_whoever_is_qualified_is_only_counted_and_who_was_once_comes_first(firm, olga, cast):
    firm.people["zoe"] = cast.add("zoe", "worker", printed_name="Zoe Invented")
    for name in ("ben", "zoe"):
        firm.ready(name)
        firm.decide("grant", olga, person=name)
    firm.decide("suspend", olga, person="zoe")
    page = words(olga.get("/missing", query_string={"qualification": PUMP}))
    assert "3 people are not qualified, one is." in page
    assert "Ben Invented" not in page
    assert page.index("Zoe Invented") < page.index("Tomas Invented")
    about = page.split("Zoe Invented")[1].split("Tomas")[0]
    assert "Suspended from 2 Mar 2026 by Olga Invented." in about
    assert "A safety officer has to lift the suspension." in about
    # As of the day before, nobody was; as known then, too.
    page = words(olga.get("/missing", query_string={"qualification": PUMP, "as_of": "2026-03-01"}))
    assert "4 people are not qualified, 0 are." in page
    asked = {"qualification": PUMP, "known_on": "2026-03-01"}
    page = words(olga.get("/missing", query_string=asked))
    assert "as known on 1 Mar 2026: 4 people are not qualified" in page


def test_it_opens_for_the_first_qualification_and_refuses_nonsense(firm, olga):
    assert "Preparation hand." in words(olga.get("/missing"))
    for query, sentence in (
        ({"qualification": "astronaut"}, "Not a valid choice"),
        ({"as_of": "never"}, "Write the day as year-month-day"),
        ({"known_on": "2026-03-03"}, "This day is still to come."),
    ):
        assert sentence in words(olga.get("/missing", query_string=query), 422)


def test_it_is_cut_into_pages(firm, olga, monkeypatch):
    monkeypatch.setattr("app.officer.board.missing_pages.PEOPLE_ON_A_PAGE", 2)
    page = words(olga.get("/missing"))
    assert "Page 1 of 2" in page
    assert "Ben Invented" not in page  # has nothing on record yet, so comes last
    assert "Ben Invented" in words(olga.get("/missing?page=2"))


def test_the_chain_names_who_signed_by_what_right_and_how_long_it_lasts(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    job = firm.use("ben", "uma", "2026-03-01")
    answer = olga.get(f"/people/{firm.people['ben']}")
    page = words(answer)
    assert "Granted: Pump operator , 2 Mar 2026, by Olga Invented (by the rules of 2026-2)" in page
    assert "10 Feb 2026, signed by Tomas Invented" in page
    # The firm's trainers were authorised on 1 January 2020.
    assert "Tomas Invented was authorised to sign for it: Trainer authorised: Pump operator" in page
    assert page.count("1 Jan 2020") == 2
    # By dateutil: 24 months from the grant, 6 months from the verified job.
    grant = next(e for e in firm.events() if isinstance(e, Grant))
    end = grant.occurred_on + relativedelta(months=24)
    assert (
        f"The grant of 2 Mar 2026 is good for 24 months: through {end.day} Mar {end.year}" in page
    )
    assert "Work that counts keeps it up for 6 months: through 1 Sep 2026." in page
    assert "The last that counts: Verified job: Pump operator" in page
    assert f'href="/records/{job}"' in answer.get_data(as_text=True)
    assert "1 Mar 2026, signed by Uma Invented." in page
    assert "Made on 2 Mar 2026, 09:00 EST by Olga Invented." in page


def test_before_any_job_the_latest_repair_keeps_it_up(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    page = words(olga.get(f"/people/{firm.people['ben']}"))
    assert "Work that counts keeps it up for 6 months: through 20 Aug 2026." in page
    assert "The last that counts: Supervised repair: Pump operator" in page


def test_whoever_taught_is_named(firm, olga):
    firm.record(
        Training, "2026-02-02", person=firm.people["ben"], module="safety-gear", revision=1,
        trainer=firm.people["uma"], recorded_by=firm.people["uma"],
    )  # fmt: skip
    page = words(olga.get(f"/people/{firm.people['ben']}"))
    assert "Training: Safety gear, revision 1 , 2 Feb 2026, taught by Uma Invented" in page


def test_the_board_leads_to_it_with_its_clocks(firm, olga):
    page = olga.get("/board?as_of=2026-03-01&known_on=2026-03-02").get_data(as_text=True)
    assert 'href="/missing?as_of=2026-03-01&amp;known_on=2026-03-02"' in page
