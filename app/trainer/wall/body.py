"""What a phone signs after a supervised repair: exact canonical bytes, read strictly. No Flask.

The form is ours: RFC 8785 JSON without floats. ``typed`` is what was typed at the wall, ``value``
its decimal text in the base unit as the phone read it; the server reads ``typed`` again.
"""

import json
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from app.curriculum.scoring import Judgement, Outcome
from app.records.ledger.canonical import NotCanonical, canonical
from app.records.observation import PhotoTaken
from app.records.reading import Malformed, read
from app.trade.errors import Refusal

FORMAT = "lowport-sign-off"
TYP = "lowport-sign-off+jws"
LARGEST = 64 * 1024


class BodyWrong(Refusal):
    """Signed bytes that are not of the form above; the place says where."""

    template = "This sign-off can't be read. {reason}"


@dataclass(frozen=True, kw_only=True, slots=True)
class WallItem:
    """How one item of a checklist went."""

    module: str
    step: str
    outcome: Outcome
    reason: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WallMeasure:
    """One measured value."""

    module: str
    step: str
    name: str
    typed: str
    value: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WallBatch:
    """One batch of mixed resin: clock time of mixing, temperature in °C."""

    number: int
    mixed_at: str
    typed: str
    temperature_c: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WallPort:
    """One line of the port log; pressure texts are empty where none was read."""

    row: int
    port: int
    opened_at: str
    next_showed_at: str
    typed: str
    pressure_mpa: str
    note: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WallModule:
    """A module at the revision that stood on the phone."""

    module: str
    revision: int


@dataclass(frozen=True, kw_only=True, slots=True)
class WallGiven:
    """A value of the job or the data sheet that limits were worked out from."""

    name: str
    value: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WallBody:
    """The whole of it. ``verdict`` is the phone's own; the server works it out again."""

    format: Literal["lowport-sign-off"]
    version: int
    id: str
    person: str
    job: str
    qualification: str
    trainer: str
    occurred_on: date
    modules: tuple[WallModule, ...]
    items: tuple[WallItem, ...]
    measured: tuple[WallMeasure, ...]
    batches: tuple[WallBatch, ...]
    ports: tuple[WallPort, ...]
    photos: tuple[PhotoTaken, ...]
    given: tuple[WallGiven, ...]
    judgement: Judgement
    remarks: str
    verdict: Literal["pass", "not-yet"]
    printed_name: str
    meaning: str
    language: Literal["en", "es"]
    signed_at: datetime

    def __post_init__(self) -> None:
        if self.version != 1:
            raise ValueError(f"version 1 is known, not {self.version}")


def read_body(signed: bytes) -> WallBody:
    """The body in signed bytes; raises BodyWrong, also for bytes that are not canonical."""
    try:
        if len(signed) > LARGEST:
            raise ValueError("it is too large.")
        data = json.loads(signed.decode())
        if canonical(data) != signed:
            raise ValueError("its bytes are not canonical.")
        return read(WallBody, data, "body")
    except (NotCanonical, Malformed) as wrong:
        raise BodyWrong(reason=wrong.sentence) from wrong
    except ValueError as wrong:
        raise BodyWrong(reason=str(wrong)) from wrong
