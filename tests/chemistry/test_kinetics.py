"""Currents of one electrode state as functions of potential."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad  # type: ignore[import-untyped]

from service.chemistry import kinetics
from service.chemistry.kinetics import (
    anodic_current_density,
    cathodic_current_density,
    integral_of_net_current,
    is_valid,
    net_current_density,
    net_current_slope,
)
from tests.factories.random_joints import GOLD, STAINLESS, STEEL, lane, random_branches

MAGNESIUM = replace(STEEL, corrosion_potential=-1.4, water_current=1e-3)


def test_the_module_shows_what_it_says() -> None:
    assert sorted(kinetics.__all__) == kinetics.__all__
    assert all(hasattr(kinetics, name) for name in kinetics.__all__)


def test_the_cathodic_branch_is_the_mixed_control_of_the_design() -> None:
    potential = np.linspace(-0.9, -0.3, 61)
    charge_transfer = 0.1 / (1.0 - 0.1 / 0.3) * 10.0 ** (-(potential + 0.40) / 0.12)
    expected = 1.0 / (1.0 / charge_transfer + 1.0 / 0.3)
    assert cathodic_current_density(potential, STEEL) == pytest.approx(expected, rel=1e-12)


def test_water_reduction_adds_to_oxygen() -> None:
    wet = replace(STEEL, water_current=0.02, water_slope=0.15)
    extra = cathodic_current_density(-1.15, wet) - cathodic_current_density(-1.15, STEEL)
    assert extra == pytest.approx(0.2, rel=1e-9)


def test_the_anodic_branch_is_a_tafel_line() -> None:
    assert anodic_current_density(-0.28, STEEL) == pytest.approx(0.1 * 10.0**2, rel=1e-12)


def test_net_current_and_its_slope_belong_together() -> None:
    potential = np.linspace(-0.8, 0.2, 11)
    for electrode in (STEEL, STAINLESS, GOLD, MAGNESIUM):
        rise = net_current_density(potential + 1e-6, electrode) - net_current_density(
            potential - 1e-6, electrode
        )
        assert net_current_slope(potential, electrode) == pytest.approx(rise / 2e-6, rel=1e-4, abs=1e-9)


@pytest.mark.parametrize("number", range(12))
def test_the_integral_is_that_of_quadrature(number: int) -> None:
    electrode = lane(random_branches(np.random.default_rng(3), 12, -1.0, 0.3), number)
    lower, upper = float(electrode.corrosion_potential) - 0.4, float(electrode.corrosion_potential) + 0.15
    breaks = [float(electrode.corrosion_potential), float(electrode.breakdown_potential)]
    inside = [point for point in breaks if lower < point < upper]
    expected, _ = quad(
        lambda potential: float(net_current_density(potential, electrode)),
        lower,
        upper,
        points=inside,
        epsrel=1e-11,
        limit=400,
    )
    assert integral_of_net_current(lower, upper, electrode) == pytest.approx(expected, rel=1e-8)
    assert integral_of_net_current(upper, lower, electrode) == pytest.approx(-expected, rel=1e-8)


def test_the_closed_form_of_oxygen_is_the_logarithm_of_the_design() -> None:
    still = replace(STEEL, anodic_slope=1e6)
    y_upper, y_lower = (10.0 ** (-(potential + 0.40) / 0.12) / 2.0 for potential in (-0.5, -0.9))
    oxygen = -0.3 * 0.12 / np.log(10.0) * (np.log1p(y_upper) - np.log1p(y_lower))
    assert integral_of_net_current(-0.9, -0.5, still) == pytest.approx(0.1 * 0.4 - oxygen, rel=1e-6)


def test_shapes_broadcast() -> None:
    many = random_branches(np.random.default_rng(0), 5, -1.0, 0.0)
    assert net_current_density(np.zeros((3, 1)), many).shape == (3, 5)
    assert net_current_density(-0.4, STEEL).shape == ()
    assert net_current_density(-9.0, STEEL) < 0.0


@pytest.mark.parametrize(
    ("pH", "temperature", "holds"),
    [
        (7.0, 25.0, True),
        (5.0, 0.0, True),
        (9.0, 60.0, True),
        (4.9, 25.0, False),
        (9.1, 25.0, False),
        (7.0, -0.1, False),
        (7.0, 60.1, False),
        (np.nan, 25.0, False),
        (7.0, np.nan, False),
    ],
)
def test_validity_ends_where_stated(pH: float, temperature: float, holds: bool) -> None:  # noqa: FBT001
    assert is_valid(pH, temperature) == holds


def test_complexing_agents_and_bias_end_validity() -> None:
    assert is_valid(7.0, 25.0, has_complexing_agents=np.array([True, False])).tolist() == [False, True]
    assert not is_valid(7.0, 25.0, is_biased=True)
