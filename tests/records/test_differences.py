"""What was believed then, what is known now, and the record that made the difference.

Held against the definition, standing(), asked as known at each moment: assessment section 5,
rules 1 to 3. Every difference must be one there, and every change put down to the arrival that
made it.
"""

from dataclasses import replace
from datetime import date, timedelta

from drawn_histories import DAYS, POLICIES, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import (
    LEAD,
    POLICY,
    RULE,
    authorised,
    base,
    countered,
    countersigned,
    day,
    decided,
    merged,
    practical,
    quiz,
    revised,
    training,
    use,
    without,
)
from told_histories import arriving

from app.records.boards.board_cells import cell_of
from app.records.boards.differences import Difference, Switch, differences, is_same
from app.records.events import Event, Grant, Lift, Suspend
from app.records.policy import Policy
from app.records.standing.definition import standing


def told(
    events: list[Event], as_of: str, then: str, now: str | None = None, person: str = "W"
) -> list[Difference]:
    return differences(events, POLICY, person, day(as_of), day(then), day(now) if now else None)


def only(events: list[Event], as_of: str, then: str, now: str | None = None) -> Difference:
    (found,) = told(events, as_of, then, now)
    return found


def steps(found: Difference) -> list[tuple[str, str, str]]:
    return [(step.event.id, step.before.status, step.after.status) for step in found.steps]


def test_a_counter_entry_made_the_difference():
    events = [*base(), countered("x1", "2024-04-01", "p2")]
    found = only(events, "2024-03-10", "2024-03-10")
    assert (found.then.status, found.now.status) == ("current", "not-qualified")
    assert steps(found) == [("x1", "current", "not-qualified")]
    assert found.idle == 0


def test_a_decision_dated_back_made_the_difference():
    hold = arriving(decided(Suspend, "s1", "2024-03-05"), "2024-03-20")
    found = only([*base(), hold], "2024-03-10", "2024-03-10")
    assert steps(found) == [("s1", "current", "suspended")]
    # Of a day before the one it is dated on, nothing was wrong.
    assert told([*base(), hold], "2024-03-04", "2024-03-10") == []


def test_a_late_entry_is_named_and_what_arrived_idly_is_counted():
    first, second = (
        arriving(practical(f"p{n}", f"2024-02-1{n}", f"R{n}", f"A{n}"), f"2024-02-2{n}")
        for n in (1, 2)
    )
    events = [*without(base(), "p1", "p2", "g1"), first, second]
    events.append(arriving(decided(Grant, "g1", "2024-02-21"), "2024-02-28"))
    found = only(events, "2024-02-25", "2024-02-20")
    # Neither repair makes anybody qualified; the grant that rests on them does.
    assert steps(found) == [("g1", "not-qualified", "current")]
    assert found.idle == 2


def test_a_countersign_brings_a_late_entry_in():
    # Recorded 51 days late: it does not count until another trainer vouches for it.
    events = [*base(), arriving(use("u1", "2024-07-30"), "2024-09-19")]
    events.append(countersigned("s1", "2024-09-25", "u1", "A2"))
    found = only(events, "2024-09-01", "2024-09-01")
    assert steps(found) == [("s1", "lapsed", "current")]
    assert found.idle == 1


def test_merging_two_entries_of_one_person():
    doubled = [replace(e, person="W2") if e.person == "W" else e for e in base()]
    events = [*doubled, merged("m1", "2024-03-20", "W", "W2")]
    found = only(events, "2024-03-10", "2024-03-10")
    assert steps(found) == [("m1", "not-qualified", "current")]
    assert told(events, "2024-03-10", "2024-03-10", person="W2") == []


def test_a_revision_told_late_and_a_trainer_told_late():
    changed = arriving(revised("r2", "2024-02-01", 2, "major"), "2024-03-20")
    found = only([*base(), changed], "2024-03-10", "2024-03-10")
    assert [step.event.id for step in found.steps] == ["r2"]
    told_late = [*without(base(), "auth-A2"), arriving(authorised("A2"), "2024-04-01")]
    assert steps(only(told_late, "2024-03-10", "2024-03-10"))[0][0] == "auth-A2"


def test_a_chain_of_changes_is_told_in_order_of_arrival_not_of_days():
    events = [
        *base(),
        arriving(decided(Suspend, "s1", "2024-03-05"), "2024-03-20"),
        arriving(decided(Lift, "l1", "2024-03-06"), "2024-03-22"),
        countered("x1", "2024-03-25", "l1"),
    ]
    found = only(events, "2024-03-10", "2024-03-10")
    assert steps(found) == [
        ("s1", "current", "suspended"),
        ("l1", "suspended", "current"),
        ("x1", "current", "suspended"),
    ]
    assert told(events, "2024-03-10", "2024-03-10", "2024-03-22") == []  # there and back


