"""A correction that raises a standing takes two officers: propose, confirm, withdraw."""

import re

import pytest

from app.ids import new_id
from app.records.events import ContentRevised, Lift, Suspend, TrainerWithdrawn

PASSWORD = "wet-phone-in-basement"
PUMP = "pump-operator"


def said(answer) -> str:
    return answer.get_data(as_text=True)


def data(**more: str) -> dict[str, str]:
    return {
        "record_id": new_id(),
        "occurred_on": "2026-03-02",
        "reason": "Mixed up two people (invented).",
        "password": PASSWORD,
        **more,
    }


@pytest.fixture
def suspended(firm, olga) -> str:
    """Ben is qualified and suspended; the suspension's id."""
    firm.ready()
    firm.decide("grant", olga, occurred_on="2026-02-25")
    return firm.record(
        Suspend,
        "2026-03-01",
        person=firm.people["ben"],
        qualification=PUMP,
        decider=firm.people["olga"],
        recorded_by=firm.people["olga"],
        reason="Ran without a sample (invented).",
    )


def propose(client, target: str, **more: str):
    return client.post(f"/records/{target}/counter", data=data(propose="yes", **more))


def standing_of_ben(client) -> str:
    page = said(client.get("/board?qualification=pump-operator"))
    return page.split("Ben Invented</a>")[1].split("</tr>")[0]


def test_one_officer_alone_can_not_raise_a_standing(firm, olga, suspended):
    page = said(olga.get(f"/records/{suspended}"))
    assert "It would raise a standing." in page
    assert "Sign: propose it" in page
    answer = olga.post(f"/records/{suspended}/counter", data=data())
    assert answer.status_code == 422
    assert "One safety officer has to propose it" in said(answer)
    assert firm.of_kind("counter-entry") == []


@pytest.fixture
def past_week(firm, olga, suspended) -> str:
    """That suspension lifted again, a day ago by now; the suspension's id."""
    by = {"decider": firm.people["olga"], "recorded_by": firm.people["olga"]}
    firm.record(Lift, "2026-03-02", person=firm.people["ben"], qualification=PUMP, **by)
    return suspended


