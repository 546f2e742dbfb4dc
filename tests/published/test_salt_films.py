"""Brines and salt films against published densities, conductivities and humidities."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from service.chemistry.brine import conductivity_S_per_m, density_kg_per_m3
from service.chemistry.electrolyte import Deposit, salt_film
from service.chemistry.solutes import (
    SOLUTES,
    Solute,
    deliquescence_humidity_pct,
    equilibrium_molality,
    mass_fraction,
    water_activity,
)

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", _rows("sodium_chloride_density.csv"), ids=lambda r: r["mass_percent"])
def test_density_of_sodium_chloride_solutions(row: dict[str, str]) -> None:
    # Poradnik fizykochemiczny, WNT Warszawa 1974, sodium chloride solutions at 20 degC, read on a page of
    # Nicolaus Copernicus University (its column for 15 degC contradicts its own coefficient: not used)
    density = density_kg_per_m3(Solute.SODIUM_CHLORIDE, float(row["mass_percent"]) / 100.0, 20.0)
    assert float(density) == pytest.approx(float(row["density_20C_kg_per_m3"]), abs=0.6)


@pytest.mark.parametrize("row", _rows("sodium_chloride_films.csv"), ids=lambda r: r["relative_humidity_pct"])
def test_sodium_chloride_films_against_a_second_computation(row: dict[str, str]) -> None:
    # Pitzer water activity with the densities of the CRC Handbook at 20 degC, computed independently
    humidity = float(row["relative_humidity_pct"])
    molality = equilibrium_molality(Solute.SODIUM_CHLORIDE, humidity)
    assert float(molality) == pytest.approx(float(row["molality_mol_per_kg"]), abs=2e-4)
    percent = 100.0 * float(mass_fraction(Solute.SODIUM_CHLORIDE, molality))
    assert percent == pytest.approx(float(row["mass_percent"]), abs=2e-3)
    film = salt_film(humidity, 1.0, 20.0, Deposit.SODIUM_CHLORIDE)
    assert 1e6 * float(film.thickness_m) == pytest.approx(float(row["thickness_um_at_1_g_per_m2"]), rel=1e-3)


@pytest.mark.parametrize(
    # CRC Handbook, "Constant Humidity Solutions" (A. Wexler), RH at 25 degC, read in a reproduction
    ("solute", "humidity_pct"),
    [(Solute.SODIUM_CHLORIDE, 75.0), (Solute.MAGNESIUM_CHLORIDE, 33.0)],
)
def test_deliquescence_humidities(solute: Solute, humidity_pct: float) -> None:
    assert round(float(deliquescence_humidity_pct(solute, 25.0))) == humidity_pct


@pytest.mark.parametrize(
    # Greenspan, J. Res. NBS 81A (1977) 89, table of fixed points (from memory), % relative humidity
    ("solute", "temperature_C", "humidity_pct"),
    [
        (Solute.SODIUM_CHLORIDE, 10.0, 75.67),
        (Solute.SODIUM_CHLORIDE, 25.0, 75.29),
        (Solute.SODIUM_CHLORIDE, 40.0, 74.68),
        (Solute.MAGNESIUM_CHLORIDE, 10.0, 33.47),
        (Solute.MAGNESIUM_CHLORIDE, 25.0, 32.78),
        (Solute.MAGNESIUM_CHLORIDE, 40.0, 31.60),
    ],
)
def test_deliquescence_moves_little_with_temperature(
    solute: Solute, temperature_C: float, humidity_pct: float
) -> None:
    assert float(deliquescence_humidity_pct(solute, temperature_C)) == pytest.approx(humidity_pct, abs=1.1)


@pytest.mark.parametrize(
    # solubility at 25 degC, CRC Handbook (from memory): 6.15 and 5.81 mol/kg
    ("solute", "saturated_molality"),
    [(Solute.SODIUM_CHLORIDE, 6.15), (Solute.MAGNESIUM_CHLORIDE, 5.81)],
)
def test_the_saturated_solution_has_the_humidity_of_the_fixed_point(
    solute: Solute, saturated_molality: float
) -> None:
    # two independent sources meet: Pitzer's coefficients and the fixed points of hygrometry
    activity = 100.0 * float(water_activity(solute, saturated_molality))
    assert activity == pytest.approx(float(deliquescence_humidity_pct(solute, 25.0)), abs=0.5)


# R. B. McCleskey, J. Chem. Eng. Data 56 (2011) 317, 10.1021/je101012n (read in an open data library):
# Lambda = c1 t^2 + c2 t + c3 - (d1 t^2 + d2 t + d3) m^0.5 / (1 + B m^0.5), S cm2 per equivalent
MCCLESKEY = {
    Solute.SODIUM_CHLORIDE: ((0.008967, 2.196, 67.03), (0.00726, 1.762, 44.55), 1.3, 1.0),
    Solute.MAGNESIUM_CHLORIDE: ((0.009534, 2.247, 68.19), (0.02469, 4.374, 129.8), 3.1, 2.0),
}


def _mccleskey_S_per_m(solute: Solute, molality: float, temperature_C: float) -> float:
    limit, slope, b, equivalents = MCCLESKEY[solute]
    root = molality**0.5
    per_equivalent = np.polyval(limit, temperature_C) - np.polyval(slope, temperature_C) * root / (
        1 + b * root
    )
    fraction = mass_fraction(solute, molality)
    density = float(density_kg_per_m3(solute, fraction, temperature_C))
    moles_per_L = float(fraction) * density / SOLUTES[solute].molar_mass_g_per_mol
    return float(0.1 * per_equivalent * equivalents * moles_per_L)


@pytest.mark.parametrize(
    # with magnesium chloride the equation runs ahead of older tables above some 0.2 mol/kg: not compared
    ("solute", "molality"),
    [(Solute.SODIUM_CHLORIDE, m) for m in (0.01, 0.1, 0.5, 0.9)]
    + [(Solute.MAGNESIUM_CHLORIDE, m) for m in (0.01, 0.05, 0.1)],
)
@pytest.mark.parametrize(
    ("temperature_C", "allowed"), [(20.0, 0.05), (5.0, 0.05), (40.0, 0.07), (60.0, 0.08)]
)
def test_conductivity_of_dilute_brines(
    solute: Solute, molality: float, temperature_C: float, allowed: float
) -> None:
    kappa = float(conductivity_S_per_m(solute, mass_fraction(solute, molality), temperature_C))
    assert kappa == pytest.approx(_mccleskey_S_per_m(solute, molality, temperature_C), rel=allowed)


def test_films_of_sea_salt_have_the_published_thickness() -> None:
    # Shinohara, Oshikawa, Motoda, Zairyo-to-Kankyo 52 (2003) 293 (abstract read): 1 g/m2 of sea salt gives
    # 3 to 30 um above 75 % relative humidity and 0.3 to 0.7 um below
    above = 1e6 * salt_film(np.array([76.0, 85.0, 98.0]), 1.0).thickness_m
    below = 1e6 * salt_film(np.array([36.0, 50.0, 74.0]), 1.0).thickness_m
    assert np.all((above > 3.0) & (above < 30.0))
    assert np.all((below > 0.3) & (below < 0.7))
