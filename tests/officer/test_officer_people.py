"""One person's page: every reason with names, the evidence, and all that is on record."""

import re

from app.ids import new_id
from app.records.events import Practical, Use


def said(answer) -> str:
    return answer.get_data(as_text=True)


def page_of(firm, client, name: str = "ben", **query: str) -> str:
    answer = client.get(f"/people/{firm.people[name]}", query_string=query)
    assert answer.status_code == 200
    return said(answer)


def section(page: str, qualification: str) -> str:
    """The words of one qualification's section."""
    inside = re.search(
        rf'<section aria-labelledby="{qualification}">(.*?)</section>', page, re.DOTALL
    )
    assert inside
    return " ".join(re.sub(r"<[^>]+>", " ", inside.group(1)).split())


def test_somebody_new_reads_what_is_missing(firm, olga):
    words = section(page_of(firm, olga), "pump-operator")
    assert "Not qualified" in words
    assert "Nobody has granted this qualification." in words
    title = firm.curriculum.module("pump-purge").lesson("en").title
    assert "Training is missing in “" in words
    assert f"“{title}”" in words
    assert "0 of 2 supervised repairs count." in words
    assert "A safety officer has to grant it." in words


def test_a_grant_shows_the_records_it_rests_on(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    page = page_of(firm, olga)
    words = section(page, "pump-operator")
    assert "Granted on 2 Mar 2026 by Olga Invented." in words
    assert "good for 24 months: through 2 Mar 2028." in words
    assert "What it rests on" in words
    (grant,) = firm.of_kind("grant")
    for record_id in (grant.id, *grant.evidence):
        assert f'href="/records/{record_id}"' in page


def test_what_did_not_count_is_named_with_why(firm, olga):
    tomas = firm.people["tomas"]
    late = firm.record(
        Practical,
        "2026-01-05",
        recorded_on="2026-02-20",
        person=firm.people["ben"],
        qualification="pump-operator",
        trainer=tomas,
        recorded_by=tomas,
        job=new_id(),
    )
    own = firm.record(
        Practical,
        "2026-02-06",
        person=firm.people["ben"],
        qualification="pump-operator",
        trainer=firm.people["ben"],
        recorded_by=firm.people["ben"],
        job=new_id(),
    )
    page = page_of(firm, olga)
    words = section(page, "pump-operator")
    assert "Recorded 46 days after it happened; the limit is 14." in words
    assert "Signed by the person it is about." in words
    assert "Ben Invented was not authorised to sign for this on 6 Feb 2026." in words
    for record_id in (late, own):
        assert f'href="/records/{record_id}"' in page


def test_reasons_carry_names_and_titles_never_ids(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    firm.decide("suspend", olga)
    page = page_of(firm, olga)
    for qualification in firm.curriculum.qualifications:
        words = section(page, qualification)
        assert not re.search(r"[0-9a-f]{8}-[0-9a-f]{4}-", words)
        assert not re.search(r"\d{4}-\d\d-\d\d", words)
    words = section(page, "pump-operator")
    assert "Suspended from 2 Mar 2026 by Olga Invented." in words
    assert "“Seen at the pump house (invented).”" in words
    (suspension,) = firm.of_kind("suspend")
    assert f'href="/records/{suspension.id}"' in page.split('aria-labelledby="preparation-hand"')[0]


def test_the_page_answers_for_another_day_and_another_knowledge(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    assert "Not qualified" in section(page_of(firm, olga, as_of="2026-03-01"), "pump-operator")
    page = page_of(firm, olga, as_of="2026-03-02", known_on="2026-03-01")
    assert "Not qualified" in section(page, "pump-operator")
    assert "Granted: Pump operator" not in page
    answer = olga.get(f"/people/{firm.people['ben']}?as_of=soon")
    assert answer.status_code == 422
    assert "Write the day as year-month-day" in said(answer)


def test_only_decisions_that_make_sense_are_offered(firm, olga):
    def offered() -> set[str]:
        return set(re.findall(r"pump-operator/decide/(\w+)", page_of(firm, olga)))

    firm.ready()
    assert offered() == {"grant"}
    firm.decide("grant", olga)
    assert offered() == {"suspend", "revoke"}
    firm.decide("suspend", olga)
    assert offered() == {"lift", "revoke"}
    firm.decide("revoke", olga)
    assert "suspend" not in offered()


def test_the_timeline_leaves_nothing_out_and_strikes_what_is_void(firm, olga):
    firm.ready()
    job = firm.record(
        Use,
        "2026-02-25",
        person=firm.people["ben"],
        qualification="pump-operator",
        trainer=firm.people["uma"],
        recorded_by=firm.people["uma"],
    )
    olga.post(
        f"/records/{job}/counter",
        data={
            "record_id": new_id(),
            "occurred_on": "2026-03-02",
            "reason": "Wrong person picked.",
            "password": "wet-phone-in-basement",
        },
    )
    part = page_of(firm, olga).split("Everything on record")[-1]
    own = [e for e in firm.events() if e.person == firm.people["ben"]]
    for event in own:
        assert f'href="/records/{event.id}"' in part
    assert "<s>Verified job: Pump operator</s>" in part
    assert "Made void" in part


def test_a_trainer_shows_what_he_may_sign_for(firm, olga):
    words = section(page_of(firm, olga, "tomas"), "pump-operator")
    assert "May sign for it as a trainer." in words
    assert "May sign" not in section(page_of(firm, olga, "tomas"), "lead-injector")
