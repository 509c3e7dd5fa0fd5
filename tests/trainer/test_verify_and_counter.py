"""Verified jobs, counter-entries, and vouching for another trainer's late entry."""

from datetime import date

import pytest

from app.database import writing
from app.ids import new_id
from app.records.deciding.decisions import Act
from app.records.events import CounterEntry, Countersign, Grant, Practical, Quiz, Training, Use
from app.records.ledger.door import append
from tests.trainer.conftest import PASSWORD, text


@pytest.fixture
def signed(yard) -> str:
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    return repair


def qualify(yard, clock) -> None:
    """Pat becomes a current pump operator a month before today, on evidence of others."""
    clock.pass_time(days=-30)
    yard.authorise("tom.trainer", "pump-operator")
    person, tom = yard.people["pat.worker"], yard.people["tom.trainer"]
    day, zone = clock().date(), "America/New_York"

    def stamp() -> dict:
        act = Act(id=new_id(), by=tom, now=clock(), occurred_on=day, zone=zone)
        return {
            "id": act.id, "occurred_on": day, "zone": zone,
            "recorded_at": act.now, "recorded_by": tom, "person": person,
        }  # fmt: skip

    events = []
    for module in yard.curriculum.qualification("pump-operator").modules:
        events.append(Training(**stamp(), module=module, revision=1))
        events.append(Quiz(**stamp(), module=module, passed=True, right=8, asked=8))
    for job, trainer in (("old-1", tom), ("old-2", yard.people["ana.trainer"])):
        events.append(Practical(**stamp(), qualification="pump-operator", trainer=trainer, job=job))
    events.append(Grant(**stamp(), qualification="pump-operator", decider="officer"))
    with yard.app.app_context(), writing() as connection:
        for event in events:
            append(connection, event)
    clock.pass_time(days=30)


def verify(yard, job: str, **changes: str):
    data = {
        "person": yard.people["pat.worker"],
        "qualification": "pump-operator",
        "occurred_on": "2026-03-02",
        "password": PASSWORD,
        "record_id": new_id(),
    }
    return yard.post(f"/jobs/{job}/use", **(data | changes))


def test_a_verified_job_says_until_when_it_keeps_its_person_current(yard, clock):
    qualify(yard, clock)
    record = new_id()
    assert verify(yard, yard.new_job(), record_id=record).status_code == 303
    page = text(yard.client.get(f"/repairs/{record}"))
    # Granted 31 Jan 2026 for 24 months; six months on from the job of 2 Mar 2026.
    assert "Pat.Worker Invented today, Pump operator: Current" in page
    assert "Good through 31 Jan 2028." in page
    assert "A repair or a verified job has to come by 2 Sep 2026." in page


def test_a_verified_job_of_a_qualified_person_goes_on_record_once(yard, clock):
    qualify(yard, clock)
    job = yard.new_job()
    record_id = new_id()
    first = verify(yard, job, record_id=record_id)
    assert (first.status_code, first.location) == (303, f"/repairs/{record_id}")
    before = yard.events()
    assert verify(yard, job, record_id=record_id).location == f"/repairs/{record_id}"
    assert yard.events() == before
    uses = [e for e in before if isinstance(e, Use)]
    assert [(u.person, u.job, u.trainer) for u in uses] == [
        (yard.people["pat.worker"], job, yard.people["ana.trainer"])
    ]
    page = text(yard.client.get(f"/repairs/{record_id}"))
    assert "Verified job" in page
    assert "This person did this job, and I verified it." in page


def test_a_verified_job_is_refused_with_its_reason_beside_the_field(yard, clock):
    job = yard.new_job()
    answer = verify(yard, job)
    assert answer.status_code == 422
    assert 'id="person-error-1"' in answer.get_data(as_text=True)
    assert "was not qualified as pump operator on 2 Mar 2026" in text(answer)
    qualify(yard, clock)
    for change, where in (
        ({"password": "not-mine-at-all"}, "password"),
        ({"password": ""}, "password"),
        ({"person": yard.people["ana.trainer"]}, "person"),
        ({"qualification": "preparation-hand"}, "qualification"),
        ({"occurred_on": "2026-03-09"}, "occurred_on"),
        ({"record_id": "x"}, "record_id"),
    ):
        answer = verify(yard, job, **change)
        assert answer.status_code == 422, change
        assert f"{where}-error-1" in answer.get_data(as_text=True) or where == "record_id"
    assert not [e for e in yard.events() if isinstance(e, Use)]
    assert verify(yard, job).status_code == 303
    assert "in the records already" in text(verify(yard, job))


