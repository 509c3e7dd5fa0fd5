"""Random histories as the ledger could hold them: two qualifications, people entered twice.

Records arrive one after another, now and then at the same instant or by a clock set back; some are
late, some dated ahead; a counter-entry or countersign is about a record that is there already.
"""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from app.records.events import (
    ContentRevised,
    CorrectionProposed,
    CounterEntry,
    Countersign,
    Event,
    Grant,
    IdentityMerged,
    Lift,
    NameErased,
    Practical,
    Quiz,
    Revoke,
    Suspend,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Use,
    WorkerCountersign,
)
from app.records.observation import StepOutcome
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.counting import days_late

START = date(2024, 1, 1)
BEGAN_AT = datetime(2024, 1, 1, 9, tzinfo=UTC)
PEOPLE = ("W", "W2", "V")
TRAINERS = ("A1", "A2", "A3", "W2")
POLICIES = (
    Policy(
        {
            "pump": QualificationPolicy(id="pump", modules=("gear", "purge")),
            "lead": QualificationPolicy(
                id="lead", modules=("gear",), practicals_required=1, trainers_required=1
            ),
        }
    ),
    Policy(
        {
            "pump": QualificationPolicy(
                id="pump",
                modules=("gear", "purge"),
                validity_months=None,
                continuity_months=3,
                grace_days=0,
                late_entry_days=2,
                worker_countersign="required",
            ),
            "lead": QualificationPolicy(
                id="lead",
                modules=(),
                practicals_required=0,
                trainers_required=0,
                continuity_months=None,
                validity_months=6,
            ),
        }
    ),
)
QUALIFICATIONS = ("pump", "lead")
MODULES = ("gear", "purge")
DAYS = st.integers(-2, 1500).map(lambda n: START + timedelta(days=n))
_GAPS = st.sampled_from([0, 0, 1, 2, 7, 20, 45, 90, 170])
_LATE = st.sampled_from([0, 0, 0, 0, 0, 1, 3, 14, 15, 60, 200, -1, -3])
_BACK = st.sampled_from([0, 0, 20, 60, 200, 400])
_LIKELY = st.sampled_from([True, True, True, False])
_KINDS = (
    Training, Quiz, Practical, Practical, Use, Use, Use, Grant, Grant, Suspend, Lift, Revoke,
    TrainerAuthorised, TrainerWithdrawn, ContentRevised, Countersign, CounterEntry, CounterEntry,
    IdentityMerged, CorrectionProposed, NameErased, WorkerCountersign, WorkerCountersign,
)  # fmt: skip


def good_base() -> list[Event]:
    """Enough to be current in both qualifications on 20 February 2024."""

    def at(n: int) -> dict[str, Any]:
        day = START + timedelta(days=n)
        return {
            "occurred_on": day,
            "zone": "UTC",
            "recorded_at": datetime(day.year, day.month, day.day, 18, tzinfo=UTC),
        }

    events: list[Event] = [
        TrainerAuthorised(id=f"b-{a}-{q}", person=a, qualification=q, **at(0))
        for a in TRAINERS[:3]
        for q in QUALIFICATIONS
    ]
    for m in MODULES:
        events.append(Training(id=f"b-t-{m}", person="W", module=m, revision=1, **at(1)))
        events.append(Quiz(id=f"b-q-{m}", person="W", module=m, passed=True, **at(2)))
    for q in QUALIFICATIONS:
        own: dict[str, Any] = {"person": "W", "qualification": q}
        events += [
            Practical(id=f"b-p1-{q}", job="B1", trainer="A1", **own, **at(3)),
            Practical(id=f"b-p2-{q}", job="B2", trainer="A2", **own, **at(20)),
            Grant(id=f"b-g-{q}", decider="M1", **own, **at(50)),
        ]
    return sorted(events, key=lambda event: event.recorded_at)