def plain(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def test_a_raise_on_past_days_only_takes_two_and_the_page_says_which_days(firm, olga, past_week):
    assert "Suspended" not in standing_of_ben(olga)
    page = plain(said(olga.get(f"/records/{past_week}")))
    assert "It changes no standing of today." in page
    assert "It would raise a standing." in page
    assert "Pump operator On 1 Mar 2026: Suspended → Current" in page
    answer = olga.post(f"/records/{past_week}/counter", data=data())
    assert answer.status_code == 422
    assert firm.of_kind("counter-entry") == []
    proposal = propose(olga, past_week).location.rsplit("/", 1)[1]
    seen = plain(said(firm.sign_in("pia").get(f"/corrections/{proposal}")))
    assert "It changes no standing of today." in seen
    assert "Pump operator On 1 Mar 2026: Suspended → Current" in seen


def test_the_days_are_told_in_spanish_too(firm, olga, suspended):
    olga.post("/show", data={"language": "es"})
    page = plain(said(olga.get(f"/records/{suspended}")))
    assert "Operador de bomba Del 1 mar 2026 al 20 ago 2026: Suspendida → Vigente" in page
    assert "Desde el 26 feb 2028: Suspendida → Vencida" in page


def test_what_touches_many_is_told_for_each_and_cut_where_it_is_long(firm, olga, cast, monkeypatch):
    for name in ("cal", "ann"):
        firm.people[name] = cast.add(name, "worker")
        firm.ready(name)
        firm.decide("grant", olga, person=name, occurred_on="2026-02-25")
    gone = firm.record(
        TrainerWithdrawn, "2026-01-05", person=firm.people["uma"], qualification=PUMP
    )
    page = plain(said(olga.get(f"/records/{gone}")))
    assert "It raises 2 standings, of 2 people:" in page
    assert page.index("Ann Invented, Pump operator") < page.index("Cal Invented, Pump operator")
    assert "From 25 Feb 2026 to 20 Aug 2026: Not qualified → Current" in page
    monkeypatch.setattr("app.officer.records.rise_pages.MOST", 1)
    page = said(olga.get(f"/records/{gone}"))
    assert "It raises many standings. Here are 1 of them:" in plain(page)
    assert page.count('class="rise-of"') == 1
    assert said(olga.get(f"/records/{gone}?all=yes")).count('class="rise-of"') == 2


def test_an_editorial_revision_made_void_reads_nobodys_records(firm, olga, monkeypatch):
    firm.ready()
    record = firm.record(
        ContentRevised, "2026-02-15", module="pump-purge", revision=9, change="editorial"
    )

    def read_everything(*_asked, **_more):
        raise AssertionError("an editorial revision touches nobody")

    monkeypatch.setattr("app.officer.records.corrections.light_events", read_everything)
    monkeypatch.setattr("app.officer.actions.light_events", read_everything)
    page = said(olga.get(f"/records/{record}"))
    assert "It would raise a standing." not in page
    assert olga.post(f"/records/{record}/counter", data=data()).status_code == 303
    assert [entry.target for entry in firm.of_kind("counter-entry")] == [record]


def test_two_officers_can_and_both_stand_on_the_record(firm, olga, suspended):
    proposal = propose(olga, suspended).location.rsplit("/", 1)[1]
    assert "Suspended" in standing_of_ben(olga)
    pia = firm.sign_in("pia")
    assert "Ben Invented" in said(pia.get("/corrections"))
    page = said(pia.get(f"/corrections/{proposal}"))
    assert "Olga Invented" in page
    assert "Mixed up two people (invented)." in page
    answer = pia.post(f"/corrections/{proposal}", data=data())
    assert answer.status_code == 303
    (entry,) = firm.of_kind("counter-entry")
    assert (entry.proposed_by, entry.recorded_by) == (firm.people["olga"], firm.people["pia"])
    assert entry.proposal == proposal
    page = said(olga.get(answer.location))
    for words in ("Proposed by", "Olga Invented", "Confirmed by", "Pia Invented"):
        assert words in page
    assert "Suspended" not in standing_of_ben(olga)
    assert "Nothing waits." in said(pia.get("/corrections"))
    assert "This proposal is closed" in said(pia.get(f"/corrections/{proposal}"))


def test_nobody_confirms_their_own(firm, olga, suspended):
    proposal = propose(olga, suspended).location.rsplit("/", 1)[1]
    assert 'name="password"' not in said(olga.get(f"/corrections/{proposal}"))
    answer = olga.post(f"/corrections/{proposal}", data=data())
    assert answer.status_code == 422
    assert "You proposed this. Another safety officer has to confirm it." in said(answer)
    assert firm.of_kind("counter-entry") == []


def test_a_confirmation_needs_the_password(firm, olga, suspended):
    proposal = propose(olga, suspended).location.rsplit("/", 1)[1]
    answer = firm.sign_in("pia").post(f"/corrections/{proposal}", data=data(password="wrong-one"))
    assert answer.status_code == 422
    assert "That is not your password." in said(answer)
    assert firm.of_kind("counter-entry") == []


def test_a_confirmation_sent_twice_is_one_record(firm, olga, suspended):
    proposal = propose(olga, suspended).location.rsplit("/", 1)[1]
    pia, sent = firm.sign_in("pia"), data()
    first, second = (pia.post(f"/corrections/{proposal}", data=sent) for _ in range(2))
    assert first.location == second.location
    assert pia.post(f"/corrections/{proposal}", data=data()).status_code == 422
    assert len(firm.of_kind("counter-entry")) == 1


def test_a_withdrawn_proposal_is_confirmed_by_nobody(firm, olga, suspended):
    proposal = propose(olga, suspended).location.rsplit("/", 1)[1]
    assert "Withdraw it" in said(olga.get(f"/records/{proposal}"))
    assert olga.post(f"/records/{proposal}/counter", data=data()).status_code == 303
    pia = firm.sign_in("pia")
    assert "Nothing waits." in said(pia.get("/corrections"))
    answer = pia.post(f"/corrections/{proposal}", data=data())
    assert answer.status_code == 422
    assert "This proposal is closed: it was confirmed or withdrawn." in said(answer)
    assert "Suspended" in standing_of_ben(olga)


def test_a_proposal_about_a_text_is_found_confirmed_and_withdrawn(firm, olga):
    firm.ready()
    firm.decide("grant", olga, occurred_on="2026-01-02")
    firm.decide("grant", olga, occurred_on="2026-02-25")
    record = firm.record(
        ContentRevised, "2026-01-15", module="pump-purge", revision=9, change="major"
    )
    answer = olga.post(f"/records/{record}/counter", data=data())
    assert "One safety officer has to propose it" in said(answer)
    assert "Sign: propose it" in said(answer)
    first = propose(olga, record).location.rsplit("/", 1)[1]
    assert olga.post(f"/records/{first}/counter", data=data()).status_code == 303
    assert "This record is void." in said(olga.get(f"/records/{first}"))
    second = propose(olga, record).location.rsplit("/", 1)[1]
    pia = firm.sign_in("pia")
    assert pia.post(f"/corrections/{first}", data=data()).status_code == 422
    assert pia.post(f"/corrections/{second}", data=data()).status_code == 303
    assert [e.target for e in firm.of_kind("counter-entry")] == [first, record]


def test_a_merge_that_raises_a_standing_is_proposed_and_confirmed(firm, olga, cast):
    firm.people["twin"] = twin = cast.add("twin", "worker", printed_name="Ben Again")
    firm.teach("ben", "2026-02-02")
    firm.watch("ben", "tomas", "2026-02-10")
    firm.teach("twin", "2026-02-02")
    firm.watch("twin", "uma", "2026-02-20")
    firm.watch("twin", "tomas", "2026-02-21")
    firm.decide("grant", olga, person="twin", occurred_on="2026-02-25")
    merge = {"kept": firm.people["ben"], "merged": twin}
    answer = olga.post("/merge", data=data(**merge))
    assert answer.status_code == 422
    assert "Sign: propose it" in said(answer)
    assert "Ben Invented, Pump operator From 25 Feb 2026" in plain(said(answer))
    proposal = olga.post("/merge", data=data(propose="yes", **merge)).location.rsplit("/", 1)[1]
    assert cast.sign_in("twin")
    pia = firm.sign_in("pia")
    assert pia.post(f"/corrections/{proposal}", data=data()).status_code == 303
    (merged,) = firm.of_kind("identity-merged")
    assert (merged.person, merged.merged) == (firm.people["ben"], twin)
    assert merged.proposed_by == firm.people["olga"]
    assert "Ben Again" not in said(olga.get("/board"))


def test_an_unknown_proposal_is_not_found(firm, olga, suspended):
    for record_id in ("no-such", suspended):
        assert olga.get(f"/corrections/{record_id}").status_code == 404
