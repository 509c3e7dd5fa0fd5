"""A standing as plain data and as plain text, for the command line and exports."""

from collections.abc import Iterator
from typing import Any

from app.records.standing.definition import Standing
from app.records.standing.reasons import NotCounted, Reason, plain, sentence

_DAYS = ("as_of", "granted_on", "last_good_day", "continuity_due_on")


def standing_data(answer: Standing) -> dict[str, Any]:
    """A standing as data that JSON can hold; days as 2024-02-29, reasons with their sentence."""
    data: dict[str, Any] = {
        "person": answer.person,
        "qualification": answer.qualification,
        "status": answer.status,
        "reasons": [_reason_data(reason) for reason in answer.reasons],
        "warnings": [_reason_data(reason) for reason in answer.warnings],
        "missing": [_reason_data(reason) for reason in answer.missing],
        "not_counted": [_not_counted_data(entry) for entry in answer.not_counted],
        "evidence": list(answer.evidence),
        "grant": answer.grant,
    }
    for name in _DAYS:
        day = getattr(answer, name)
        data[name] = None if day is None else day.isoformat()
    return data


def _reason_data(reason: Reason) -> dict[str, Any]:
    return {
        "code": reason.code,
        "params": {
            name: value if isinstance(value, int) else plain(name, value)
            for name, value in reason.params.items()
        },
        "records": list(reason.events),
        "sentence": sentence(reason),
    }


def _not_counted_data(entry: NotCounted) -> dict[str, Any]:
    return {"record": entry.event, "whys": [_reason_data(why) for why in entry.whys]}


def standing_lines(answer: Standing) -> Iterator[str]:
    """A standing as lines of text: the status first, then every reason, indented."""
    status = answer.status.replace("-", " ")
    yield f"{answer.person}, {answer.qualification}, as of {answer.as_of}: {status}"
    for title, reasons in (
        ("why", answer.reasons),
        ("soon", answer.warnings),
        ("missing", answer.missing),
    ):
        for reason in reasons:
            yield f"  {title}: {sentence(reason)}{_records(reason.events)}"
    if answer.evidence:
        yield f"  rests on: {', '.join(answer.evidence)}"
    for entry in answer.not_counted:
        whys = " ".join(sentence(why) for why in entry.whys)
        yield f"  does not count: {entry.event}. {whys}"


def _records(events: tuple[str, ...]) -> str:
    return f" [{', '.join(events)}]" if events else ""
