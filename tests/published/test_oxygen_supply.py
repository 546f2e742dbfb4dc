"""Oxygen in water against TEOS-10's library, handbooks and computed limiting currents.

[gsw] gsw 3.6, ``O2sol_SP_pt``; [APHA] saturation table to 60 degC, mg/L (from memory); [HB] P. Han,
D. M. Bartels, J. Phys. Chem. 100 (1996) 5597, fit equation, figures computed from recalled
coefficients; [FDC] ``4 F D C / delta`` with D of pure water, computed; [V] M. B. Vukmirovic et al.,
J. Electrochem. Soc. 150 (2003) B10: 0.20 to 0.30 A/m2 on copper in stagnant aerated solution (read).
"""

from __future__ import annotations

import gsw  # type: ignore[import-untyped]
import numpy as np
import pytest

from service.chemistry.oxygen import limiting_current_density, oxygen_diffusivity, oxygen_solubility

GRAMS_PER_MOLE = 31.998


@pytest.mark.parametrize("salinity", [0.0, 10.0, 35.0, 42.0])
def test_solubility_is_that_of_the_library(salinity: float) -> None:
    temperature = np.linspace(0.0, 40.0, 9)
    micromoles = gsw.O2sol_SP_pt(salinity, temperature)
    density = gsw.rho(gsw.SR_from_SP(salinity), temperature, 0.0)
    assert oxygen_solubility(temperature, salinity) == pytest.approx(1e-6 * micromoles * density, rel=3e-3)


@pytest.mark.parametrize(("temperature", "published"), [(0.0, 14.62), (20.0, 9.09), (50.0, 5.5), (60.0, 4.7)])
def test_fresh_water_of_the_handbook(temperature: float, published: float) -> None:  # [APHA]
    assert GRAMS_PER_MOLE * oxygen_solubility(temperature) == pytest.approx(published, rel=0.02)


@pytest.mark.parametrize("salinity", [50.0, 100.0, 200.0, 263.0])
def test_brine_is_salted_out(salinity: float) -> None:
    """log10(S0/S) = 0.145 c with c in mol/L of sodium chloride (from memory; 0.13 to 0.15)."""
    molarity = salinity * (0.997 + 0.00074 * salinity) / 58.44
    share = oxygen_solubility(25.0, salinity) / oxygen_solubility(25.0)
    assert share == pytest.approx(10.0 ** (-0.145 * molarity), rel=0.13)


@pytest.mark.parametrize(
    ("temperature", "computed"),
    [(0.0, 9.6790e-10), (20.0, 1.7601e-09), (25.0, 1.9977e-09), (40.0, 2.7923e-09), (60.0, 4.0010e-09)],
)
def test_diffusivity_in_pure_water(temperature: float, computed: float) -> None:  # [HB]
    assert oxygen_diffusivity(temperature) == pytest.approx(computed, rel=1e-4)


@pytest.mark.parametrize(
    ("layer", "computed"), [(10e-6, 19.90178), (30e-6, 6.63393), (100e-6, 1.99018), (300e-6, 0.66339)]
)
def test_limiting_current_in_fresh_water(layer: float, computed: float) -> None:  # [FDC]
    film = limiting_current_density(25.0, 0.0, layer)
    assert film * (layer + 16e-6) / layer == pytest.approx(computed, rel=2e-3)


def test_limiting_current_in_sea_water_is_five_per_cent_below_that_of_pure_water() -> None:
    """0.32657 A/m2 for 500 um with D of pure water [FDC]; sea water is more viscous."""
    assert limiting_current_density(25.0, 35.0) == pytest.approx(0.95 * 0.32657, rel=5e-3)


def test_stagnant_water_feeds_what_was_measured_on_copper() -> None:  # [V]
    assert 0.20 <= limiting_current_density(20.0, 35.0) <= 0.35
