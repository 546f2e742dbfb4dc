"""Mixed potentials against scipy's brentq on an independent scalar form of the same kinetics."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.optimize import brentq  # type: ignore[import-untyped]

from service.chemistry.branches import Branches
from service.chemistry.kinetics import net_current_density
from service.chemistry.mixed_potential import solve, solve_with_resistance
from tests.factories.random_joints import lane, logarithmic, random_branches
from tests.factories.scalar_kinetics import net_current

Current = Callable[[float], float]


def group(count: int, electrodes: int) -> tuple[list[Branches], list[list[Current]], list[list[float]]]:
    """Random electrodes, the same as scalar functions, and their corrosion potentials."""
    rng = np.random.default_rng(electrodes)
    members = [random_branches(rng, count, -1.0, 0.4) for _ in range(electrodes)]
    singles = [[lane(member, number) for member in members] for number in range(count)]
    currents = [[net_current(single) for single in row] for row in singles]
    return members, currents, [[float(single.corrosion_potential) for single in row] for row in singles]


def test_both_forms_of_the_kinetics_agree() -> None:
    members, currents, _ = group(400, 1)
    potential = np.linspace(-1.2, 0.6, 400)
    ours = net_current_density(potential, members[0])
    theirs = [row[0](float(at)) for row, at in zip(currents, potential, strict=True)]
    assert ours == pytest.approx(np.array(theirs), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(("electrodes", "count"), [(2, 2500), (3, 200), (6, 100)])
def test_random_groups_agree_within_a_microvolt(electrodes: int, count: int) -> None:
    members, currents, rests = group(count, electrodes)
    areas = np.stack([logarithmic(np.random.default_rng(k), 1e-3, 1e3, count) for k in range(electrodes)])
    found = solve(members, areas)
    assert found.converged.all()
    worst = 0.0
    for number, (row, rest) in enumerate(zip(currents, rests, strict=True)):
        column = areas[:, number].tolist()

        def total(potential: float, row: list[Current] = row, column: list[float] = column) -> float:
            return sum(area * current(potential) for area, current in zip(column, row, strict=True))

        expected = brentq(total, min(rest), max(rest), xtol=1e-12, rtol=1e-14)
        worst = max(worst, abs(float(found.potential[number]) - expected))
    assert worst < 1e-6


def test_couples_behind_resistances_agree_within_a_microvolt() -> None:
    count, rng = 100, np.random.default_rng(4)
    members, currents, rests = group(count, 2)
    areas = np.stack([logarithmic(rng, 1e-3, 1e3, count) for _ in range(2)])
    resistances = np.stack([logarithmic(rng, 1e-2, 1e4, count) for _ in range(2)])
    found = solve_with_resistance(members, areas, resistances)
    for number, (row, rest) in enumerate(zip(currents, rests, strict=True)):
        weights = (areas[:, number] * resistances[:, number]).tolist()
        ohms = resistances[:, number].tolist()

        def total(
            common: float,
            row: list[Current] = row,
            rest: list[float] = rest,
            weights: list[float] = weights,
            ohms: list[float] = ohms,
        ) -> float:
            passed = 0.0
            for current, own, weight, ohm in zip(row, rest, weights, ohms, strict=True):

                def drop(local: float, current: Current = current, weight: float = weight) -> float:
                    return local - common + weight * current(local)

                local = brentq(drop, min(own, common) - 1e-9, max(own, common) + 1e-9, xtol=1e-14, rtol=1e-14)
                passed += (common - local) / ohm
            return passed

        expected = brentq(total, min(rest), max(rest), xtol=1e-12)
        assert float(found.potential[number]) == pytest.approx(expected, abs=1e-6)
