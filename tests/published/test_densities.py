"""Densities of the elements among the materials against an open compilation.

Source: periodictable 2.1 (P. A. Kienzle, NIST), element densities, which come from the ILL Neutron
Data Booklet and the CRC Handbook.
"""

from __future__ import annotations

import csv
from pathlib import Path

import periodictable
import pytest

SEED_DATA = Path(__file__).parents[2] / "seed_data"
LEAST_PURITY_PCT = 99.0
NOT_DENSE = {"graphite", "graphite-foil"}
"""Pressed from grains, so lighter than the crystal."""


def elements() -> list[tuple[str, str, float]]:
    """(material, symbol, density in kg/m3) of every density of an unalloyed element."""
    with (SEED_DATA / "materials.csv").open(encoding="utf-8", newline="") as stream:
        pure = {
            row["id"]: row["composition"].split()[0]
            for row in csv.DictReader(stream)
            if row["composition"] and float(row["composition"].split(";")[0].split()[1]) >= LEAST_PURITY_PCT
        }
    with (SEED_DATA / "measurements.csv").open(encoding="utf-8", newline="") as stream:
        return [
            (row["subject_id"], pure[row["subject_id"]], float(row["value"]))
            for row in csv.DictReader(stream)
            if row["quantity"] == "density" and row["subject_id"] in pure.keys() - NOT_DENSE
        ]


@pytest.mark.parametrize(("material", "symbol", "density"), elements())
def test_density_of_an_element_agrees_within_one_per_cent(material: str, symbol: str, density: float) -> None:
    assert density == pytest.approx(getattr(periodictable, symbol).density * 1000, rel=0.01)


def test_most_elements_of_the_trade_are_there() -> None:
    symbols = {symbol for _, symbol, _ in elements()}
    assert {"Mg", "Zn", "Fe", "Ni", "Cu", "Sn", "Pb", "Ag", "Au", "Pt", "Cd", "Ti", "Cr", "W"} <= symbols
