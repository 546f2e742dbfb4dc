"""Anodic indices that were computed, against the definition of the index.

Source of the definition: MIL-DTL-14072F 3.13 (groups by EMF against calomel in sea water) with the zero of
the index at +0.15 V, the EMF of gold in Table VI of MIL-F-14072 (from memory). The sea water ranges
are those of the Australasian Corrosion Association.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

SEED_DATA = Path(__file__).parents[2] / "seed_data"
ZERO_OF_THE_INDEX_V = 0.15


@cache
def measurements() -> list[dict[str, str]]:
    with (SEED_DATA / "measurements.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def potentials() -> dict[tuple[str, str], tuple[float, float]]:
    return {
        (row["subject_id"], row["state"]): (float(row["low"]), float(row["high"]))
        for row in measurements()
        if row["scale_id"] == "sea-water-flowing-ranges"
    }


def computed() -> list[dict[str, str]]:
    return [
        row for row in measurements() if row["quantity"] == "anodic_index" and row["obtained"] == "computed"
    ]


@pytest.mark.parametrize(
    "row", [row for row in computed() if row["low"]], ids=lambda row: f"{row['subject_id']} {row['state']}"
)
def test_a_computed_index_is_its_potential_turned_round(row: dict[str, str]) -> None:
    low, high = potentials()[row["subject_id"], row["state"]]
    assert float(row["low"]) == pytest.approx(ZERO_OF_THE_INDEX_V - high, abs=1e-6)
    assert float(row["high"]) == pytest.approx(ZERO_OF_THE_INDEX_V - low, abs=1e-6)


def index_of(electrode: str) -> float:
    (value,) = {
        float(row["value"])
        for row in measurements()
        if row["scale_id"] == "anodic-index"
        and row["subject_id"] == electrode
        and row["value"]
        and row["plausibility"] == "passed"
    }
    return value


@pytest.mark.parametrize(
    ("anode", "cathode", "difference_V"),
    [
        ("tin-lead", "gold", 0.65),  # common practice, no source: gold against tinned parts, about 0.65 V
        (
            "aluminium-6xxx",
            "brass-naval",
            0.45,
        ),  # common practice, no source: aluminium against brass, about 0.45 V
        ("silver", "gold", 0.15),  # list in circulation: an example of what may stand outdoors
    ],
)
def test_differences_that_the_trade_repeats_come_out(anode: str, cathode: str, difference_V: float) -> None:
    assert index_of(anode) - index_of(cathode) == pytest.approx(difference_V, abs=0.001)
