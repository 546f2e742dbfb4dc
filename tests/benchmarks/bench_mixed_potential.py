"""Batched solvers against a Python loop of scipy.optimize.brentq, all measured in one run.

The loop is timed on a subsample of the couples and scaled to all of them. Memory beyond inputs and
outputs is bounded by the block size, which the peak of allocations shows.
"""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Callable

import numpy as np
from scipy.optimize import brentq  # type: ignore[import-untyped]

from service.chemistry.mixed_potential import solve
from service.chemistry.thin_film import round_joint, sheet_joint
from tests.factories.random_joints import lane, logarithmic, random_branches
from tests.factories.scalar_kinetics import net_current

COUPLES = 100_000
SUBSAMPLE = 2_000
GOAL = 40.0


def seconds(work: Callable[[], object], repetitions: int = 3) -> float:
    """Best processor time of some repetitions [s]; other processes share the machine."""
    best = np.inf
    for _ in range(repetitions):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return float(best)


def main() -> None:
    rng = np.random.default_rng(0)
    members = random_branches(rng, COUPLES, -1.0, -0.2), random_branches(rng, COUPLES, -0.5, 0.4)
    areas = np.stack([logarithmic(rng, 1e-2, 1e2, COUPLES) for _ in members])
    sheet, widths = logarithmic(rng, 1e-7, 1e-3, COUPLES), logarithmic(rng, 1e-3, 0.2, COUPLES)

    singles = [[lane(member, number) for member in members] for number in range(SUBSAMPLE)]
    currents = [[net_current(single) for single in pair] for pair in singles]
    rests = [sorted(float(single.corrosion_potential) for single in pair) for pair in singles]

    def loop() -> list[float]:
        roots = []
        for number, ((first, second), (low, high)) in enumerate(zip(currents, rests, strict=True)):
            one, other = areas[0, number], areas[1, number]
            roots.append(brentq(lambda e, a=first, b=second, p=one, q=other: p * a(e) + q * b(e), low, high))
        return roots

    in_loop = seconds(loop) * COUPLES / SUBSAMPLE
    batched = seconds(lambda: solve(members, areas))
    worst = np.abs(solve(members, areas).potential[:SUBSAMPLE] - np.array(loop())).max()
    tracemalloc.start()
    couple = solve(members, areas)
    kept, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    print(f"{COUPLES} couples, loop of brentq timed on {SUBSAMPLE} of them and scaled")
    print(f"loop {in_loop:.2f} s, batched {batched:.3f} s: {in_loop / batched:.0f}x (goal {GOAL:.0f}x)")
    print(f"largest difference {worst:.1e} V, {couple.iterations.mean():.2f} evaluations a couple")
    print(f"results {kept / 1e6:.1f} MB, working memory {(peak - kept) / 1e6:.1f} MB")
    for name, work in {
        "film, endless sides": lambda: sheet_joint(*members, sheet),
        "film, ends damped": lambda: sheet_joint(*members, sheet, widths, widths, has_exact_ends=False),
        "film, ends exact": lambda: sheet_joint(*members, sheet, widths, widths),
        "film, disk in a plate": lambda: round_joint(*members, sheet, 1.0, widths),
    }.items():
        spent = seconds(work, 2)
        print(f"{name}: {COUPLES / spent / 1e3:.0f} thousand joints a second, {in_loop / spent:.0f}x")


if __name__ == "__main__":
    main()
