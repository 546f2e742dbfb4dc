"""Categories from rates and rates from categories."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.atmosphere import StandardMetal
from service.chemistry.corrosivity import (
    BEYOND_CX,
    CATEGORIES,
    UPPER_LIMITS_UM_PER_YEAR,
    category_rate_band,
    corrosivity_category,
)
from service.chemistry.errors import OutOfRangeError


@pytest.mark.parametrize("metal", list(StandardMetal))
def test_an_upper_limit_belongs_to_its_category_and_what_is_above_to_the_next(metal: StandardMetal) -> None:
    limits = np.array(UPPER_LIMITS_UM_PER_YEAR[metal])
    finite = limits[np.isfinite(limits)]
    assert corrosivity_category(metal, finite).tolist() == list(range(len(finite)))
    assert corrosivity_category(metal, np.nextafter(finite, np.inf)).tolist() == list(
        range(1, len(finite) + 1)
    )


def test_a_loss_above_the_table_is_beyond_cx_except_for_aluminium() -> None:
    assert corrosivity_category(StandardMetal.CARBON_STEEL, 1070.0) == BEYOND_CX
    assert CATEGORIES[int(corrosivity_category(StandardMetal.ALUMINIUM, 1e6))] == "CX"


@pytest.mark.parametrize("rate", [-0.1, np.nan])
def test_a_loss_must_be_a_number_not_below_zero(rate: float) -> None:
    with pytest.raises(OutOfRangeError):
        corrosivity_category(StandardMetal.ZINC, rate)


@pytest.mark.parametrize("metal", list(StandardMetal))
@pytest.mark.parametrize("category", CATEGORIES)
def test_the_band_of_a_category_classifies_back(metal: StandardMetal, category: str) -> None:
    if (metal, category) == (StandardMetal.ALUMINIUM, "C1"):
        with pytest.raises(OutOfRangeError):
            category_rate_band(metal, category)
        return
    band = category_rate_band(metal, category)
    assert band.low_um_per_year < band.typical_um_per_year < band.high_um_per_year
    assert CATEGORIES[int(corrosivity_category(metal, band.typical_um_per_year))] == category
    assert band.typical_um_per_year**2 == pytest.approx(band.low_um_per_year * band.high_um_per_year)


def test_ends_that_the_standard_leaves_open_are_marked() -> None:
    assert category_rate_band(StandardMetal.ZINC, "C1").is_lower_assumed
    assert category_rate_band(StandardMetal.ALUMINIUM, "C2").is_lower_assumed
    open_band = category_rate_band(StandardMetal.ALUMINIUM, "CX")
    assert open_band.is_upper_assumed
    assert open_band.high_um_per_year == pytest.approx(2.0 * 10.0 / 2.70)
    closed = category_rate_band(StandardMetal.COPPER, "C4")
    assert (closed.is_lower_assumed, closed.is_upper_assumed) == (False, False)


def test_an_unknown_category_is_refused() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        category_rate_band(StandardMetal.ZINC, "C7")
    assert "C1, C2" in str(caught.value)
