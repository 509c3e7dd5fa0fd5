"""A measured value beside the limits it has to keep."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """One check at the wall: the value, its inclusive limits (None: no limit) and the verdict."""

    value: float
    low: float | None
    high: float | None
    unit: str

    @property
    def is_within(self) -> bool:
        """True when the value lies inside both limits, the limits themselves included."""
        return (self.low is None or self.value >= self.low) and (
            self.high is None or self.value <= self.high
        )
