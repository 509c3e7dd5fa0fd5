"""A text is approved by somebody else than its author, each number and each text once."""

from datetime import timedelta

import pytest
from records_cast import act, base, day, on

from app.records.deciding import refusals
from app.records.deciding.decisions import decide_approve_text
from app.records.deciding.revising import Author, Text
from app.records.events import ContentRevised, CounterEntry, IdentityMerged
from app.records.standing.settling import settle
from app.records.texts.in_force import approvals_of, in_force

OLD, NEW = "a" * 64, "b" * 64
PROJECT = Author(name="Lowport project")


def revised(name: str, text: str, revision: int, sha256: str = OLD) -> ContentRevised:
    values = {"module": "gear", "revision": revision, "change": "major", "sha256": sha256}
    return ContentRevised(id=name, **values, **on(text))


def approve(history, *, author=PROJECT, number=3, sha256=NEW, reason="Read.", label="", **acting):
    text = Text(name="gear", revision=number, sha256=sha256, label=label)
    return decide_approve_text(
        history, act("M1", **acting), text=text, change="editorial", author=author, reason=reason
    )


def test_it_says_what_was_approved_and_who_wrote_it():
    event = approve([*base(), revised("c2", "2024-03-01", 2)], reason=" Read. ")
    assert (event.module, event.revision, event.sha256) == ("gear", 3, NEW)
    assert (event.recorded_by, event.author, event.author_name) == ("M1", "", "Lowport project")
    assert event.reason == "Read."


@pytest.mark.parametrize(
    "author",
    [
        Author(person="M1"),
        Author(name="Mia Invented", approver_names=("Mia Invented", "mia")),
        Author(name=" ＭＩＡ  invented ", approver_names=("Mia Invented",)),
        Author(name="MIA", approver_names=("Mia Invented", "mia")),
    ],
)
def test_nobody_approves_what_they_wrote(author: Author):
    with pytest.raises(refusals.AuthorApproves):
        approve(base(), author=author)


def test_nor_under_an_entry_that_was_merged_with_theirs():
    same = IdentityMerged(id="m", person="M1", merged="M9", reason="x", **on("2024-01-01"))
    with pytest.raises(refusals.AuthorApproves):
        approve([*base(), same], author=Author(person="M9"))


def test_somebody_wrote_it():
    with pytest.raises(refusals.AuthorMissing):
        approve(base(), author=Author(name="  "))


def test_numbers_go_up_and_no_text_is_approved_twice():
    history = [revised("c2", "2024-03-01", 2)]
    with pytest.raises(refusals.RevisionNotNew, match="2"):
        approve(history, number=2)
    with pytest.raises(refusals.TextApproved):
        approve(history, sha256=OLD)
    later = [revised("c2", "2030-01-01", 2)]
    with pytest.raises(refusals.RevisionBackdated, match="2030-01-01"):
        approve(later)


def test_no_text_is_in_force_before_it_is_approved_nor_in_a_far_future():
    today = act("M1").occurred_on
    with pytest.raises(refusals.BeforeApproval):
        approve(base(), occurred_on=today - timedelta(days=1))
    with pytest.raises(refusals.TooFarAhead):
        approve(base(), occurred_on=today + timedelta(days=367))
    assert approve(base(), occurred_on=today + timedelta(days=366)).revision == 3


def test_a_label_is_given_once():
    history = [approve(base(), label="2025-1", number=1, sha256=OLD)]
    with pytest.raises(refusals.LabelNotNew, match="2025-1"):
        approve([*base(), *history], label="2025-1", number=2, id="other")


def test_a_void_approval_leaves_its_number_and_text_free():
    first = revised("c2", "2024-03-01", 2)
    void = CounterEntry(id="v", target="c2", reason="x", **on("2024-03-02"))
    assert approve([first, void], number=2, sha256=OLD).revision == 2


def test_it_is_in_force_from_its_day_and_not_before():
    settled = settle([revised("c1", "2024-03-01", 1), revised("c2", "2024-05-01", 2, NEW)])
    found = [in_force(settled, "gear", day(d)) for d in ("2024-02-29", "2024-03-01", "2024-05-01")]
    assert [event and event.id for event in found] == [None, "c1", "c2"]
    assert [event.id for event in approvals_of(settled, "gear")] == ["c1", "c2"]
