"""Answering: what was typed is read back first, what is unclear is asked about, the first stands.

The refusals are those of the grammar this project set for typed quantities: no unit, commas,
improper and impossible fractions, feet with too many inches, signs, exponents, overlong text.
"""

import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from purge_arithmetic import hose_holds
from quiz_taker import opened, questions_of, right_option, sent

HOSE = ("pump-purge", "hose-holds")
LENGTH = ("port-setting", "half-thickness")

REFUSED = [
    (HOSE, "", "Nothing is typed here."),
    (HOSE, "1,5 fl oz", "What does the comma"),
    (HOSE, "1,500 ml", "What does the comma"),
    (HOSE, "-3 fl oz", "below zero"),
    (HOSE, "1e3 ml", "without the e"),
    (HOSE, "NaN", "does not start with a number"),
    (HOSE, "inf ml", "does not start with a number"),
    (HOSE, "about 5 ml", "does not start with a number"),
    (HOSE, "1/0 fl oz", "0 below its line"),
    (HOSE, "1 3/2 fl oz", "is not less than one"),
    (HOSE, "5 in", "in is for length"),
    (HOSE, "5 furlongs", "What unit is “furlongs”"),
    (HOSE, "5 ml 3", "What unit is"),
    (HOSE, "1" * 41, "more than 40 characters"),
    (HOSE, "<script>alert(1)</script>", "does not start with a number"),
    (LENGTH, "6'-14\"", "a foot or more"),
    (LENGTH, "5.5' 6\"", "Feet must be whole"),
    (LENGTH, "6' 4", "What is the 4 after the feet?"),
]


@pytest.mark.parametrize(("item", "typed", "sentence"), REFUSED)
@pytest.mark.parametrize("act", ["read", "mark"])
def test_unclear_answers_are_asked_about_beside_the_field(
    ola, quiz_of, kept_answers, item, typed: str, sentence: str, act: str
):
    address = quiz_of(*item) + "/1"
    page = sent(ola, address, answer=typed, act=act)
    assert page.status == 422
    assert sentence in page.words
    assert page.typed == typed.strip()
    assert 'aria-invalid="true"' in page.html
    assert "<script>alert" not in page.html
    assert kept_answers(address) == {}


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("6 ft 4 in", "6 ft 4 in = 76 in"),
        ("6'-4 1/2\"", "6 ft 4 1/2 in = 76 1/2 in"),
        ("1½ in", "1 1/2 in = 38.1 mm"),
        ("1 1/2", "1 1/2 in = 38.1 mm"),
        ("20 mil", "20 mil = 0.508 mm"),
        ("6 pies 4 pulg", "6 ft 4 in = 76 in"),
    ],
)
def test_what_was_read_is_said_before_it_is_marked(
    ola, quiz_of, kept_answers, typed: str, said: str
):
    address = quiz_of(*LENGTH) + "/1"
    page = sent(ola, address, answer=typed, act="read")
    assert f"We read: {said}" in page.words
    assert kept_answers(address) == {}
    changed = sent(ola, address, answer=typed, act="change")
    assert (changed.status, changed.typed) == (200, typed)
    sent(ola, address, answer=typed, act="mark")
    (answer,) = kept_answers(address).values()
    assert (answer.typed, answer.read_as) == (typed, said)


def test_a_known_slip_is_explained_at_once(ola, quiz_of, kept_answers):
    # Width taken as radius: four times the volume, since area goes with the square.
    address = quiz_of(*HOSE) + "/1"
    value = 4 * hose_holds(opened(ola, address).asked)
    page = sent(ola, address, answer=f"{value:.2f} fl oz", act="mark")
    slips = {slip["id"]: slip["feedback"]["en"] for slip in questions_of(HOSE[0])[HOSE[1]]["slips"]}
    assert slips["width-as-radius"] in page.words
    assert "Worked out" in page.words
    (answer,) = kept_answers(address).values()
    assert (answer.is_right, answer.slip) == (False, "width-as-radius")


def test_an_unknown_mistake_gets_the_worked_solution_only(ola, quiz_of, kept_answers):
    address = quiz_of(*HOSE) + "/1"
    value = hose_holds(opened(ola, address).asked)
    page = sent(ola, address, answer=f"{1.5 * value:.2f} fl oz", act="mark")
    for slip in questions_of(HOSE[0])[HOSE[1]]["slips"]:
        assert slip["feedback"]["en"] not in page.words
    shown = re.search(r"Right is: ([\d.]+)\sfl\soz \(", page.words)
    assert shown, page.words
    assert float(shown.group(1)) == pytest.approx(value, rel=0.005)  # three digits are shown
    assert kept_answers(address)[1].slip == ""


def test_the_first_answer_stands(ola, quiz_of, kept_answers):
    address = quiz_of(*HOSE) + "/1"
    value = hose_holds(opened(ola, address).asked)
    first = sent(ola, address, answer="1 fl oz", act="mark")
    again = sent(ola, address, answer=f"{value:.3f} fl oz", act="mark")
    assert "You answered: 1 fl oz" in again.words
    assert first.words == again.words
    (answer,) = kept_answers(address).values()
    assert answer.typed == "1 fl oz"
    assert not answer.is_right


def test_the_same_choice_sent_twice_is_one_answer(ola, quiz_of, kept_answers):
    address = quiz_of("pump-purge", "lever-position", "stream-spits") + "/1"
    page = opened(ola, address)
    option = page.options[right_option("pump-purge", page.asked)]
    for _ in range(2):
        assert "Right" in sent(ola, address, option=option).words
    assert list(kept_answers(address)) == [1]


@pytest.mark.parametrize(
    ("data", "sentence"),
    [({}, "Choose one answer."), ({"option": "none-of-these"}, "Choose one of the answers shown.")],
)
def test_a_choice_nobody_offered_is_refused(ola, quiz_of, kept_answers, data, sentence: str):
    address = quiz_of("pump-purge", "lever-position") + "/1"
    page = sent(ola, address, **data)
    assert (page.status, kept_answers(address)) == (422, {})
    assert sentence in page.words


def test_questions_are_answered_in_order(ola, quiz_of, kept_answers):
    quiz = quiz_of("pump-purge", "hose-holds", "lever-position", "stream-spits")
    page = sent(ola, f"{quiz}/2", option="shut")
    assert page.path == f"{quiz}/1"
    assert opened(ola, f"{quiz}/3").path == f"{quiz}/1"
    assert opened(ola, quiz).path == f"{quiz}/1"
    assert kept_answers(quiz) == {}
    assert opened(ola, f"{quiz}/4").status == opened(ola, f"{quiz}/0").status == 404


def test_options_do_not_always_stand_in_the_files_order(ola, quiz_of):
    orders = {
        tuple(opened(ola, quiz_of("pump-purge", "lever-position") + "/1").options.values())
        for _ in range(40)
    }
    assert len(orders) > 1


def test_the_same_answer_from_eight_presses_at_once_is_one(app, cast, ola_id, quiz_of, records):
    quiz = quiz_of("pump-purge", "lever-position")
    phones = [cast.sign_in("ola.worker") for _ in range(8)]
    with ThreadPoolExecutor(8) as pool:
        answers = pool.map(lambda phone: phone.post(f"{quiz}/1", data={"option": "shut"}), phones)
        assert {answer.status_code for answer in answers} == {303}
    assert [event.kind for event in records()] == ["quiz"]
