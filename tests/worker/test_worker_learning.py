"""Steps one card at a time: progress is kept, nothing counts twice, what is next is said."""

import re
from datetime import date

import pytest
from quiz_taker import do_all_steps, opened, sent

from app.records.events import ContentRevised, Quiz

MODULE = "shutdown"


def test_progress_is_kept_from_one_day_to_the_next(ola, cast, clock):
    sent(ola, f"/learn/{MODULE}/steps/1")
    sent(ola, f"/learn/{MODULE}/steps/2")
    clock.pass_time(days=1)
    page = opened(cast.sign_in("ola.worker"), f"/learn/{MODULE}")
    assert "Begun · steps 2 of 11" in page.words
    assert f'href="/learn/{MODULE}/steps/3"' in page.html
    assert "Go on with step 3" in page.words


def test_what_was_begun_comes_before_what_is_first(ola):
    assert "Next: Safety gear" in opened(ola, "/learn").words
    sent(ola, f"/learn/{MODULE}/steps/1")
    words = opened(ola, "/learn").words
    assert "Next: Shutdown and cleaning You have begun it." in words


def test_a_step_sent_twice_counts_once(ola):
    first = sent(ola, f"/learn/{MODULE}/steps/1")
    again = sent(ola, f"/learn/{MODULE}/steps/1")
    assert first.path == again.path == f"/learn/{MODULE}/steps/2"
    assert "steps 1 of 11" in opened(ola, f"/learn/{MODULE}").words


def test_the_last_step_alone_is_no_training(ola, records):
    page = sent(ola, f"/learn/{MODULE}/steps/11")
    assert page.path == f"/learn/{MODULE}/steps/1"
    assert "One step before this is not done yet." in page.words
    assert records() == []


def test_training_is_recorded_once(ola, records):
    do_all_steps(ola, MODULE)
    sent(ola, f"/learn/{MODULE}/steps/11")
    (training,) = records()
    assert (training.kind, training.module, training.occurred_on) == (
        "training",
        MODULE,
        date(2026, 3, 2),
    )


def test_the_day_is_the_day_at_the_site(cast, ola_id, clock, records):
    # 03:30 UTC on 3 March is still 22:30 on 2 March in New York (UTC−5 in winter).
    clock.pass_time(hours=13.5)
    do_all_steps(cast.sign_in("ola.worker"), MODULE)
    assert records()[0].occurred_on == date(2026, 3, 2)


def test_the_quiz_stays_shut_until_every_step_is_done(ola):
    sent(ola, f"/learn/{MODULE}/steps/1")
    page = sent(ola, f"/learn/{MODULE}/quiz")
    assert page.path == f"/learn/{MODULE}"
    assert "The quiz opens once every step is done." in page.words


def test_each_card_says_do_check_stop_and_why(ola):
    words = opened(ola, f"/learn/{MODULE}/steps/2").words
    for part in ("Step 2 of 11", " Do ", " Check ", " Stop if ", " Why "):
        assert part in words


def test_every_source_link_of_every_card_lands_on_the_card(ola, curriculum):
    for module in curriculum.modules.values():
        for step in module.lesson("en").steps:
            html = opened(ola, f"/learn/{module.id}/steps/{step.number}").html
            for target in re.findall(r'href="#(src-[^"]+)"', html):
                assert html.count(f'id="{target}"') == 1, (module.id, step.id, target)


@pytest.mark.parametrize("address", ["", "/steps/1", "/steps/99", "/steps/0"])
def test_unknown_modules_and_steps_are_not_found(ola, address: str):
    assert opened(ola, f"/learn/no-such-module{address}").status == 404
    if address in ("/steps/99", "/steps/0"):
        assert opened(ola, f"/learn/{MODULE}{address}").status == 404
        assert ola.post(f"/learn/{MODULE}{address}").status_code == 404


def test_a_passed_quiz_is_offered_again_but_not_as_the_thing_to_do(ola, keep, records):
    do_all_steps(ola, MODULE)
    asked = re.compile(r'<button[^>]*class="button step-on"[^>]*>\s*Take the quiz')
    assert asked.search(opened(ola, f"/learn/{MODULE}").html)
    keep(Quiz, date(2026, 3, 2), person=records()[0].person, module=MODULE, passed=True)
    page = opened(ola, f"/learn/{MODULE}")
    assert "Take the quiz again" in page.words
    assert not asked.search(page.html)


def test_a_major_change_sends_everybody_through_the_steps_again(ola, keep, records):
    do_all_steps(ola, MODULE)
    keep(Quiz, date(2026, 3, 2), person=records()[0].person, module=MODULE, passed=True)
    assert "Passed on 2 Mar 2026" in opened(ola, f"/learn/{MODULE}").words
    keep(ContentRevised, date(2026, 3, 2), module=MODULE, revision=2, change="major")

    words = opened(ola, "/learn").words
    assert "Next: Shutdown and cleaning The steps were changed." in words
    assert "Update needed · changed on 2 Mar 2026, steps 0 of 11" in words
    do_all_steps(ola, MODULE)
    assert "Passed on 2 Mar 2026" in opened(ola, f"/learn/{MODULE}").words
    assert [e.revision for e in records() if e.kind == "training"] == [1, 2]


def test_an_editorial_change_asks_for_nothing(ola, keep):
    do_all_steps(ola, MODULE)
    keep(ContentRevised, date(2026, 3, 2), module=MODULE, revision=2, change="editorial")
    assert "Quiz to take" in opened(ola, f"/learn/{MODULE}").words


def test_a_quiz_too_old_for_a_new_grant_is_asked_again(cast, ola_id, keep):
    # Evidence counts for 12 months (qualifications.yaml); 2 March 2026 is a day too late.
    keep(Quiz, date(2025, 3, 1), person=ola_id, module="safety-gear", passed=True)
    do_all_steps(cast.sign_in("ola.worker"), "safety-gear")
    words = opened(cast.sign_in("ola.worker"), "/learn").words
    assert "Passed on 1 Mar 2025 · too old for a new qualification" in words


def test_the_pages_are_for_workers(app, cast):
    cast.add("otto.officer", "safety-officer")
    officer = cast.sign_in("otto.officer")
    for address in ("/learn", f"/learn/{MODULE}", f"/learn/{MODULE}/steps/1", "/my-standing"):
        assert officer.get(address).status_code == 403
        assert app.test_client().get(address).status_code == 302
    assert officer.post(f"/learn/{MODULE}/steps/1").status_code == 403
    assert officer.post(f"/learn/{MODULE}/quiz").status_code == 403
