"""One row of the benchmark table, and repeated measurements as one figure."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

ROUNDS = 5
"""Rounds in which the things that are compared take turns, because others use the machine too."""


@dataclass(frozen=True, slots=True)
class Row:
    """One figure: ``is_ratio`` tells that it can be compared between machines."""

    section: str
    name: str
    value: float
    unit: str = "x"
    is_more_better: bool = True
    goal: float | None = None
    spread: tuple[float, float] | None = None
    note: str = ""

    @property
    def is_ratio(self) -> bool:
        """Whether it says the same on a faster machine."""
        return self.unit == "x"

    @property
    def is_met(self) -> bool | None:
        """Whether the goal is reached; ``None`` without one."""
        if self.goal is None:
            return None
        return self.value >= self.goal if self.is_more_better else self.value <= self.goal


def row_of(section: str, name: str, values: Sequence[float], **more: object) -> Row:
    """The middle of several rounds, with the lowest and highest beside it."""
    return Row(
        section,
        name,
        statistics.median(values),
        spread=(min(values), max(values)),
        **more,  # type: ignore[arg-type]
    )


def processor_s(work: Callable[[], object], repetitions: int = 3) -> float:
    """Best processor time of some repetitions [s]."""
    best = np.inf
    for _ in range(repetitions):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return float(best)


def clock_s(work: Callable[[], object]) -> float:
    """Time by the clock [s]."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
