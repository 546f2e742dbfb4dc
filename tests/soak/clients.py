"""Client processes: as fast as they can, or at a pace that does not slow down when the service does."""

from __future__ import annotations

import multiprocessing
import random
import time
from array import array
from collections import defaultdict
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from http.client import HTTPException

from tests.soak.mix import Caller, WrongAnswerError, choices

CLIENTS = 4
MOST_ERRORS_KEPT = 20


def _floats() -> array[float]:
    return array("f")


@dataclass
class Tally:
    """What clients met: seconds by kind of request, and everything that was wrong."""

    seconds: dict[str, array[float]] = field(default_factory=lambda: defaultdict(_floats))
    errors: int = 0
    examples: list[str] = field(default_factory=list)

    @property
    def count(self) -> int:
        """Requests that were answered as they should be."""
        return sum(len(each) for each in self.seconds.values())

    def add(self, other: Tally) -> None:
        """Take in what another client met."""
        for name, seconds in other.seconds.items():
            self.seconds[name].extend(seconds)
        self.errors += other.errors
        self.examples = (self.examples + other.examples)[:MOST_ERRORS_KEPT]


def call(place: tuple[str, int], key: str, number: int, duration_s: float, per_s: float | None) -> Tally:
    """Do the mix over one connection; with a pace, time counts from when a request was due."""
    chance = random.Random(f"{number} {duration_s}")  # noqa: S311 - a repeatable mixture
    caller = Caller(*place, key, number, chance)
    tally = Tally()
    began_s = due_s = time.perf_counter()
    for name, do in choices(chance):
        if due_s - began_s >= duration_s:
            return tally
        if per_s is not None:
            time.sleep(max(0.0, due_s - time.perf_counter()))
        _do(lambda do=do: do(caller), name, due_s, tally)  # type: ignore[misc]  # bound now, called at once
        due_s = time.perf_counter() if per_s is None else due_s + chance.expovariate(per_s)
    return tally


def _do(work: Callable[[], None], name: str, due_s: float, tally: Tally) -> None:
    try:
        work()
    except (WrongAnswerError, OSError, HTTPException) as error:
        tally.errors += 1
        tally.examples.append(f"{name}: {error!r}")
        del tally.examples[MOST_ERRORS_KEPT:]
    else:
        tally.seconds[name].append(time.perf_counter() - due_s)


def call_together(
    place: tuple[str, int],
    key: str,
    duration_s: float,
    per_s: float | None,
    while_waiting: Callable[[], None],
) -> Tally:
    """Let several client processes call, and do something now and then meanwhile."""
    each = None if per_s is None else per_s / CLIENTS
    together = Tally()
    with ProcessPoolExecutor(CLIENTS, mp_context=multiprocessing.get_context("spawn")) as pool:
        working = [pool.submit(call, place, key, number, duration_s, each) for number in range(CLIENTS)]
        while not all(future.done() for future in working):
            while_waiting()
        for future in working:
            together.add(future.result())
    return together
