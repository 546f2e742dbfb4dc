"""The closed-form film solver against a fine mesh.

The mesh (``tests/factories/film_mesh.py``) is the oracle: it solves ``S E'' = i(E)``, straight and
round, with 6001 points. Currents must agree within 1e-4.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.thin_film import FilmJoint, round_joint, sheet_joint
from tests.factories.film_mesh import MeshJoint, solve_mesh
from tests.factories.random_joints import lane, logarithmic, random_branches

RNG = np.random.default_rng(1974)
LANES = 40
ANODES = random_branches(RNG, LANES, -0.9, -0.35)
CATHODES = random_branches(RNG, LANES, -0.3, 0.3)
CONDUCTANCES = logarithmic(RNG, 1e-7, 1e-3, LANES)
WIDTHS = np.stack([logarithmic(RNG, 1e-3, 0.2, LANES) for _ in range(2)])
RADII = logarithmic(RNG, 1e-3, 0.03, LANES)
ENDLESS_IN_REACHES = 60.0


def mesh(number: int, widths: tuple[float, float], radius: float = np.inf) -> MeshJoint:
    sides = lane(ANODES, number), lane(CATHODES, number)
    return solve_mesh(*sides, CONDUCTANCES[number], widths, radius=radius)


@pytest.fixture(scope="module")
def endless() -> FilmJoint:
    return sheet_joint(ANODES, CATHODES, CONDUCTANCES)


@pytest.fixture(scope="module")
def ended() -> FilmJoint:
    return sheet_joint(ANODES, CATHODES, CONDUCTANCES, *WIDTHS)


@pytest.fixture(scope="module")
def disks() -> FilmJoint:
    return round_joint(ANODES, CATHODES, CONDUCTANCES, 1.0, RADII)


@pytest.mark.parametrize("number", range(LANES))
def test_endless_sides(endless: FilmJoint, number: int) -> None:
    widths = (
        ENDLESS_IN_REACHES * endless.anodic_reach[number],
        ENDLESS_IN_REACHES * endless.cathodic_reach[number],
    )
    oracle = mesh(number, widths)
    assert endless.current_per_metre[number] == pytest.approx(oracle.current, rel=1e-4)
    assert endless.joint_potential[number] == pytest.approx(oracle.joint_potential, abs=2e-5)
    assert endless.peak_anodic_current_density[number] == pytest.approx(oracle.peak, rel=2e-3)
    assert endless.cathodic_reach[number] == pytest.approx(oracle.second_reach, rel=5e-2)


@pytest.mark.parametrize("number", range(LANES))
def test_sides_with_ends(ended: FilmJoint, number: int) -> None:
    oracle = mesh(number, (WIDTHS[0, number], WIDTHS[1, number]))
    assert ended.current_per_metre[number] == pytest.approx(oracle.current, rel=1e-4)
    assert ended.joint_potential[number] == pytest.approx(oracle.joint_potential, abs=2e-5)
    assert ended.peak_anodic_current_density[number] == pytest.approx(oracle.peak, rel=2e-3)
    assert ended.anodic_reach[number] == pytest.approx(oracle.first_reach, rel=5e-2)
    assert ended.mean_anodic_current_density[number] == pytest.approx(oracle.first_mean, rel=5e-2)


def test_disks_in_plates_are_as_close_as_stated(disks: FilmJoint) -> None:
    """Bessel ratios are exact for linear kinetics only; the bounds are those of ``round_match``."""
    oracles = [mesh(number, (RADII[number], 2.0), RADII[number]) for number in range(LANES)]
    error = np.abs(disks.current_per_metre / np.array([oracle.current for oracle in oracles]) - 1.0)
    assert np.quantile(error, 0.5) < 0.02
    assert np.quantile(error, 0.9) < 0.07
    assert error.max() < 0.20
    shift = disks.joint_potential - np.array([oracle.joint_potential for oracle in oracles])
    assert np.abs(shift).max() < 0.03
