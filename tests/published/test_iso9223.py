"""ISO 9223 against a published calculation, published categories and measured rates.

Source of each row: columns ``reference_source`` and ``input_source`` of ``data/iso9223_cases.csv``.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from service.chemistry.atmosphere import DOSE_RESPONSE, StandardMetal, first_year_rate_um_per_year, validity
from service.chemistry.corrosivity import CATEGORIES, corrosivity_category

DATA = Path(__file__).parent / "data" / "iso9223_cases.csv"

# Ten exposure sites, deposition and humidity second-hand: the widest deviation is a factor 5.3 (zinc at a
# site whose zinc column is doubtful), all others stay within 3. The functions are stated to 1.5 or 2.
SITE_FACTOR = 3.0
DOUBTFUL_SITE_FACTOR = 5.5
DOUBTFUL = {"A11"}


def _rows(kind: str) -> list[dict[str, str]]:
    with DATA.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["kind"] == kind]


def _rate(row: dict[str, str]) -> float:
    inputs = [float(row[name]) for name in ("T_C", "RH_pct", "Pd_mg_m2_d", "Sd_mg_m2_d")]
    assert validity(*inputs).outside() == ()
    return float(first_year_rate_um_per_year(StandardMetal(row["metal"]), *inputs))


def _category(row: dict[str, str], rate: float) -> str:
    return CATEGORIES[int(corrosivity_category(StandardMetal(row["metal"]), rate))]


def _ids(row: dict[str, str]) -> str:
    return f"{row['case_id']}-{row['metal']}"


def test_all_rows_are_used() -> None:
    kinds = {
        "published_calculation": 1,
        "site_measured_vs_computed": 20,
        "published_category": 4,
        "reference_vector": 16,
    }
    assert {kind: len(_rows(kind)) for kind in kinds} == kinds


@pytest.mark.parametrize("row", _rows("published_calculation"), ids=_ids)
def test_published_calculation_agrees_to_all_digits(row: dict[str, str]) -> None:
    rate = _rate(row)
    assert rate == pytest.approx(float(row["reference_um_y"]), rel=1e-12)
    assert _category(row, rate) == row["reference_category"]


@pytest.mark.parametrize("row", _rows("reference_vector"), ids=_ids)
def test_a_second_implementation_agrees_to_the_printed_digits(row: dict[str, str]) -> None:
    rate = _rate(row)
    assert rate == pytest.approx(float(row["reference_um_y"]), abs=5.1e-7)
    assert _category(row, rate) == row["reference_category"]


@pytest.mark.parametrize("row", _rows("published_category"), ids=_ids)
def test_published_categories_follow_from_the_published_loss(row: dict[str, str]) -> None:
    if row["metal"] == StandardMetal.ALUMINIUM:
        # The catalogue calls 0.1 g/(m2 y) C1; the standard gives C1 no figure and C2 up to 0.6.
        assert (_category(row, float(row["reference_um_y"])), row["reference_category"]) == ("C2", "C1")
    else:
        assert _category(row, float(row["reference_um_y"])) == row["reference_category"]


@pytest.mark.parametrize("row", _rows("site_measured_vs_computed"), ids=_ids)
def test_measured_sites_lie_within_the_stated_factor(row: dict[str, str]) -> None:
    rate = _rate(row)
    assert rate == pytest.approx(float(row["computed_um_y"]), abs=5.1e-4)
    allowed = DOUBTFUL_SITE_FACTOR if row["case_id"] in DOUBTFUL else SITE_FACTOR
    assert 1.0 / allowed < rate / float(row["reference_um_y"]) < allowed


def test_over_all_sites_no_metal_is_off_by_more_than_its_stated_uncertainty() -> None:
    ratios: dict[StandardMetal, list[float]] = {metal: [] for metal in StandardMetal}
    for row in _rows("site_measured_vs_computed"):
        ratios[StandardMetal(row["metal"])].append(math.log(_rate(row) / float(row["reference_um_y"])))
    for metal, logarithms in ratios.items():
        assert len(logarithms) == 5
        assert abs(np.mean(logarithms)) < math.log(DOSE_RESPONSE[metal].uncertainty_factor)
