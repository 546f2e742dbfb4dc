"""Batched solvers against a Python loop of scipy.optimize.brentq, measured in turns.

The loop is timed on a subsample of the couples and scaled to all of them. Memory beyond inputs and
outputs is bounded by the block size, which the peak of allocations shows.
"""

from __future__ import annotations

import tracemalloc
from collections.abc import Callable, Iterator

import numpy as np
from scipy.optimize import brentq  # type: ignore[import-untyped]

from service.chemistry.mixed_potential import solve
from service.chemistry.thin_film import round_joint, sheet_joint
from tests.benchmarks.rows import ROUNDS, Row, processor_s, row_of
from tests.factories.random_joints import lane, logarithmic, random_branches
from tests.factories.scalar_kinetics import net_current

COUPLES = 100_000
SUBSAMPLE = 1_000
FILM_COUPLES = 50_000


def measure() -> Iterator[Row]:
    """Give the ratios."""
    rng = np.random.default_rng(0)
    members = random_branches(rng, COUPLES, -1.0, -0.2), random_branches(rng, COUPLES, -0.5, 0.4)
    areas = np.stack([logarithmic(rng, 1e-2, 1e2, COUPLES) for _ in members])
    loop = loop_of_brentq(members, areas)
    turns = [
        (processor_s(loop, 1) * COUPLES / SUBSAMPLE, processor_s(lambda: solve(members, areas), 2))
        for _ in range(ROUNDS)
    ]
    couple = solve(members, areas)
    worst = np.abs(couple.potential[:SUBSAMPLE] - np.array(loop())).max()
    note = (
        f"{min(one for _, one in turns) / COUPLES * 1e6:.2f} µs a couple, brentq "
        f"{min(one for one, _ in turns) / COUPLES * 1e6:.0f}; largest difference {worst:.0e} V, "
        f"{couple.iterations.mean():.1f} evaluations, working memory {working_mb(members, areas):.0f} MB"
    )
    name = f"brentq / batched, {COUPLES:,} mixed potentials"
    yield row_of("solver", name, [slow / fast for slow, fast in turns], goal=40.0, note=note)
    yield from films(rng)


def loop_of_brentq(members: tuple[object, ...], areas: np.ndarray) -> Callable[[], list[float]]:
    """The same couples one after the other, those of the subsample."""
    singles = [[lane(member, number) for member in members] for number in range(SUBSAMPLE)]  # type: ignore[arg-type]
    currents = [[net_current(single) for single in pair] for pair in singles]
    rests = [sorted(float(single.corrosion_potential) for single in pair) for pair in singles]

    def loop() -> list[float]:
        roots = []
        for number, ((first, second), (low, high)) in enumerate(zip(currents, rests, strict=True)):
            one, other = areas[0, number], areas[1, number]
            roots.append(brentq(lambda e, a=first, b=second, p=one, q=other: p * a(e) + q * b(e), low, high))
        return roots

    return loop


def working_mb(members: object, areas: np.ndarray) -> float:
    """Peak of allocations less what is returned."""
    tracemalloc.start()
    couple = solve(members, areas)  # type: ignore[arg-type]
    kept, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    del couple
    return (peak - kept) / 1e6


def films(rng: np.random.Generator) -> Iterator[Row]:
    """Joints under a film a second."""
    pair = random_branches(rng, FILM_COUPLES, -1.0, -0.2), random_branches(rng, FILM_COUPLES, -0.5, 0.4)
    sheet, widths = logarithmic(rng, 1e-7, 1e-3, FILM_COUPLES), logarithmic(rng, 1e-3, 0.2, FILM_COUPLES)
    for name, work in {
        "endless sides": lambda: sheet_joint(*pair, sheet),
        "ends damped": lambda: sheet_joint(*pair, sheet, widths, widths, has_exact_ends=False),
        "ends exact": lambda: sheet_joint(*pair, sheet, widths, widths),
        "disk in a plate": lambda: round_joint(*pair, sheet, 1.0, widths),
    }.items():
        yield Row("solver", f"film, {name}", FILM_COUPLES / processor_s(work, 2) / 1e3, "thousand joints/s")
