"""Cracks being injected, kept in this process so that an act need not replay all before it.

The run's papers are the truth: whatever is missing here is replayed from them, on any process and
after any restart. Who takes a crack has it alone; a second request meanwhile replays its own.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from threading import Lock
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from app.trade.fill import Crack, Decision, Filling

MOST_KEPT = 24


class LiveCracks:
    """At most so many cracks, the least lately used dropped first."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self.most = most
        self._kept: OrderedDict[str, tuple[int, Filling]] = OrderedDict()
        self._lock = Lock()

    def take(self, run_id: str, crack: Crack, decisions: Sequence[Decision]) -> Filling:
        """The crack after these decisions; the caller alone has it until it is put back."""
        from app.trade.fill import Filling  # loads numpy and scipy

        with self._lock:
            applied, filling = self._kept.pop(run_id, (0, None))
        if filling is None or applied > len(decisions):
            applied, filling = 0, Filling(crack)
        for decision in decisions[applied:]:
            filling.apply(decision)
        return filling

    def put_back(self, run_id: str, filling: Filling, applied: int) -> None:
        """Keep a crack for the next act; applied: how many decisions it has had."""
        with self._lock:
            self._kept[run_id] = (applied, filling)
            while len(self._kept) > self.most:
                self._kept.popitem(last=False)

    def __len__(self) -> int:
        return len(self._kept)


LIVE = LiveCracks()
