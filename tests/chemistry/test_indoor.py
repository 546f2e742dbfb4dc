"""Indoor classes and severity levels."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from service.chemistry.atmosphere import StandardMetal
from service.chemistry.corrosivity import category_rate_band
from service.chemistry.errors import OutOfRangeError
from service.chemistry.indoor import (
    BEYOND_IC5,
    INDOOR_CLASSES,
    MASS_LOSS_MG_PER_M2_Y,
    SEVERITY_LEVELS,
    FilmMetal,
    IndoorMetal,
    film_growth_per_30_days,
    indoor_class,
    indoor_rate_band_um_per_year,
    severity_film_band_nm_per_year,
    severity_level,
)


@pytest.mark.parametrize("metal", list(IndoorMetal))
def test_an_upper_limit_belongs_to_its_class(metal: IndoorMetal) -> None:
    limits = np.array(MASS_LOSS_MG_PER_M2_Y[metal])
    assert indoor_class(metal, limits).tolist() == [0, 1, 2, 3, 4]
    assert indoor_class(metal, limits + 0.1).tolist() == [1, 2, 3, 4, BEYOND_IC5]


@pytest.mark.parametrize("metal", [IndoorMetal.CARBON_STEEL, IndoorMetal.ZINC, IndoorMetal.COPPER])
def test_the_scale_joins_the_outdoor_one(metal: IndoorMetal) -> None:
    # the standards meet: IC3 ends where C1 ends and IC5 where C2 ends, within the rounding of the limits
    outdoor = StandardMetal(metal.value)
    for indoor, category in (("IC3", "C1"), ("IC5", "C2")):
        expected = category_rate_band(outdoor, category).high_um_per_year
        assert indoor_rate_band_um_per_year(metal, indoor).high == pytest.approx(expected, rel=0.08)


@pytest.mark.parametrize("metal", list(IndoorMetal))
def test_bands_are_ordered_and_join(metal: IndoorMetal) -> None:
    bands = [indoor_rate_band_um_per_year(metal, name) for name in INDOOR_CLASSES]
    assert bands[0].is_low_assumed
    assert not any(band.is_low_assumed or band.is_high_assumed for band in bands[1:])
    for lower, upper in itertools.pairwise(bands):
        assert lower.high == upper.low
        assert upper.low < upper.typical < upper.high


def test_the_room_takes_the_worse_of_copper_and_silver() -> None:
    copper, silver = np.array([299.0, 299.0, 300.0, 1999.0, 0.0]), np.array([199.0, 200.0, 0.0, 0.0, 2000.0])
    names = [SEVERITY_LEVELS[i] for i in severity_level(copper, silver)]
    assert names == ["G1", "G2", "G2", "G3", "GX"]


def test_film_bands_of_the_levels() -> None:
    mild, severe = (severity_film_band_nm_per_year(FilmMetal.COPPER, level) for level in ("G1", "GX"))
    assert mild.high == pytest.approx(30.0 * 365.25 / 30.0)
    assert mild.is_low_assumed
    assert severe.is_high_assumed
    assert severe.high == 2.0 * severe.low
    middle = severity_film_band_nm_per_year(FilmMetal.SILVER, "G2")
    assert (middle.is_low_assumed, middle.is_high_assumed) == (False, False)


def test_film_growth_is_brought_to_thirty_days() -> None:
    assert film_growth_per_30_days(np.array([300.0, 450.0]), np.array([30.0, 90.0])).tolist() == [
        300.0,
        150.0,
    ]


@pytest.mark.parametrize("days", [0.0, -30.0])
def test_a_time_must_be_positive(days: float) -> None:
    with pytest.raises(OutOfRangeError):
        film_growth_per_30_days(300.0, days)


def test_unknown_names_and_negative_figures_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        indoor_class(IndoorMetal.ZINC, -1.0)
    with pytest.raises(OutOfRangeError):
        indoor_rate_band_um_per_year(IndoorMetal.ZINC, "IC6")
    with pytest.raises(OutOfRangeError):
        severity_film_band_nm_per_year(FilmMetal.COPPER, "G4")
    with pytest.raises(OutOfRangeError) as caught:
        severity_level(100.0, np.nan)
    assert caught.value.quantity == "silver_angstrom_per_30_d"
