"""Equivalent weights of alloys against the table of the standard practice.

Source: ASTM G102-89(2015)e1, Table 1, figures recalled and not checked on the page. Where a
recalled figure and the composition disagree by more than rounding, the test says by how much.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from service.chemistry.faraday import equivalent_weight

SEED_DATA = Path(__file__).parents[2] / "seed_data"
Shares = dict[str, float]
Valences = dict[str, int]

TABLE_1: list[tuple[str, Shares, Valences, float]] = [
    ("AA1100", {"Al": 0.99}, {"Al": 3}, 8.99),
    ("AA2024", {"Al": 0.94, "Cu": 0.044, "Mg": 0.015}, {"Al": 3, "Cu": 1, "Mg": 2}, 9.38),
    ("AA2024, Cu(II)", {"Al": 0.94, "Cu": 0.044, "Mg": 0.015}, {"Al": 3, "Cu": 2, "Mg": 2}, 9.32),
    ("AA2219", {"Al": 0.937, "Cu": 0.063}, {"Al": 3, "Cu": 1}, 9.51),
    ("AA3003", {"Al": 0.9875, "Mn": 0.0125}, {"Al": 3, "Mn": 2}, 9.07),
    ("AA5052", {"Al": 0.975, "Mg": 0.025}, {"Al": 3, "Mg": 2}, 9.05),
    ("AA5083", {"Al": 0.956, "Mg": 0.044}, {"Al": 3, "Mg": 2}, 9.09),
    ("AA6061", {"Al": 0.99, "Mg": 0.01}, {"Al": 3, "Mg": 2}, 9.01),
    (
        "AA7075",
        {"Al": 0.902, "Zn": 0.056, "Mg": 0.025, "Cu": 0.016},
        {"Al": 3, "Zn": 2, "Mg": 2, "Cu": 1},
        9.58,
    ),
    ("C11000, Cu(I)", {"Cu": 1.0}, {"Cu": 1}, 63.55),
    ("C11000, Cu(II)", {"Cu": 1.0}, {"Cu": 2}, 31.77),
    ("C23000", {"Cu": 0.85, "Zn": 0.15}, {"Cu": 1, "Zn": 2}, 55.65),
    ("C26000", {"Cu": 0.70, "Zn": 0.30}, {"Cu": 1, "Zn": 2}, 49.51),
    ("C70600, Cu(II)", {"Cu": 0.887, "Ni": 0.10, "Fe": 0.013}, {"Cu": 2, "Ni": 2, "Fe": 2}, 31.51),
    ("304", {"Fe": 0.7175, "Cr": 0.19, "Ni": 0.0925}, {"Fe": 2, "Cr": 3, "Ni": 2}, 25.12),
    ("304, Fe(III)", {"Fe": 0.7175, "Cr": 0.19, "Ni": 0.0925}, {"Fe": 3, "Cr": 3, "Ni": 2}, 18.99),
    ("304, Cr(VI)", {"Fe": 0.7175, "Cr": 0.19, "Ni": 0.0925}, {"Fe": 3, "Cr": 6, "Ni": 2}, 15.72),
    (
        "316",
        {"Fe": 0.685, "Cr": 0.17, "Ni": 0.12, "Mo": 0.025},
        {"Fe": 2, "Cr": 3, "Ni": 2, "Mo": 3},
        25.50,
    ),
    ("410", {"Fe": 0.875, "Cr": 0.125}, {"Fe": 2, "Cr": 3}, 25.94),
    ("430", {"Fe": 0.83, "Cr": 0.17}, {"Fe": 2, "Cr": 3}, 25.30),
    ("446", {"Fe": 0.75, "Cr": 0.25}, {"Fe": 2, "Cr": 3}, 24.22),
    ("N02200", {"Ni": 1.0}, {"Ni": 2}, 29.36),
    ("N06600", {"Ni": 0.76, "Cr": 0.155, "Fe": 0.08}, {"Ni": 2, "Cr": 3, "Fe": 2}, 26.41),
    (
        "N10276",
        {"Ni": 0.57, "Mo": 0.16, "Cr": 0.155, "Fe": 0.055, "W": 0.04, "Co": 0.015},
        {"Ni": 2, "Mo": 4, "Cr": 3, "Fe": 2, "W": 4, "Co": 2},
        25.90,
    ),
    ("iron", {"Fe": 1.0}, {"Fe": 2}, 27.92),
    ("magnesium", {"Mg": 1.0}, {"Mg": 2}, 12.15),
    ("zinc", {"Zn": 1.0}, {"Zn": 2}, 32.68),
    ("tin", {"Sn": 1.0}, {"Sn": 2}, 59.34),
    ("lead", {"Pb": 1.0}, {"Pb": 2}, 103.59),
    ("silver", {"Ag": 1.0}, {"Ag": 1}, 107.87),
    ("titanium", {"Ti": 1.0}, {"Ti": 4}, 11.98),
    ("molybdenum", {"Mo": 1.0}, {"Mo": 6}, 15.99),
    ("tantalum", {"Ta": 1.0}, {"Ta": 5}, 36.19),
    ("zirconium", {"Zr": 1.0}, {"Zr": 4}, 22.80),
]
DISAGREE: list[tuple[str, Shares, Valences, float, float]] = [
    ("C28000", {"Cu": 0.60, "Zn": 0.40}, {"Cu": 1, "Zn": 2}, 46.44, 0.007),
    ("C65500", {"Cu": 0.97, "Si": 0.03}, {"Cu": 1, "Si": 4}, 50.21, 0.020),
    ("C70600", {"Cu": 0.887, "Ni": 0.10, "Fe": 0.013}, {"Cu": 1, "Ni": 2, "Fe": 2}, 56.92, 0.015),
    ("C71500", {"Cu": 0.70, "Ni": 0.30}, {"Cu": 1, "Ni": 2}, 46.69, 0.009),
    ("N04400", {"Ni": 0.66, "Cu": 0.315, "Fe": 0.015}, {"Ni": 2, "Cu": 1, "Fe": 2}, 35.82, 0.013),
]
"""Rows of the same table whose recalled figure does not follow from the nominal composition, with
the gap that is known."""

ELECTRODES = {
    "aluminium-1xxx": 8.99,
    "aluminium-3xxx": 9.07,
    "aluminium-5xxx": 9.09,
    "aluminium-6xxx": 9.01,
    "copper": 63.55,
    "brass-low-zinc": 55.65,
    "cupronickel-70-30": 46.69,
    "stainless-304": 25.12,
    "stainless-316": 25.50,
    "stainless-410": 25.94,
    "stainless-430": 25.30,
    "nickel": 29.36,
    "alloy-400": 35.82,
    "alloy-600": 26.41,
    "alloy-c276": 25.90,
    "steel-carbon": 27.92,
    "magnesium": 12.15,
    "zinc": 32.68,
    "tin": 59.34,
    "lead": 103.59,
    "silver": 107.87,
    "titanium": 11.98,
}
"""Electrodes of the seed package and the row of Table 1 that is nearest to their representative."""


@pytest.mark.parametrize(
    ("name", "shares", "valences", "expected"), TABLE_1, ids=lambda value: str(value)[:24]
)
def test_equivalent_weight_follows_the_table(
    name: str, shares: Shares, valences: Valences, expected: float
) -> None:
    assert equivalent_weight(shares, valences) == pytest.approx(expected, rel=0.0023), name


@pytest.mark.parametrize(("name", "shares", "valences", "recalled", "gap"), DISAGREE)
def test_known_disagreements_stay_as_wide_as_they_are(
    name: str, shares: Shares, valences: Valences, recalled: float, gap: float
) -> None:
    difference = abs(equivalent_weight(shares, valences) / recalled - 1)
    assert 0.5 * gap < difference < 1.1 * gap, name


@pytest.mark.parametrize(("electrode", "expected"), ELECTRODES.items())
def test_an_electrode_of_the_package_has_the_equivalent_weight_of_its_class(
    electrode: str, expected: float
) -> None:
    shares, valences = dissolving(electrode)
    assert equivalent_weight(shares, valences) == pytest.approx(expected, rel=0.02)


def dissolving(electrode: str) -> tuple[Shares, Valences]:
    """Shares and valences of what dissolves from the representative of an electrode."""
    row = _rows("electrodes")[electrode]
    valences = {element: int(charge) for element, charge in _pairs(row["dissolution"], ":")}
    composition = _rows("materials")[row["representative_material_id"]]["composition"]
    shares = {element: float(share) / 100 for element, share in _pairs(composition, " ")}
    return {element: share for element, share in shares.items() if element in valences}, valences


def _rows(table: str) -> dict[str, dict[str, str]]:
    with (SEED_DATA / f"{table}.csv").open(encoding="utf-8", newline="") as stream:
        return {row["id"]: row for row in csv.DictReader(stream)}


def _pairs(text: str, separator: str) -> list[list[str]]:
    return [part.split(separator) for part in text.split(";")]