@st.composite
def histories(draw: st.DrawFn, most: int = 20) -> list[Event]:
    """A history in order of arrival in the ledger."""
    events = good_base() if draw(_LIKELY) else good_base()[:1]
    now = events[-1].recorded_at
    for number in range(draw(st.integers(most // 2, most))):
        now += timedelta(days=draw(_GAPS), hours=draw(st.sampled_from([0, 1, 5])))
        if draw(st.integers(0, 11)) == 0:
            now -= timedelta(days=draw(st.sampled_from([1, 3, 40])))
        events.append(draw(_one(f"e{number}", now, events)))
    return events


@st.composite
def _one(draw: st.DrawFn, name: str, now: datetime, before: list[Event]) -> Event:
    zone = draw(st.sampled_from(["UTC", "UTC", "America/Chicago", "Pacific/Auckland"]))
    on = now.date() - timedelta(days=draw(_LATE))
    at: dict[str, Any] = {"id": name, "occurred_on": on, "zone": zone, "recorded_at": now}
    kind = draw(st.sampled_from(_KINDS))
    who = {"person": draw(st.sampled_from(("W", "W", "W", *PEOPLE)))}
    held = {**who, "qualification": draw(st.sampled_from(QUALIFICATIONS))}
    module = {"module": draw(st.sampled_from(MODULES))}
    if kind is Training:
        trainer = draw(st.sampled_from(["", "T1", "M1"]))
        return Training(**at, **who, **module, revision=draw(st.integers(1, 3)), trainer=trainer)
    if kind is Quiz:
        return Quiz(**at, **who, **module, passed=draw(_LIKELY))
    if kind in (Practical, Use):
        return kind(**at, **held, **draw(_watched(name)))
    if kind in (TrainerAuthorised, TrainerWithdrawn, ContentRevised):
        at["occurred_on"] = now.date() - timedelta(days=draw(_BACK))
    if kind is ContentRevised and not draw(_LIKELY):  # approved for a day still to come
        at["occurred_on"] = now.date() + timedelta(days=draw(st.sampled_from([1, 20, 90])))
    if kind in (TrainerAuthorised, TrainerWithdrawn):
        signer = draw(st.sampled_from(TRAINERS))
        return kind(**at, person=signer, qualification=held["qualification"])
    if kind is ContentRevised:
        change = draw(st.sampled_from(["editorial", "major", "major"]))
        return ContentRevised(**at, **module, revision=draw(st.integers(1, 3)), change=change)
    if kind in (Countersign, CounterEntry):
        late = [e for e in before if isinstance(e, Practical | Use) and days_late(e) > 2]
        target = draw(st.sampled_from(late if late and kind is Countersign else before))
        about = {"person": target.person, "target": target.id}
        if kind is Countersign:
            return Countersign(**at, **about, trainer=draw(st.sampled_from(TRAINERS)))
        return CounterEntry(**at, **about, qualification=target.qualification)
    if kind is WorkerCountersign:
        repairs = [e for e in before if isinstance(e, Practical)]
        target = draw(st.sampled_from(repairs or [e for e in before if e.person]))
        return WorkerCountersign(**at, person=target.person, target=target.id)
    if kind is CorrectionProposed:
        target = draw(st.sampled_from(before))
        return CorrectionProposed(**at, person=target.person, about=target.id)
    if kind is NameErased:
        return NameErased(**at, **who)
    if kind is IdentityMerged:
        pair = draw(st.sampled_from([("W", "W2"), ("W2", "V"), ("A1", "A3"), ("A2", "W2")]))
        return IdentityMerged(**at, person=pair[0], merged=pair[1])
    return kind(**at, **held, decider=draw(st.sampled_from(["M1", "M1", "M2", "A1", "W", "T1"])))


@st.composite
def _watched(draw: st.DrawFn, name: str) -> dict[str, Any]:
    outcome = draw(st.sampled_from(["done", "done", "done", "done", "not-done"]))
    return {
        "trainer": draw(st.sampled_from(TRAINERS)),
        "job": draw(st.sampled_from([f"job-{name}", f"job-{name}", "B2", "R1"])),
        "passed": draw(_LIKELY),
        "critical": (StepOutcome(step="one", outcome=outcome),),
    }


@st.composite
def busy_months(draw: st.DrawFn) -> list[Event]:
    """Nothing but repairs and jobs of one person who is granted: the short way of an append.

    Some on a job that was there before, some after the lapse, some on one day, some not counted.
    """
    events = good_base()
    now = events[-1].recorded_at
    for number in range(draw(st.integers(4, 12))):
        now += timedelta(days=draw(st.sampled_from([0, 1, 20, 60, 170, 200])))
        name = f"e{number}"
        kind = draw(st.sampled_from([Use, Use, Practical]))
        watched = draw(_watched(name))
        watched["job"] = draw(st.sampled_from(["B1", "B2", "R1", name]))
        day = now.date() - timedelta(days=draw(st.sampled_from([0, 0, 0, 1, 15])))
        at = {"id": name, "occurred_on": day, "zone": "UTC", "recorded_at": now}
        held = {"person": "W", "qualification": draw(st.sampled_from(QUALIFICATIONS))}
        events.append(kind(**at, **held, **watched))
    return events