def test_the_same_standing_with_another_last_good_day_is_a_difference():
    found = only(
        [*base(), arriving(use("u1", "2024-03-01"), "2024-03-08")], "2024-03-10", "2024-03-07"
    )
    assert (found.then.status, found.now.status) == ("current", "current")
    assert (found.then.continuity_due_on, found.now.continuity_due_on) == (
        date(2024, 8, 10),
        date(2024, 9, 1),
    )


def test_nothing_differs_where_nothing_arrived_or_nothing_it_says_counts():
    assert told(base(), "2024-03-10", "2024-03-10") == []
    events = [*base(), quiz("q2", "2024-03-12", passed=False), training("t2", "2024-03-12")]
    assert told(events, "2024-03-10", "2024-03-10") == []


def test_known_on_a_day_ends_with_it():
    events = [*base(), arriving(countered("x1", "2024-04-01", "p2"), "2024-04-01")]
    assert told(events, "2024-03-10", "2024-03-10", "2024-03-31") == []
    assert len(told(events, "2024-03-10", "2024-03-31", "2024-04-01")) == 1
    assert told(events, "2024-03-10", "2024-04-01", "2024-05-01") == []


@settings(deadline=None, max_examples=60)
@given(histories(), st.sampled_from(POLICIES), st.sampled_from(["W", "W2"]), DAYS, st.data())
def test_it_is_what_the_definition_says_at_each_moment(events, policy, person, as_of, data):
    moments = sorted({event.recorded_at for event in events})
    then = data.draw(st.sampled_from([moments[0] - timedelta(days=1), *moments]))
    now = data.draw(st.sampled_from([None, *(m for m in moments if m >= then)]))
    found = {f.qualification: f for f in differences(events, policy, person, as_of, then, now)}
    for name in policy.qualifications:

        def known(moment, name=name):
            return cell_of(standing(events, policy, person, name, as_of, moment))

        assert (name in found) == (not is_same(known(then), known(now)))
        if name not in found:
            continue
        one = found[name]
        assert is_same(one.then, known(then))
        assert is_same(one.now, known(now))
        # A chain from then to now, each link with a record that arrived in between.
        ends = [one.then, *(step.after for step in one.steps)]
        assert all(is_same(e, step.before) for e, step in zip(ends, one.steps, strict=False))
        assert is_same(ends[-1], one.now)
        assert all(not is_same(step.before, step.after) for step in one.steps)
        arrived = {
            e.id: e.recorded_at
            for e in events
            if then < e.recorded_at and (now is None or e.recorded_at <= now)
        }
        made = {step.event.id for step in one.steps}
        assert made <= arrived.keys()
        assert one.idle == len(arrived) - len(made)
        order = [arrived[step.event.id] for step in one.steps]
        assert order == sorted(order)
        # Put down to its own arrival: the moment before it, the definition said the other thing.
        for step in one.steps:
            at = step.event.recorded_at
            if sum(event.recorded_at == at for event in events) == 1:
                assert is_same(step.before, known(at - timedelta(microseconds=1)))
                assert is_same(step.after, known(at))


def test_a_policy_that_came_into_force_made_the_difference():
    # One month of continuity instead of six: the last work is of 10 February.
    stricter = Policy({LEAD: replace(RULE, continuity_months=1)})
    approval = replace(revised("pol", "2024-04-01", 2, "major"), module="policy")
    events = [*base(), approval]
    switch = Switch(approval.recorded_at, approval, stricter)
    found = differences(events, POLICY, "W", day("2024-03-20"), day("2024-03-20"), None, [switch])
    assert [steps(one) for one in found] == [[("pol", "current", "lapsed")]]
    assert found[0].idle == 0
    assert told(events, "2024-03-20", "2024-03-20") == []  # the record by itself changes nothing


def test_a_qualification_that_only_one_policy_knows():
    approval = replace(revised("pol", "2024-04-01", 2, "major"), module="policy")
    other = Policy({"other": replace(RULE, id="other")})
    switch = Switch(approval.recorded_at, approval, other)
    (found,) = differences(
        base(), POLICY, "W", day("2024-03-10"), day("2024-03-10"), None, [switch]
    )
    assert (found.qualification, found.then.status) == (LEAD, "current")
    assert found.now.status == "not-qualified"
