"""What a phone's clock is worth: shown beside ours, flagged when it can't be, refused never."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

SLACK = timedelta(minutes=5)
"""Clocks of phones that set themselves agree to seconds; five minutes is a choice of ours."""

Doubt = Literal["", "before-last-seen", "after-arrival"]


@dataclass(frozen=True, slots=True)
class PhoneTime:
    """The three times of an item. ``server_seen_at`` is None on a phone that has seen none."""

    claimed_at: datetime
    server_seen_at: datetime | None
    arrived_at: datetime

    @property
    def doubt(self) -> Doubt:
        """Why the phone's time can't be right, or nothing."""
        if self.claimed_at > self.arrived_at + SLACK:
            return "after-arrival"
        if self.server_seen_at and self.claimed_at < self.server_seen_at - SLACK:
            return "before-last-seen"
        return ""

    @property
    def likely_at(self) -> datetime:
        """The moment to use: the phone's where it is possible, otherwise the nearest that is."""
        if self.doubt == "after-arrival":
            return self.arrived_at
        if self.doubt == "before-last-seen":
            assert self.server_seen_at is not None
            return min(self.server_seen_at, self.arrived_at)
        return min(self.claimed_at, self.arrived_at)
