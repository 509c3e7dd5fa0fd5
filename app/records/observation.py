"""What a trainer saw, measured and signed at a supervised repair. Frozen; numbers as text."""

import re
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal, TypeAlias

from app.curriculum.scoring import Judgement, Outcome

# The language somebody read, answered or signed in; empty in records from before it was kept.
Language: TypeAlias = Literal["", "en", "es"]

_DECIMAL = re.compile(r"-?(0|[1-9]\d*)(\.\d+)?")
_CLOCK = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
_SHA256 = re.compile(r"[0-9a-f]{64}")


def _must_be_decimal(text: str | None, name: str) -> None:
    # A signed body holds no floats: 0.1 would be another number on another machine.
    if text is not None and not _DECIMAL.fullmatch(text):
        raise ValueError(f"{name} must be a plain decimal number as text, not {text!r}")


@dataclass(frozen=True, kw_only=True, slots=True)
class StepOutcome:
    """How one step of a checklist went.

    step, module: ids from the checklist; outcome: as in app/curriculum/scoring.py; critical:
    whether the step is one of the few that decide; reason: needed when a critical step does not
    apply; rule_met: whether what was measured was in tolerance, None where nothing was.
    Raises ValueError without a step. Source: assessment section 4.
    Example: ``StepOutcome(step="ratio-in-tolerance", outcome="done")``.
    """

    step: str
    outcome: Outcome
    module: str = ""
    critical: bool = True
    reason: str = ""
    rule_met: bool | None = None

    def __post_init__(self) -> None:
        if not self.step:
            raise ValueError("a step outcome needs the step")


@dataclass(frozen=True, kw_only=True, slots=True)
class Measured:
    """A value as measured, with the limits it was held against when it was signed.

    value, low, high: decimal text in `unit`; low and high None where there is no limit;
    is_within None where nothing was judged. Raises ValueError for text that is no decimal.
    Example: ``Measured(name="sample_a", value="240", unit="ml")``.
    """

    name: str
    value: str
    unit: str
    module: str = ""
    step: str = ""
    low: str | None = None
    high: str | None = None
    is_within: bool | None = None

    def __post_init__(self) -> None:
        _must_be_decimal(self.value, f"{self.name} value")
        _must_be_decimal(self.low, f"{self.name} low")
        _must_be_decimal(self.high, f"{self.name} high")


@dataclass(frozen=True, kw_only=True, slots=True)
class PortEntry:
    """One line of the port log: the port pumped, when resin showed at which port, the pressure.

    port, next_port: numbers from 1; opened_at, shown_at: clock times at the site, "14:05", empty
    if not noted or resin never showed; pressure_mpa: decimal text or None. Raises ValueError
    outside these.
    Example: ``PortEntry(port=1, next_port=2, shown_at="14:05", pressure_mpa="0.4")``.
    """

    port: int
    next_port: int | None = None
    opened_at: str = ""
    shown_at: str = ""
    pressure_mpa: str | None = None
    note: str = ""

    def __post_init__(self) -> None:
        if self.port < 1 or (self.next_port is not None and self.next_port < 1):
            raise ValueError(f"ports are numbered from 1, not {self.port} and {self.next_port}")
        for time in (self.opened_at, self.shown_at):
            if time and not _CLOCK.fullmatch(time):
                raise ValueError(f"a port log time looks like 14:05, not {time!r}")
        _must_be_decimal(self.pressure_mpa, "port pressure")


@dataclass(frozen=True, kw_only=True, slots=True)
class Signature:
    """What makes a record a signed one: printed name, time and meaning.

    printed_name: on record its seal (app/accounts/printed_names.py), so that the name can be
    erased; the name itself before it is kept, and in a file for the command line.
    way: "password" when the password was entered again, "device" when a phone's key signed.
    language: of the page it was signed on.
    Raises ValueError without name, meaning, or a UTC time.
    Source: 21 CFR 11.50 asks for these three on signed electronic records.
    Example: ``Signature(printed_name="Ana Invented", meaning="I watched this repair", ...)``.
    """

    printed_name: str
    meaning: str
    signed_at: datetime
    way: Literal["password", "device"] = "password"
    language: Language = ""

    def __post_init__(self) -> None:
        if not self.printed_name or not self.meaning:
            raise ValueError("a signature needs the printed name and the meaning")
        if self.signed_at.utcoffset() != timedelta(0):
            raise ValueError(f"signed_at must be in UTC, not {self.signed_at.isoformat()}")


@dataclass(frozen=True, kw_only=True, slots=True)
class PhotoTaken:
    """A photo that belongs to what was signed: its id and the SHA-256 of the bytes as taken.

    What is shown later is a copy without position data; the hash ties it to what the phone signed.
    Raises ValueError for what is no such hash. Example: ``PhotoTaken(id="p1", sha256="0" * 64)``.
    """

    id: str
    sha256: str
    module: str = ""
    step: str = ""

    def __post_init__(self) -> None:
        if not _SHA256.fullmatch(self.sha256):
            raise ValueError(f"a photo's sha256 has 64 hex digits, not {self.sha256!r}")


@dataclass(frozen=True, kw_only=True, slots=True)
class FromDevice:
    """That a repair was signed on a phone, and what the phone's clock said.

    device: the phone's id; key: the RFC 7638 thumbprint of its key, empty when the password was
    entered later instead; sha256: of the exact bytes that came (a compact JWS where there is a
    key); sequence: the phone's own count; claimed_at: its wall clock with offset; server_seen_at:
    the last time of ours that it had seen, empty if none. Ours, of arrival, is recorded_at.
    """

    device: str
    sha256: str
    claimed_at: str
    key: str = ""
    sequence: int = 0
    server_seen_at: str = ""

    def __post_init__(self) -> None:
        if not _SHA256.fullmatch(self.sha256):
            raise ValueError(f"sha256 has 64 hex digits, not {self.sha256!r}")


@dataclass(frozen=True, kw_only=True, slots=True)
class Observation:
    """The whole of a supervised repair as signed.

    items: every step of the checklist; judgement: the trainer's, overall; measured: what was
    measured; given: the job's and the product's numbers that the limits were worked out from;
    ports: the port log; photos: what was photographed; device: set when it was signed on a phone.
    Example: see tests/records/records_cast.py.
    """

    items: tuple[StepOutcome, ...]
    judgement: Judgement
    signature: Signature
    measured: tuple[Measured, ...] = ()
    given: tuple[Measured, ...] = ()
    ports: tuple[PortEntry, ...] = ()
    comment: str = ""
    photos: tuple[PhotoTaken, ...] = ()
    device: FromDevice | None = None
