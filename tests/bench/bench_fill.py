"""Crack fill on a 150 × 40 grid: time against its own bare linear solves, decisions, memory.

Floor and subject are timed in the same run, by turns: a whole fill by the book, and the bare
banded solves of the same systems, kept from one such fill. Goals: at most 1.0 s a whole fill,
0.15 s a decision, 3 × the solves, 150 MiB. Times are of the processor, so that other work on the
machine is not counted; it still slows caches and memory, so the ratio is what means most.

Run with one thread: OPENBLAS_NUM_THREADS=1 python tests/bench/bench_fill.py
"""

import os
import resource
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import numpy as np

from app.trade.fill import Crack, Decision, Filling
from app.trade.filling import system
from app.trade.set_cracks import SET_CRACKS, by_the_book

ROUNDS = 15
GOALS = "goals: 1.0 s a fill, 0.15 s a decision, 3 × its solves, 150 MiB"

Solves = list[tuple[np.ndarray, np.ndarray]]


def wall() -> Crack:
    """A rough crack up a wall, the plain set crack on the fine grid."""
    return replace(SET_CRACKS["plain-vertical"].crack, columns=150, rows=40)


def fill(crack: Crack, decisions: tuple[Decision, ...]) -> list[float]:
    """Inject it; how long each decision took."""
    filling, taken = Filling(crack), []
    for decision in decisions:
        start = time.process_time()
        filling.apply(decision)
        taken.append(time.process_time() - start)
    return taken


def keep_systems(work: Callable[[], object]) -> Solves:
    """Every linear system solved during the work."""
    kept: Solves = []
    solve = system.solve_banded

    def keeping(band: np.ndarray, sides: np.ndarray) -> np.ndarray:
        kept.append((band.T.copy(), sides.copy()))
        return solve(band, sides)

    system.solve_banded = keeping
    try:
        work()
    finally:
        system.solve_banded = solve
    return kept


def time_solves(kept: Solves) -> float:
    """The bare solves, without the copying that keeps them fresh."""
    total = 0.0
    for band, sides in kept:
        fresh, right = band.copy().T, sides.copy()
        start = time.process_time()
        system.solve_banded(fresh, right)
        total += time.process_time() - start
    return total


def peak_mib() -> float:
    """Most memory this process ever had."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    crack = wall()
    decisions = by_the_book(crack)
    memory = peak_mib()
    kept = keep_systems(lambda: fill(crack, decisions))
    wholes, slowest, floors = [], [], []
    for _ in range(ROUNDS):
        floors.append(time_solves(kept))
        taken = fill(crack, decisions)
        wholes.append(sum(taken))
        slowest.append(max(taken))
    ratio = statistics.median(w / f for w, f in zip(wholes, floors, strict=True))
    whole, floor = statistics.median(wholes), statistics.median(floors)
    print(f"crack fill 150 x 40, {len(kept)} steps, {len(decisions)} decisions")
    print(f"  whole fill                         {whole:.2f} s  (best {min(wholes):.2f})")
    print(f"  its bare solves                    {floor:.2f} s  (best {min(floors):.2f})")
    print(f"  ratio                              {ratio:.2f}")
    print(f"  slowest decision                   {statistics.median(slowest):.3f} s")
    print(f"  peak memory                        {memory:.0f} MiB")
    print(f"  {GOALS}")


if __name__ == "__main__":
    main()
