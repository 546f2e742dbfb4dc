"""A full search for alternatives, both sides and all finishes, against judging the same couples one by one.

The loop is timed on a subsample and scaled to all couples. Times are processor times, because other processes
share the machine; the wall clock of the best run stands beside them.
"""

from __future__ import annotations

import time
from collections.abc import Callable

from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Couple, judge
from service.remedies import Constraints, find_alternatives
from service.remedies.search import Question, search
from tests.seed_catalogue import seed_catalogue

PLACES = ("marine-atmosphere-0-100-m", "seawater-quiescent")
SUBSAMPLE = 150
FEWEST_COUPLES = 3_000
GOAL_RATIO = 20.0
GOAL_S = 2.0


def seconds(work: Callable[[], object], repetitions: int = 3) -> tuple[float, float]:
    """Best processor time and best wall-clock time of some repetitions [s]."""
    processor = wall = float("inf")
    for _ in range(repetitions):
        start, clock = time.process_time(), time.perf_counter()
        work()
        processor = min(processor, time.process_time() - start)
        wall = min(wall, time.perf_counter() - clock)
    return processor, wall


def measure(environment_id: str) -> bool:
    catalogue = seed_catalogue()
    environment = catalogue.environments[environment_id]
    joint = Couple(Surface("al-6082-t6"), Surface("cu-etp"))
    question = Question(joint, environment, Constraints(), catalogue, DEFAULT_POLICY)
    couples = [trial.candidate.couple for trial in search(question).trials]
    step = max(len(couples) // SUBSAMPLE, 1)
    sample = couples[::step]

    def one_by_one() -> None:
        for couple in sample:
            judge([couple], environment, catalogue, DEFAULT_POLICY)

    batched, wall = seconds(lambda: judge(couples, environment, catalogue, DEFAULT_POLICY))
    loop, _ = seconds(one_by_one, 2)
    whole, whole_wall = seconds(
        lambda: find_alternatives(joint, environment, Constraints(), catalogue, DEFAULT_POLICY)
    )
    ratio = loop * len(couples) / len(sample) / batched
    print(f"{environment_id}: {len(couples)} couples with their uncertainty")
    print(
        f"  judged in one batch {batched:.2f} s ({wall:.2f} s by the clock), {len(couples) / batched:.0f}/s"
    )
    print(f"  one by one {loop * len(couples) / len(sample):.1f} s: ratio {ratio:.1f} (goal {GOAL_RATIO:g})")
    print(f"  whole search, ranked and told {whole:.2f} s ({whole_wall:.2f} s by the clock, goal {GOAL_S:g})")
    return len(couples) >= FEWEST_COUPLES and ratio >= GOAL_RATIO and whole < GOAL_S


def main() -> None:
    met = [measure(environment_id) for environment_id in PLACES]
    print("goals met" if all(met) else "goals missed")


if __name__ == "__main__":
    main()