def test_a_counter_entry_makes_the_record_void_and_keeps_it_readable(yard, signed):
    answer = yard.post(f"/repairs/{signed}/counter", reason="Wrong person.", password=PASSWORD)
    assert answer.status_code == 303
    entry = yard.events()[-1]
    assert isinstance(entry, CounterEntry)
    assert (entry.target, entry.reason) == (signed, "Wrong person.")
    page = text(yard.client.get(f"/repairs/{signed}"))
    assert "This record is void" in page
    assert "Wrong person." in page
    assert "As it was signed" in page
    assert "Counter this record" not in page
    assert "it was made void by a later record" in text(yard.client.get("/repairs"))


def test_a_counter_entry_needs_a_reason_and_the_password(yard, signed):
    before = yard.events()
    for reason, password, where in (
        ("  ", PASSWORD, "reason"),
        ("Wrong person.", "nonsense-nonsense", "password"),
        ("Wrong person.", "", "password"),
    ):
        answer = yard.post(f"/repairs/{signed}/counter", reason=reason, password=password)
        assert answer.status_code == 422
        assert f'id="{where}-error-1"' in answer.get_data(as_text=True)
        assert reason.strip() in answer.get_data(as_text=True)
    assert yard.events() == before


def test_a_counter_entry_sent_twice_is_one_record(yard, signed):
    for _ in range(2):
        answer = yard.post(f"/repairs/{signed}/counter", reason="Wrong.", password=PASSWORD)
    assert "This record is already void." in text(answer)
    assert sum(isinstance(e, CounterEntry) for e in yard.events()) == 1


def test_another_trainer_reads_the_record_but_cannot_counter_it(yard, signed, cast):
    yard.client = cast.sign_in("tom.trainer")
    page = yard.page(f"/repairs/{signed}")
    assert "As it was signed" in page
    assert "Counter this record" not in page
    answer = yard.post(f"/repairs/{signed}/counter", reason="No.", password=PASSWORD)
    assert answer.status_code == 404


def test_a_late_entry_waits_for_a_second_trainer(yard, cast, clock):
    # Assessment section 5: more than 14 days late counts only once another trainer countersigned.
    repair = yard.started(occurred_on="2026-02-10")
    yard.watch_all(repair)
    yard.sign(repair)
    assert "No late entry waits for you." in yard.page("/late-entries")
    yard.authorise("tom.trainer", "pump-operator", on=date(2026, 1, 1))
    yard.client = cast.sign_in("tom.trainer")
    page = text(yard.client.get("/late-entries"))
    assert "Day of the work 10 Feb 2026" in page
    wrong = yard.post(f"/late-entries/{repair}", **{f"{repair}-password": "nonsense-nonsense"})
    assert wrong.status_code == 422
    assert "That is not your password" in text(wrong)
    done = yard.post(f"/late-entries/{repair}", **{f"{repair}-password": PASSWORD})
    assert (done.status_code, done.location) == (303, "/late-entries")
    sign = yard.events()[-1]
    assert isinstance(sign, Countersign)
    assert (sign.target, sign.trainer) == (repair, yard.people["tom.trainer"])
    assert "No late entry waits for you." in yard.page("/late-entries")
    assert "Countersigned by Tom.Trainer Invented on 2 Mar 2026." in yard.page(f"/repairs/{repair}")


def test_a_trainer_not_authorised_cannot_vouch(yard, cast):
    repair = yard.started(occurred_on="2026-02-10")
    yard.watch_all(repair)
    yard.sign(repair)
    before = yard.events()
    yard.client = cast.sign_in("tom.trainer")
    answer = yard.post(f"/late-entries/{repair}", **{f"{repair}-password": PASSWORD})
    assert answer.status_code == 422
    assert "not authorised for pump operator" in text(answer)
    assert yard.events() == before


def test_an_entry_in_time_needs_nobodys_word(yard, signed, cast):
    yard.authorise("tom.trainer", "pump-operator")
    yard.client = cast.sign_in("tom.trainer")
    assert "No late entry waits for you." in yard.page("/late-entries")
    answer = yard.post(f"/late-entries/{signed}", **{f"{signed}-password": PASSWORD})
    assert answer.status_code == 422
