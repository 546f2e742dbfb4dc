"""Sea water against TEOS-10 check values and two published ones.

``data/sea_water.csv``: gsw 3.6.23 (TEOS-10; PSS-78 conductivity; oxygen after Garcia and Gordon 1992).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from service.chemistry.electrolyte import sea_water_conductivity, sea_water_oxygen

DATA = Path(__file__).parent / "data" / "sea_water.csv"
OXYGEN_G_PER_MOL = 31.998


def _rows() -> list[dict[str, str]]:
    with DATA.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_all_check_values_are_there() -> None:
    assert len(_rows()) == 22


@pytest.mark.parametrize(
    "row", [row for row in _rows() if row["conductivity_S_per_m"]], ids=lambda r: r["id"]
)
def test_conductivity(row: dict[str, str]) -> None:
    kappa = sea_water_conductivity(float(row["temperature_C"]), float(row["salinity_g_per_kg"]))
    assert float(kappa) == pytest.approx(float(row["conductivity_S_per_m"]), abs=6e-8)


@pytest.mark.parametrize("row", _rows(), ids=lambda r: r["id"])
def test_oxygen(row: dict[str, str]) -> None:
    oxygen = float(sea_water_oxygen(float(row["temperature_C"]), float(row["salinity_g_per_kg"])))
    density = float(row["density_kg_per_m3"])
    assert oxygen == pytest.approx(1e-6 * float(row["oxygen_umol_per_kg"]) * density, rel=2e-6)
    assert oxygen * OXYGEN_G_PER_MOL == pytest.approx(float(row["oxygen_mg_per_L"]), rel=2e-4)


def test_standard_sea_water_conducts_as_published() -> None:
    # C(35, 15 degC, 0) = 42.914 mS/cm: Culkin and Smith, IEEE J. Oceanic Eng. 5 (1980) 22 (from memory).
    # It is meant on the temperature scale of 1968, 15 degC of today being 15.0036 degC there.
    assert float(sea_water_conductivity(15.0, 35.16504)) == pytest.approx(4.2914, rel=2e-4)


def test_oxygen_at_the_check_point_of_garcia_and_gordon() -> None:
    # 274.610 umol/kg at 10 degC and a salinity of 35: Limnol. Oceanogr. 37 (1992) 1307 (from memory);
    # sea water of that state weighs 1026.95 kg/m3.
    assert float(sea_water_oxygen(10.0, 35.16504)) == pytest.approx(274.610e-6 * 1026.95, rel=2e-4)
