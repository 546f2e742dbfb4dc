"""Water activity of sodium and magnesium chloride."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.solutes import (
    SOLUTES,
    Solute,
    deliquescence_humidity_pct,
    equilibrium_molality,
    mass_fraction,
    water_activity,
)


@pytest.mark.parametrize("solute", list(Solute))
def test_pure_water_has_activity_one_and_salt_lowers_it(solute: Solute) -> None:
    molality = np.linspace(0.0, SOLUTES[solute].largest_molality, 200)
    activity = water_activity(solute, molality)
    assert activity[0] == 1.0
    assert np.all(np.diff(activity) < 0.0)


@pytest.mark.parametrize("solute", list(Solute))
def test_dilute_solutions_follow_raoult(solute: Solute) -> None:
    ions = SOLUTES[solute].cations + SOLUTES[solute].anions
    lowering = 1.0 - water_activity(solute, 1e-6)
    assert lowering == pytest.approx(0.0180153 * ions * 1e-6, rel=2e-3)


@pytest.mark.parametrize("solute", list(Solute))
def test_equilibrium_molality_inverts_water_activity(solute: Solute) -> None:
    molality = np.linspace(0.05, SOLUTES[solute].largest_molality - 0.01, 57)
    back = equilibrium_molality(solute, 100.0 * water_activity(solute, molality))
    assert back == pytest.approx(molality, rel=1e-5)


def test_a_dry_salt_has_no_molality_and_saturated_air_makes_it_zero() -> None:
    dry, damp = equilibrium_molality(Solute.SODIUM_CHLORIDE, np.array([60.0, 100.0]))
    assert np.isnan(dry)
    assert damp == 0.0


@pytest.mark.parametrize("solute", list(Solute))
def test_the_table_reaches_every_deliquescence_humidity(solute: Solute) -> None:
    humidity = deliquescence_humidity_pct(solute, np.linspace(-10.0, 60.0, 15))
    assert np.all(np.isfinite(equilibrium_molality(solute, humidity)))


def test_mass_fraction_by_hand() -> None:
    # 1 mol of sodium chloride in 1 kg of water
    assert float(mass_fraction(Solute.SODIUM_CHLORIDE, 1.0)) == pytest.approx(58.443 / 1058.443)
