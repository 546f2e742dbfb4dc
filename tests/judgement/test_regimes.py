from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import ElectrolyteClass, Environment, Exposure
from service.judgement.regimes import (
    DEFAULT_TEMPERATURE_C,
    RAIN_HOURS_PER_YEAR,
    reason_to_abstain,
    salinity_g_per_kg,
    spells,
)
from tests.factories.couples import COAST, SEA, TAP

SPLASH = "splash-and-tidal-zone"
INDOORS = "unheated-indoor"
WITHOUT_HOURS: dict[str, Any] = {
    "hours_rain_per_year": None,
    "hours_deliquesced_per_year": None,
    "hours_drying_per_year": None,
    "wetness_h_per_year": None,
}


def changed(environment_id: str, catalogue: Catalogue, **figures: Any) -> Environment:
    return replace(catalogue.environments[environment_id], **figures)


@pytest.mark.parametrize("environment_id", [COAST, SEA, TAP, SPLASH, INDOORS])
def test_the_model_covers_waters_and_films(environment_id: str, catalogue: Catalogue) -> None:
    assert reason_to_abstain(catalogue.environments[environment_id]) == ""


@pytest.mark.parametrize(
    ("figures", "reason"),
    [
        ({"exposure": Exposure.SOIL}, "soil"),
        ({"electrolyte_class": ElectrolyteClass.ACID}, "acid"),
        ({"tags": ("ammonia",)}, "ammonia"),
        ({"pH": 4.9}, "pH 4.9"),
        ({"pH": 9.1}, "pH 9.1"),
        ({"temperature_C": 61.0}, "61 degC"),
        ({"conductivity_S_per_m": None}, "conductivity"),
    ],
)
def test_outside_its_validity_it_says_why(figures: dict[str, Any], reason: str, catalogue: Catalogue) -> None:
    assert reason in reason_to_abstain(changed(SEA, catalogue, **figures))


@pytest.mark.parametrize("figures", [{"pH": None}, {"pH": 5.0}, {"pH": 9.0}, {"temperature_C": None}])
def test_an_unknown_or_bordering_figure_is_no_reason(figures: dict[str, Any], catalogue: Catalogue) -> None:
    assert reason_to_abstain(changed(SEA, catalogue, **figures)) == ""


@pytest.mark.parametrize(
    "figures", [WITHOUT_HOURS, {"wetness_h_per_year": 0.0}, {"film_thickness_um": 4.0}], ids=str
)
def test_unknown_wetness_is_not_taken_for_dryness(figures: dict[str, Any], catalogue: Catalogue) -> None:
    assert "known to last" in reason_to_abstain(changed(INDOORS, catalogue, **figures))


def test_immersion_is_one_spell_all_year(catalogue: Catalogue) -> None:
    (spell,) = spells(catalogue.environments[SEA])
    assert (spell.name, spell.share_of_year, spell.film_thickness_m) == ("immersed", 1.0, None)


def test_stated_hours_are_kept(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SPLASH]
    rain, deliquesced, drying = spells(environment)
    assert rain.share_of_year * 8766 == pytest.approx(environment.hours_rain_per_year)
    assert (rain.film_thickness_m or 0) > (deliquesced.film_thickness_m or 0) > (drying.film_thickness_m or 0)
    assert rain.conductivity_S_per_m < deliquesced.conductivity_S_per_m


def test_hours_that_are_not_stated_beside_stated_ones_are_none(catalogue: Catalogue) -> None:
    environment = changed(SPLASH, catalogue, hours_drying_per_year=None)
    assert [spell.name for spell in spells(environment)] == ["rain", "deliquesced"]


def test_a_roof_keeps_the_rain_off(catalogue: Catalogue) -> None:
    open_air = spells(catalogue.environments[COAST])
    roofed = spells(changed(COAST, catalogue, is_sheltered=True))
    assert open_air[0].share_of_year * 8766 == pytest.approx(RAIN_HOURS_PER_YEAR)
    assert "rain" not in {spell.name for spell in roofed}


def test_dew_makes_up_for_the_wet_hours_that_salt_does_not_explain(catalogue: Catalogue) -> None:
    clean = changed("rural-atmosphere", catalogue, salt_load_g_per_m2=0.0)
    total = sum(spell.share_of_year * 8766 for spell in spells(clean))
    assert total == pytest.approx(clean.wetness_h_per_year)
    assert "dew" in {spell.name for spell in spells(clean)}


def test_without_humidity_the_wet_hours_are_one_film(catalogue: Catalogue) -> None:
    environment = changed(COAST, catalogue, relative_humidity_pct=None)
    assert [spell.name for spell in spells(environment)] == ["wet"]


def test_an_unknown_temperature_is_that_of_a_temperate_coast(catalogue: Catalogue) -> None:
    assert spells(changed(TAP, catalogue, temperature_C=None))[0].temperature_C == DEFAULT_TEMPERATURE_C


def test_a_known_range_sets_the_spread_and_an_unknown_one_has_a_default(catalogue: Catalogue) -> None:
    wide = changed(TAP, catalogue, conductivity_low_S_per_m=0.01, conductivity_high_S_per_m=0.1)
    none = changed(TAP, catalogue, conductivity_low_S_per_m=None)
    assert spells(wide)[0].conductivity_spread ** 3.29 == pytest.approx(10.0)
    assert spells(none)[0].conductivity_spread == 1.5


def test_water_without_stated_oxygen_and_films_are_saturated(catalogue: Catalogue) -> None:
    assert spells(changed(SEA, catalogue, oxygen_mg_per_L=None))[0].oxygen_ratio == 1.0
    assert {spell.oxygen_ratio for spell in spells(catalogue.environments[COAST])} == {1.0}


def test_air_saturated_sea_water_counts_as_saturated(catalogue: Catalogue) -> None:
    # 8.1 mg/L at 15 degC and 35 g/kg is saturation (B. B. Benson, D. Krause, 1984; from memory)
    assert spells(changed(SEA, catalogue, oxygen_mg_per_L=8.1))[0].oxygen_ratio == pytest.approx(
        1.0, abs=0.02
    )
    assert spells(changed(SEA, catalogue, oxygen_mg_per_L=2.0))[0].oxygen_ratio == pytest.approx(
        0.25, abs=0.01
    )


def test_salinity_follows_conductivity_at_its_temperature() -> None:
    # sodium chloride 3.5 % at 25 degC conducts 5.4 S/m (from memory)
    assert salinity_g_per_kg(5.4, 25.0) == pytest.approx(36.0, abs=1.0)
    assert salinity_g_per_kg(4.29, 15.0) == pytest.approx(35.0)
    assert salinity_g_per_kg(100.0, 15.0) == 200.0
