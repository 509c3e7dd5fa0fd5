"""What the invented firm does next, one record at a time: mostly jobs, now and then the rest."""

from datetime import date, timedelta
from random import Random
from typing import Any

from invented_firm import NAMES, PEOPLE, TRAINERS, Firm, person_id, trainer_id

from app.records.events import CounterEntry, Event, Grant, Practical, Quiz, Training, Use
from app.records.observation import Observation, Signature

# As often as in the firm's past: nine jobs to a repair and a grant, few of the others.
_KINDS = (Use, Practical, Grant, Quiz, Training, CounterEntry)
_OFTEN = (900, 100, 100, 20, 20, 5)


class Work:
    """A stream of records that arrive in order, for people taken at random."""

    def __init__(self, firm: Firm) -> None:
        self._chance = Random(20260303)
        self._number = 0
        self._last_use: Use | None = None
        self._arrived_at = firm.until + timedelta(days=1)

    @property
    def today(self) -> date:
        """The day on which the newest record arrived."""
        return self._arrived_at.date()

    def next_event(self) -> Event:
        """One more record."""
        self._number += 1
        self._arrived_at += timedelta(minutes=self._chance.randrange(1, 20))
        (kind,) = self._chance.choices(_KINDS, _OFTEN)
        if kind is CounterEntry and self._last_use is not None:
            target, self._last_use = self._last_use, None
            return CounterEntry(**self._stamp(), person=target.person, target=target.id)
        person = person_id(self._chance.randrange(PEOPLE))
        if kind is Quiz:
            return Quiz(**self._stamp(), person=person, module="gear", passed=True)
        if kind is Training:
            return Training(**self._stamp(), person=person, module="gear", revision=1)
        held = {"person": person, "qualification": self._chance.choice(NAMES)}
        if kind is Grant:
            return Grant(**self._stamp(), **held, decider="officer")
        return self._watched(Practical if kind is Practical else Use, held)

    def _watched(self, kind: type[Practical | Use], held: dict[str, str]) -> Event:
        trainer = trainer_id(self._chance.randrange(TRAINERS))
        signature = Signature(
            printed_name="Ana Invented",
            meaning="I watched this from start to end.",
            signed_at=self._arrived_at,
        )
        job = f"new-job-{self._number}"
        common = {**self._stamp(), **held, "trainer": trainer, "job": job}
        if kind is Practical:
            seen = Observation(items=(), judgement="works-safely-alone", signature=signature)
            return Practical(**common, observation=seen)
        self._last_use = Use(**common, signature=signature)
        return self._last_use

    def _stamp(self) -> dict[str, Any]:
        return {
            "id": f"n{self._number:035d}",
            "occurred_on": self.today,
            "zone": "UTC",
            "recorded_at": self._arrived_at,
            "recorded_by": "officer",
        }
