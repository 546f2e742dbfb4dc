"""Density and conductivity of brines."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.brine import conductivity_S_per_m, density_kg_per_m3, sea_water_temperature_factor
from service.chemistry.errors import OutOfRangeError
from service.chemistry.solutes import SOLUTES, Solute


@pytest.mark.parametrize("solute", list(Solute))
def test_the_table_is_met_at_its_points(solute: Solute) -> None:
    figures = SOLUTES[solute]
    kappa = conductivity_S_per_m(solute, np.array(figures.table_percent) / 100.0, 20.0)
    assert kappa == pytest.approx(figures.table_S_per_m, rel=1e-12)


def test_sodium_chloride_still_rises_at_saturation_and_magnesium_chloride_peaks() -> None:
    fraction = np.linspace(0.0, 0.36, 721)
    sodium = conductivity_S_per_m(Solute.SODIUM_CHLORIDE, fraction[fraction <= 0.264], 20.0)
    assert np.all(np.diff(sodium) > 0.0)
    magnesium = conductivity_S_per_m(Solute.MAGNESIUM_CHLORIDE, fraction, 20.0)
    assert 0.15 < fraction[np.argmax(magnesium)] < 0.21
    assert magnesium[-1] == pytest.approx(9.8 - 0.48 * 6.0)


def test_water_without_salt_does_not_conduct() -> None:
    assert conductivity_S_per_m(Solute.SODIUM_CHLORIDE, 0.0, 20.0) == 0.0


@pytest.mark.parametrize("fraction", [-0.01, 0.41, np.nan])
def test_impossible_fractions_are_refused(fraction: float) -> None:
    with pytest.raises(OutOfRangeError):
        conductivity_S_per_m(Solute.SODIUM_CHLORIDE, fraction, 20.0)


def test_the_temperature_factor_is_one_at_twenty_degrees_and_rises() -> None:
    factor = sea_water_temperature_factor(np.array([0.0, 20.0, 40.0]))
    assert factor[1] == 1.0
    assert np.all(np.diff(factor) > 0.0)


def test_density_of_water_and_of_brine() -> None:
    # pure water at 25 degC: 997.05 kg/m3
    assert density_kg_per_m3(Solute.SODIUM_CHLORIDE, 0.0, 25.0) == pytest.approx(997.05, abs=0.02)
    light, heavy = density_kg_per_m3(Solute.MAGNESIUM_CHLORIDE, np.array([0.1, 0.3]), 20.0)
    assert 1000.0 < light < heavy
