"""Figures as networks report them."""

from __future__ import annotations

from dataclasses import fields

import pytest

from service.catalogue.records import Environment
from service.chemistry.errors import OutOfRangeError
from service.judgement.reported import REPLACES, Reported


def test_each_reported_figure_replaces_one_of_the_record() -> None:
    assert set(REPLACES) == {field.name for field in fields(Reported)}
    assert set(REPLACES.values()) <= {field.name for field in fields(Environment)}
    assert Reported().figures(15.0) == {}


def test_figures_are_converted_by_the_published_factors() -> None:
    # ISO 9223:2012, Annex B: Pd = 0.8 Pc; ISO 9225 (from memory): wet candle 2.4 times the dry plate;
    # TEOS-10: 4.29 S/m at 15 °C and 35 g/kg of reference salt, about.
    found = Reported(10.0, 10.0, 850.0, 35.0).figures(15.0)
    assert found["so2_mg_per_m2_d"] == 8.0
    assert found["chloride_mg_per_m2_d"] == 24.0
    assert found["hours_rain_per_year"] == 500.0
    assert found["conductivity_S_per_m"] == pytest.approx(4.28, abs=0.02)


def test_water_too_hot_for_the_equation_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="temperature_C must be from -2 to 40"):
        Reported(salinity_g_per_kg=35.0).figures(60.0)
