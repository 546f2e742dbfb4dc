"""Couples and larger groups of electrodes at their common potential."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.chemistry.branches import Branches, stack
from service.chemistry.kinetics import net_current_density, net_current_slope
from service.chemistry.mixed_potential import solve, solve_with_resistance
from tests.factories.random_joints import ALUMINIUM, GOLD, STAINLESS, STEEL, ZINC, lane, random_branches

RNG = np.random.default_rng(21)
MANY = [random_branches(RNG, 20_000, lowest, highest) for lowest, highest in ((-1.0, -0.2), (-0.5, 0.4))]
AREAS = 10.0 ** RNG.uniform(-3.0, 3.0, (2, 20_000))


def test_every_lane_converges_with_currents_in_balance() -> None:
    couple = solve(MANY, AREAS)
    assert couple.converged.all()
    assert couple.iterations.max() <= 40
    assert couple.iterations.mean() < 8.0
    assert np.abs(couple.net_current.sum(axis=0)).max() <= 1e-12 * np.abs(couple.net_current).max()
    residual = (couple.anodic_current - couple.cathodic_current).sum(axis=0)
    assert np.abs(residual / couple.anodic_current.sum(axis=0)).max() < 1e-6


def test_the_root_lies_between_the_corrosion_potentials() -> None:
    couple = solve(MANY, AREAS)
    rest = np.stack([np.asarray(member.corrosion_potential) for member in MANY])
    assert (couple.potential >= rest.min(axis=0)).all()
    assert (couple.potential <= rest.max(axis=0)).all()


def test_stacked_electrodes_and_a_sequence_are_the_same() -> None:
    one, other = solve(MANY, AREAS), solve(stack(MANY), AREAS)
    assert np.array_equal(one.potential, other.potential)


def test_lanes_may_have_any_shape_and_no_answer_depends_on_its_neighbours() -> None:
    first = Branches(np.linspace(-0.9, -0.5, 6).reshape(2, 3), 0.1, 0.06, 0.12, 0.3)
    couple = solve([first, STAINLESS], np.array([1.0, 2.0]))
    assert couple.potential.shape == (2, 3)
    assert couple.net_current.shape == couple.electrode_potential.shape == (2, 2, 3)
    alone = solve([lane(first, 4), STAINLESS], np.array([1.0, 2.0]))
    assert alone.potential.shape == ()
    assert couple.potential[1, 1] == alone.potential


def test_a_lane_gives_the_same_bits_whatever_its_neighbours_are() -> None:
    resistances = np.full((2, 1), 3.0)
    together = solve(MANY, AREAS), solve_with_resistance(MANY, AREAS, resistances)
    for number in range(0, 20_000, 997):
        single, areas = [lane(member, number) for member in MANY], AREAS[:, number]
        alone = solve(single, areas), solve_with_resistance(single, areas, resistances[:, 0])
        for many, one in zip(together, alone, strict=True):
            assert many.potential[number] == one.potential
            assert many.anodic_current[:, number].tolist() == one.anodic_current.tolist()
            assert many.net_current[:, number].tolist() == one.net_current.tolist()


def test_areas_alone_may_bring_the_lanes() -> None:
    couple = solve([ZINC, STEEL], np.array([[1.0, 1.0, 1.0], [0.1, 1.0, 10.0]]))
    assert (np.diff(couple.net_current[0]) > 0.0).all()


def test_like_on_like_has_no_current() -> None:
    couple = solve([STEEL, STEEL], np.array([1.0, 5.0]))
    assert couple.potential == STEEL.corrosion_potential
    assert not couple.net_current.any()
    assert couple.converged


def test_an_electrode_without_area_does_not_matter() -> None:
    couple = solve([ZINC, STEEL, STAINLESS], np.array([1.0, 2.0, 0.0]))
    pair = solve([ZINC, STEEL], np.array([1.0, 2.0]))
    assert couple.potential == pytest.approx(pair.potential, abs=1e-8)
    assert solve([ZINC, STEEL], np.array([1.0, 0.0])).potential == pytest.approx(-0.80, abs=1e-6)


def test_a_broken_lane_is_flagged_and_the_others_are_not() -> None:
    film = Branches(-0.8, 0.1, 0.04, 0.12, np.array([0.3, np.nan]))
    couple = solve([film, STEEL], np.ones((2, 1)))
    assert couple.converged.tolist() == [True, False]
    assert np.isnan(couple.net_current[:, 1]).all()


def test_an_inert_cathode_needs_no_special_case() -> None:
    couple = solve([ALUMINIUM, GOLD], np.ones(2))
    assert couple.net_current[0] == pytest.approx(0.3, rel=0.05)
    assert couple.anodic_current[1] < 1e-5


def test_self_corrosion_is_in_the_anodic_current() -> None:
    couple = solve([ZINC, STAINLESS], np.array([1.0, 0.01]))
    assert couple.anodic_current[0] == pytest.approx(couple.net_current[0] + couple.cathodic_current[0])
    assert couple.anodic_current[0] > 20.0 * couple.net_current[0]


@pytest.mark.parametrize("decades", [(-6.0, -3.0), (-2.0, 2.0), (3.0, 7.0)])
def test_resistances_are_honoured_exactly(decades: tuple[float, float]) -> None:
    rng = np.random.default_rng(5)
    electrodes = [*MANY, random_branches(rng, 20_000, -0.7, 0.1)]
    areas = 10.0 ** rng.uniform(-2.0, 2.0, (3, 20_000))
    resistances = 10.0 ** rng.uniform(*decades, (3, 20_000)) * (rng.random((3, 20_000)) < 0.8)
    couple = solve_with_resistance(electrodes, areas, resistances)
    assert couple.converged.all()
    drop = couple.potential - couple.electrode_potential
    assert np.abs(drop - resistances * couple.net_current).max() < 2e-6
    assert np.abs(couple.net_current.sum(axis=0)).max() <= 1e-9 * np.abs(couple.net_current).max()
    for number in (0, 777, 19_999):
        for place, electrode in enumerate(electrodes):
            local, single = couple.electrode_potential[place, number], lane(electrode, number)
            expected = areas[place, number] * net_current_density(local, single)
            blur = 1e-7 * areas[place, number] * net_current_slope(local, single)
            assert couple.net_current[place, number] == pytest.approx(expected, rel=1e-4, abs=blur)


def test_no_resistance_is_the_plain_couple() -> None:
    plain, shorted = solve(MANY, AREAS), solve_with_resistance(MANY, AREAS, 0.0)
    assert np.abs(plain.potential - shorted.potential).max() < 1e-6


def test_a_small_defect_behind_a_large_resistance_sets_its_own_current() -> None:
    couple = solve_with_resistance([ZINC, STAINLESS], np.array([1e-6, 1.0]), np.array([1e5, 0.0]))
    assert couple.net_current[0] * 1e5 == pytest.approx(couple.potential - couple.electrode_potential[0])
    assert couple.electrode_potential[0] < couple.potential


def test_like_on_like_behind_a_resistance_has_no_current() -> None:
    couple = solve_with_resistance([STEEL, replace(STEEL)], np.ones(2), np.ones(2))
    assert not couple.net_current.any()
    assert couple.converged
