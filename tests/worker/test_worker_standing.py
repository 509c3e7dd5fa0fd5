"""A worker's own standing in plain words: what holds, what runs out, what is missing.

The days follow the base case of the project's standing rules: valid 24 months from the grant,
continuity 6 months from the last counted repair, warnings 30 days ahead.
"""

import re
from datetime import date

import pytest
from quiz_taker import opened

from app.records.events import (
    Grant,
    Lift,
    Practical,
    Quiz,
    Suspend,
    TrainerAuthorised,
    Training,
)

NAME = "preparation-hand"


@pytest.fixture
def granted(cast, ola_id, curriculum, keep):
    """Gives Ola what the qualification asks for, the repairs on two days; granted on the last."""

    def give(*repairs: date, granted_on: date) -> None:
        trainers = [cast.add(f"trainer.{n}", "trainer") for n in "ab"]
        officer = cast.add("otto.officer", "safety-officer", printed_name="Otto Invented")
        for trainer in trainers:
            keep(TrainerAuthorised, date(2020, 1, 1), person=trainer, qualification=NAME)
        for module in curriculum.qualification(NAME).modules:
            keep(Training, repairs[0], person=ola_id, module=module, revision=1)
            keep(Quiz, repairs[0], person=ola_id, module=module, passed=True)
        for number, (on, trainer) in enumerate(zip(repairs, trainers, strict=True)):
            values = {"person": ola_id, "qualification": NAME, "trainer": trainer}
            keep(Practical, on, job=f"job-{number}", **values)
        keep(Grant, granted_on, person=ola_id, qualification=NAME, decider=officer)

    return give


def section(client, name: str = NAME) -> str:
    html = opened(client, "/my-standing").html
    found = re.search(rf'<section aria-labelledby="{name}">(.*?)</section>', html, re.DOTALL)
    assert found
    return " ".join(re.sub(r"<[^>]+>", " ", found.group(1)).split())


def test_a_new_hire_reads_what_is_missing(ola):
    words = section(ola)
    assert "Not qualified" in words
    assert "Nobody has granted this qualification." in words
    both = "Modules to go through, each with its quiz: “Safety gear”, “Surface preparation”"
    assert words.count(both) == 1
    assert words.count("“Safety gear”") == 1
    assert "Quizzes to pass" not in words
    assert "0 of 2 supervised repairs count." in words
    assert "A safety officer has to grant it." in words
    assert "Needed first, as a current qualification: Preparation hand, Pump operator." in section(
        ola, "lead-injector"
    )


def test_current_with_its_last_days(ola, granted):
    granted(date(2026, 1, 10), date(2026, 2, 10), granted_on=date(2026, 2, 20))
    words = section(ola)
    assert "Current" in words
    assert "Granted on 20 Feb 2026 by Otto Invented." in words
    # 24 months from the grant; 6 months from the latest repair behind it.
    assert "Good through 20 Feb 2028." in words
    assert "has to come by 10 Aug 2026." in words
    assert "What is missing" not in words


def test_due_soon_thirty_days_ahead(cast, ola_id, granted):
    granted(date(2025, 8, 1), date(2025, 9, 20), granted_on=date(2025, 9, 25))
    # 2 March 2026: 18 days before 20 March.
    words = section(cast.sign_in("ola.worker"))
    assert "Due soon" in words
    assert "A repair or verified job must come by 20 Mar 2026." in words


def test_lapsed_says_what_brings_it_back(ola, granted):
    granted(date(2025, 7, 1), date(2025, 8, 20), granted_on=date(2025, 8, 25))
    words = section(ola)
    assert "Lapsed: no counted repair or verified job by 20 Feb 2026." in words
    assert "A new supervised repair is needed." in words


def test_suspended_until_lifted(ola, ola_id, granted, keep):
    granted(date(2026, 1, 10), date(2026, 2, 10), granted_on=date(2026, 2, 20))
    values = {"person": ola_id, "qualification": NAME, "decider": "somebody-else"}
    keep(Suspend, date(2026, 2, 25), reason="Worked without goggles", **values)
    words = section(ola)
    assert "Suspended from 25 Feb 2026" in words
    assert "A safety officer has to lift the suspension." in words
    keep(Lift, date(2026, 3, 2), **values)
    assert "Suspended" not in section(ola)


def test_a_record_that_does_not_count_says_why(ola, ola_id, keep):
    values = {"person": ola_id, "qualification": NAME, "job": "job-1"}
    keep(Practical, date(2026, 2, 1), trainer=ola_id, **values)
    words = section(ola)
    assert "Records that did not count (1)" in words
    assert "Supervised repair, 1 Feb 2026: Signed by the person it is about." in words


def test_each_person_reads_their_own(cast, ola, granted):
    granted(date(2026, 1, 10), date(2026, 2, 10), granted_on=date(2026, 2, 20))
    cast.add("pat.worker", "worker")
    assert "Not qualified" in section(cast.sign_in("pat.worker"))
    assert "Current" in section(ola)


def test_a_trainer_reads_what_they_may_sign_for(ola, ola_id, keep):
    words = "You may sign for it as a trainer."
    assert words not in section(ola)
    keep(TrainerAuthorised, date(2026, 2, 1), person=ola_id, qualification=NAME)
    assert words in section(ola)
