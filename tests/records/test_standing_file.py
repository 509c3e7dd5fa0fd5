"""The command `standing evaluate`: a file that is not right is refused with its place."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from records_cast import LEAD, SCENARIOS

from app.cli.standing import standing as command

GOOD: dict[str, Any] = {
    "policy": {"practicals_required": 2, "trainers_required": 2},
    "events": [{"qualification": LEAD, **event} for event in SCENARIOS["base"]],
    "questions": [{"person": "W", "qualification": LEAD, "as_of": "2024-03-10"}],
}


def evaluate(text: str | bytes, *options: str) -> Result:
    return CliRunner().invoke(command, ["evaluate", "-", *options], input=text)


def changed(**parts: Any) -> str:
    return json.dumps({**copy.deepcopy(GOOD), **parts})


def with_event(number: int, **fields: Any) -> str:
    data = copy.deepcopy(GOOD)
    data["events"][number].update(fields)
    return json.dumps(data)


def test_the_answer_is_told_in_plain_lines():
    result = evaluate(json.dumps(GOOD))
    assert result.exit_code == 0
    assert result.output.splitlines() == [
        "W, lead, as of 2024-03-10: current",
        "  why: Granted on 2024-02-29 by M1. [g1]",
        "  rests on: t1, q1, p1, p2",
    ]


def test_the_answer_as_json_has_codes_values_records_and_sentences():
    data = json.loads(evaluate(changed(events=GOOD["events"][:-1]), "--json").output)
    (answer,) = data["answers"]
    assert answer["status"] == "not-qualified"
    assert answer["known_on"] is None
    assert answer["reasons"] == [
        {
            "code": "not-granted",
            "params": {},
            "records": [],
            "sentence": "Nobody has granted this qualification.",
        }
    ]


def test_a_file_is_read_from_disk(tmp_path: Path):
    path = tmp_path / "file.json"
    path.write_text(json.dumps(GOOD))
    result = CliRunner().invoke(command, ["evaluate", str(path)])
    assert result.exit_code == 0
    gone = CliRunner().invoke(command, ["evaluate", str(tmp_path / "gone.json")])
    assert gone.exit_code == 2


def test_each_qualification_may_have_its_own_policy():
    policy = {
        "practicals_required": 2,
        "qualifications": {
            LEAD: {"validity_months": 12},
            "second": {"modules": [LEAD, "shutdown"], "continuity_months": None},
        },
    }
    questions = [
        {"person": "W", "qualification": name, "as_of": "2024-03-10"} for name in (LEAD, "second")
    ]
    result = evaluate(changed(policy=policy, questions=questions), "--json")
    first, second = json.loads(result.output)["answers"]
    assert (first["status"], first["last_good_day"]) == ("current", "2025-02-28")
    assert second["status"] == "not-qualified"


def test_a_zone_for_the_whole_file():
    assert evaluate(changed(zone="America/Chicago")).exit_code == 0
    result = evaluate(changed(zone="Chicago"))
    assert result.exit_code == 2
    assert "events[0]: no time zone is called 'Chicago'" in result.output


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("", "line 1, column 1"),
        ("{", "line 1, column 2"),
        ("[]", "file"),
        ('{"events": [], "questions": [], "events": []}', "events: stands twice"),
        ("[" * 100_000, "file: nested"),
        (changed(extra=1), "extra"),
        (changed(events={}), "events"),
        (json.dumps({"events": []}), "questions"),
        (changed(policy={"validity_month": 24}), "policy.validity_month"),
        (changed(policy={"validity_months": "24"}), "policy.validity_months"),
        (changed(policy={"validity_months": 24.5}), "policy.validity_months"),
        (changed(policy={"grace_days": -1}), "grace_days must be 0 or more, not -1"),
        (changed(policy={"practicals_required": 1}), "cannot come from 2 trainers"),
        (changed(policy={"qualifications": {"x": {}}}), "questions[0].qualification"),
        (
            changed(policy={"qualifications": {LEAD: {"id": "y"}}}),
            f"policy.qualifications.{LEAD}.id",
        ),
        (changed(questions=[{"person": "W"}]), "questions[0]: qualification is missing"),
        (
            changed(questions=[{**GOOD["questions"][0], "known_on": "soon"}]),
            "questions[0].known_on",
        ),
        (
            changed(questions=[{**GOOD["questions"][0], "known_on": "2024-13-01"}]),
            "questions[0].known_on",
        ),
        (with_event(3, kind="exam"), "events[3].kind: there is no kind 'exam'"),
        (with_event(3, kind=["quiz"]), "events[3].kind"),
        (with_event(3, kind=None), "events[3].kind"),
        (with_event(3, score=9), "events[3].score"),
        (with_event(3, passed="yes"), "events[3].passed"),
        (with_event(3, person=""), "events[3]"),
        (with_event(3, occurred_on="12 Jan 2024"), "events[3].occurred_on"),
        (with_event(3, recorded_at="2024-01-12 18:00"), "events[3].recorded_at"),
        (
            with_event(4, critical=[{"step": "one", "outcome": "fine"}]),
            "events[4].critical[0].outcome",
        ),
        (with_event(4, critical="done"), "events[4].critical"),
    ],
)
def test_a_malformed_file_is_refused_with_its_place(text: str, place: str):
    result = evaluate(text)
    assert result.exit_code == 2, result.output
    assert place in result.output
    assert "Traceback" not in result.output


def test_a_file_that_is_not_text_is_refused():
    result = evaluate(b'{"zone": "\xff"}')
    assert result.exit_code == 2
    assert "byte 10" in result.output


def test_two_records_with_one_id_are_a_refusal():
    events = [*GOOD["events"], {**GOOD["events"][4], "job": "R5"}]
    result = evaluate(changed(events=events))
    assert result.exit_code != 0
    assert result.exception.sentence == "Two different records have the id p1."
