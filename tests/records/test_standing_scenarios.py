"""Every scenario of the table in assessment section 5, by the function and by the command line."""

import json
from typing import Any

import pytest
from click.testing import CliRunner
from records_cast import LEAD, SCENARIOS

from app.cli.standing import standing as command
from app.records.standing.definition import Standing
from app.records.standing.reasons import Reason
from app.records.standing.standing_file import read_standing_file

NAMES = [scenario["name"] for scenario in SCENARIOS["scenarios"]]
DAYS = ("last_good_day", "continuity_due_on")


def file_of(scenario: dict[str, Any]) -> dict[str, Any]:
    """The scenario as a file of the form `standing evaluate` reads."""
    kept = [e for e in SCENARIOS["base"] if e["id"] not in scenario.get("drop", [])]
    added = [{"person": "W", **_trainer(event), **event} for event in scenario.get("add", [])]
    questions = [
        {"person": "W", "qualification": LEAD, "as_of": q["as_of"], "known_on": q.get("known_on")}
        for q in scenario["questions"]
    ]
    return {
        "policy": {k: v for k, v in SCENARIOS["policy"].items() if k != "version"},
        "events": [{"qualification": LEAD, **event} for event in (*kept, *added)],
        "questions": questions,
    }


def _trainer(event: dict[str, Any]) -> dict[str, str]:
    return {"trainer": "A1"} if event["kind"] == "use" else {}


def codes(reasons: tuple[Reason, ...]) -> list[str]:
    return [reason.code for reason in reasons]


def told(answer: Standing) -> dict[str, Any]:
    """The parts of an answer that the scenarios speak of."""
    return {
        "status": answer.status,
        "reasons": codes(answer.reasons),
        "warnings": codes(answer.warnings),
        "missing": codes(answer.missing),
        "not_counted": {entry.event: codes(entry.whys) for entry in answer.not_counted},
        "evidence": list(answer.evidence),
        **{name: str(getattr(answer, name)) for name in DAYS},
    }


@pytest.mark.parametrize("scenario", SCENARIOS["scenarios"], ids=NAMES)
def test_the_function_answers_as_the_table_says(scenario: dict[str, Any]):
    answers = read_standing_file(json.dumps(file_of(scenario))).answers()
    for question, answer in zip(scenario["questions"], answers, strict=True):
        expected = {k: v for k, v in question.items() if k not in ("as_of", "known_on")}
        found = told(answer)
        assert {name: found[name] for name in expected} == expected, question["as_of"]


@pytest.mark.parametrize("scenario", SCENARIOS["scenarios"], ids=NAMES)
def test_the_command_line_answers_the_same(scenario: dict[str, Any]):
    text = json.dumps(file_of(scenario))
    result = CliRunner().invoke(command, ["evaluate", "-", "--json"], input=text)
    assert result.exit_code == 0, result.output
    answers = json.loads(result.output)["answers"]
    for question, answer in zip(scenario["questions"], answers, strict=True):
        assert answer["status"] == question["status"], question["as_of"]
        for part in ("reasons", "warnings", "missing"):
            if part in question:
                assert [reason["code"] for reason in answer[part]] == question[part]
        for part in (*DAYS, "evidence"):
            if part in question:
                assert answer[part] == question[part]
