"""Hours of the year in each film state."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.chemistry.electrolyte import Deposit
from service.chemistry.errors import OutOfRangeError
from service.chemistry.rain import HOURS_PER_YEAR, RAIN_FILM_M
from service.chemistry.wetness import (
    WETNESS_CLASSES,
    Climate,
    FilmHours,
    film_hours,
    time_of_wetness_h,
    wetness_class,
)

COAST = Climate(10.0, 80.0, 0.5, rain_h_per_year=600.0)


def _total(hours: FilmHours) -> float:
    return float(hours.rain_h + hours.deliquesced_h + hours.drying_h + hours.dry_h)


@pytest.mark.parametrize(
    "climate",
    [
        COAST,
        replace(COAST, is_sheltered=True),
        replace(COAST, salt_load_g_per_m2=0.0),
        replace(COAST, rain_h_per_year=8766.0),
        replace(COAST, relative_humidity_pct=20.0, temperature_C=-30.0),
        replace(COAST, relative_humidity_pct=97.0, temperature_C=27.0, rain_h_per_year=3000.0),
        replace(COAST, deposit=Deposit.SODIUM_CHLORIDE),
    ],
)
def test_the_states_add_up_to_the_year_and_none_is_negative(climate: Climate) -> None:
    hours = film_hours(climate)
    assert _total(hours) == pytest.approx(HOURS_PER_YEAR, abs=1e-9)
    for state in (hours.rain_h, hours.deliquesced_h, hours.drying_h, hours.dry_h, hours.residual_brine_h):
        assert state >= 0.0
    assert hours.residual_brine_h <= hours.dry_h


def test_shelter_takes_rain_and_drying_away_and_leaves_the_brine() -> None:
    open_air, sheltered = film_hours(COAST), film_hours(replace(COAST, is_sheltered=True))
    assert sheltered.rain_h == 0.0
    assert sheltered.drying_h == 0.0
    assert sheltered.deliquesced_h > open_air.deliquesced_h


def test_without_salt_nothing_deliquesces() -> None:
    hours = film_hours(replace(COAST, salt_load_g_per_m2=0.0))
    assert hours.deliquesced_h == 0.0
    assert hours.residual_brine_h == 0.0
    assert hours.drying.conductivity_S_per_m > hours.rain.conductivity_S_per_m


def test_sodium_chloride_leaves_no_residual_brine() -> None:
    assert film_hours(replace(COAST, deposit=Deposit.SODIUM_CHLORIDE)).residual_brine_h == 0.0
    assert film_hours(COAST).residual_brine_h > 1000.0


def test_films_become_thinner_and_saltier_from_rain_to_brine() -> None:
    hours = film_hours(COAST)
    assert hours.rain.thickness_m == RAIN_FILM_M
    assert hours.rain.thickness_m > hours.drying.thickness_m > hours.deliquesced.thickness_m
    assert hours.deliquesced.thickness_m > hours.residual_brine.thickness_m > 0.0
    conductivities = [
        float(film.conductivity_S_per_m) for film in (hours.rain, hours.drying, hours.deliquesced)
    ]
    assert conductivities == sorted(conductivities)
    assert hours.deliquesced.temperature_C == 10.0


def test_frost_takes_hours_away() -> None:
    mild, cold = (film_hours(replace(COAST, temperature_C=t)).deliquesced_h for t in (10.0, -15.0))
    assert cold < 0.2 * mild


def test_a_continental_year_has_more_extreme_hours() -> None:
    maritime, continental = (
        time_of_wetness_h(replace(COAST, relative_humidity_pct=60.0, humidity_concentration=nu))
        for nu in (10.0, 4.0)
    )
    assert continental > 1.5 * maritime


def test_places_are_computed_side_by_side() -> None:
    together = film_hours(
        Climate(np.array([5.0, 27.0]), np.array([75.0, 80.0]), 0.3, rain_h_per_year=np.array([500.0, 900.0]))
    )
    alone = film_hours(Climate(27.0, 80.0, 0.3, rain_h_per_year=900.0))
    assert together.deliquesced_h.shape == (2,)
    assert together.deliquesced_h[1] == alone.deliquesced_h
    assert together.drying.conductivity_S_per_m[1] == alone.drying.conductivity_S_per_m


@pytest.mark.parametrize("rain", [-1.0, 9000.0])
def test_impossible_rain_is_refused(rain: float) -> None:
    with pytest.raises(OutOfRangeError):
        film_hours(replace(COAST, rain_h_per_year=rain))


def test_a_negative_salt_load_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        film_hours(replace(COAST, salt_load_g_per_m2=-0.1))


def test_wetness_classes_include_their_upper_limit() -> None:
    hours = np.array([0.0, 10.0, 10.1, 250.0, 2500.0, 5500.0, 5501.0])
    names = [WETNESS_CLASSES[i] for i in wetness_class(hours)]
    assert names == ["tau1", "tau1", "tau2", "tau2", "tau3", "tau4", "tau5"]
    with pytest.raises(OutOfRangeError):
        wetness_class(-1.0)
