"""A full search for alternatives, both sides and all finishes, against judging the same couples one by one.

The loop is timed on a subsample and scaled to all couples.
"""

from __future__ import annotations

import time
from collections.abc import Iterator

from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Couple, judge
from service.judgement.attack import forget_lanes
from service.remedies import Constraints, find_alternatives
from service.remedies.search import Question, search
from tests.benchmarks.rows import Row, processor_s, row_of
from tests.seed_catalogue import seed_catalogue

PLACES = ("marine-atmosphere-0-100-m", "seawater-quiescent")
SUBSAMPLE = 50


def measure() -> Iterator[Row]:
    """Search in each place."""
    for environment_id in PLACES:
        yield from searched(environment_id)


def searched(environment_id: str) -> Iterator[Row]:
    """One place."""
    catalogue = seed_catalogue()
    environment = catalogue.environments[environment_id]
    joint = Couple(Surface("al-6082-t6"), Surface("cu-etp"))
    question = Question(joint, environment, Constraints(), catalogue, DEFAULT_POLICY)
    couples = [trial.candidate.couple for trial in search(question).trials]
    sample = couples[:: max(len(couples) // SUBSAMPLE, 1)]

    def one_by_one() -> None:
        for couple in sample:
            forget_lanes()
            judge([couple], environment, catalogue, DEFAULT_POLICY)

    def together() -> None:
        forget_lanes()
        judge(couples, environment, catalogue, DEFAULT_POLICY)

    turns = [
        (
            processor_s(one_by_one, 1) * len(couples) / len(sample),
            processor_s(together, 1),
        )
        for _ in range(3)
    ]
    batched = min(fast for _, fast in turns)
    ratios = [slow / fast for slow, fast in turns]
    note = f"{len(couples):,} couples with their uncertainty, {len(couples) / batched:,.0f}/s in one batch"
    yield row_of("alternatives", f"{environment_id}, one by one / batch", ratios, goal=20.0, note=note)

    def whole() -> None:
        forget_lanes()
        find_alternatives(joint, environment, Constraints(), catalogue, DEFAULT_POLICY)

    spent, clocks = [], []
    for _ in range(3):
        clock = time.perf_counter()
        spent.append(processor_s(whole, 1))
        clocks.append(time.perf_counter() - clock)
    yield row_of(
        "alternatives", f"{environment_id}, whole search", spent, unit="s", goal=2.0, is_more_better=False,
        note=f"processor time of one core, by the clock {min(clocks):.2f} s",
    )  # fmt: skip
