"""A file of policy, events and questions -> standings, by the same function as the board.

The form of the file is described in DEVELOPERS.md, "The standing file". Pure: text in, data out.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from app.records.events import ContentRevised, Event, Quiz, Training
from app.records.ledger.encoding import event_of
from app.records.policy import Policy, QualificationPolicy
from app.records.reading import Malformed, mapping, read, value_of
from app.records.standing.definition import Standing, standing

_MODULE_KINDS = (Training.kind, Quiz.kind, ContentRevised.kind)
_PARTS = ("policy", "zone", "events", "questions")


@dataclass(frozen=True, kw_only=True, slots=True)
class Question:
    """Who, which qualification, as of which day, known on which day (None: all in the file)."""

    person: str
    qualification: str
    as_of: date
    known_on: date | datetime | None = None


@dataclass(frozen=True, slots=True)
class StandingFile:
    """A file as read."""

    policy: Policy
    events: tuple[Event, ...]
    questions: tuple[Question, ...]

    def answers(self) -> list[Standing]:
        """The standing for each question, in order. Raises ContentConflict."""
        return [
            standing(self.events, self.policy, q.person, q.qualification, q.as_of, q.known_on)
            for q in self.questions
        ]


def read_standing_file(text: str) -> StandingFile:
    """Read the text of a standing file. Raises Malformed with the place."""
    whole = mapping(_parsed(text), "file")
    for name in whole:
        if name not in _PARTS:
            raise Malformed(place=name, reason=f"there is no part {name}.")
    zone = value_of(str, whole.get("zone", "UTC"), "zone")
    events = tuple(
        event_of(_filled(data, zone, f"events[{i}]"), f"events[{i}]")
        for i, data in enumerate(_list(whole, "events"))
    )
    questions = tuple(
        _question(data, f"questions[{i}]") for i, data in enumerate(_list(whole, "questions"))
    )
    policy = _policy(mapping(whole.get("policy", {}), "policy"), questions)
    return StandingFile(policy, events, questions)


def _parsed(text: str) -> object:
    try:
        return json.loads(text, object_pairs_hook=_each_once)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        raise Malformed(place=place, reason=f"this is not JSON: {error.msg}.") from None
    except RecursionError:
        raise Malformed(place="file", reason="nested too deeply.") from None


def _each_once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise Malformed(place=twice, reason="stands twice in the same braces.")
    return found


def _list(whole: Mapping[str, object], name: str) -> list[object]:
    found = whole.get(name)
    if not isinstance(found, list):
        raise Malformed(place=name, reason="must be a list.")
    return found


def _filled(data: object, zone: str, place: str) -> dict[str, object]:
    """An event with what a file may leave out: the zone, the arrival, the only module."""
    given = dict(mapping(data, place))
    given.setdefault("zone", zone)
    day = given.get("occurred_on")
    if isinstance(day, str):
        given.setdefault("recorded_at", f"{day}T18:00:00Z")
    if given.get("kind") in _MODULE_KINDS and "qualification" in given:
        given.setdefault("module", given["qualification"])
    return given


def _question(data: object, place: str) -> Question:
    given = dict(mapping(data, place))
    known_on = given.pop("known_on", None)
    question = read(Question, given, place)
    if known_on is None:
        return question
    kind = date if isinstance(known_on, str) and len(known_on) == 10 else datetime
    known = value_of(kind, known_on, f"{place}.known_on")
    return Question(
        person=question.person,
        qualification=question.qualification,
        as_of=question.as_of,
        known_on=known,
    )


def _policy(given: Mapping[str, object], questions: Iterable[Question]) -> Policy:
    """The fields of `policy` hold for every qualification; its own entry may change them."""
    shared = {name: value for name, value in given.items() if name != "qualifications"}
    if "qualifications" not in given:
        asked = dict.fromkeys(question.qualification for question in questions)
        return Policy({name: _rule(name, shared, "policy") for name in asked})
    place = "policy.qualifications"
    own = mapping(given["qualifications"], place)
    rules = {
        name: _rule(name, {**shared, **mapping(fields, f"{place}.{name}")}, f"{place}.{name}")
        for name, fields in own.items()
    }
    for i, question in enumerate(questions):
        if question.qualification not in rules:
            raise Malformed(
                place=f"questions[{i}].qualification",
                reason=f"the policy has no qualification {question.qualification}.",
            )
    return Policy(rules)


def _rule(name: str, fields: Mapping[str, object], place: str) -> QualificationPolicy:
    if "id" in fields:
        raise Malformed(place=f"{place}.id", reason="there is no field id.")
    return read(QualificationPolicy, {"modules": [name], **fields, "id": name}, place)
