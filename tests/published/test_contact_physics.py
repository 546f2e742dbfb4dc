"""Contact physics against worked values and the tabled softening and melting voltages.

``data/constriction.csv`` and ``data/spot_temperature.csv`` were worked separately from the relations;
``data/contact_voltages.csv`` is the table of softening and melting voltages in R. Holm, Electric Contacts,
4th ed., Springer 1967 (from memory).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from service.chemistry.contact import constriction_resistance_ohm, minimum_force_N
from service.chemistry.contact_heat import spot_temperature_C, voltage_for_spot_temperature_V

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", _rows("constriction.csv"), ids=lambda r: f"{r['metal']}-{r['force_N']}N")
def test_constriction(row: dict[str, str]) -> None:
    rho, force, hardness = (
        float(row[k]) * f for k, f in (("resistivity_ohm_m", 1), ("force_N", 1), ("hardness_MPa", 1e6))
    )
    resistance = constriction_resistance_ohm(rho, rho, hardness, force)
    assert 1e6 * float(resistance) == pytest.approx(float(row["resistance_micro_ohm"]), abs=6e-5)
    assert float(minimum_force_N(rho, rho, hardness, resistance)) == pytest.approx(force)


@pytest.mark.parametrize("row", _rows("spot_temperature.csv"), ids=lambda r: f"{r['voltage_V']}V")
def test_spot_temperature(row: dict[str, str]) -> None:
    spot = spot_temperature_C(float(row["voltage_V"]), float(row["body_temperature_C"]))
    assert float(spot) == pytest.approx(float(row["spot_temperature_C"]), abs=6e-4)


@pytest.mark.parametrize("row", _rows("contact_voltages.csv"), ids=lambda r: f"{r['metal']}-{r['event']}")
def test_softening_and_melting_voltages_within_a_fifth(row: dict[str, str]) -> None:
    computed = float(voltage_for_spot_temperature_V(float(row["temperature_C"])))
    assert computed == pytest.approx(float(row["tabled_V"]), rel=0.21)


def test_all_tabled_metals_are_used() -> None:
    assert len(_rows("contact_voltages.csv")) == 23
    assert len(_rows("constriction.csv")) == 7
