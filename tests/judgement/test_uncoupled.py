from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.chemistry.atmosphere import StandardMetal, first_year_rate_um_per_year
from service.judgement.uncoupled import (
    STEEL_UM_PER_YEAR_PER_A_PER_M2,
    first_year_loss,
    oxygen_capacity_A_per_m2,
)
from tests.factories.couples import COAST, SEA

WITHOUT_CLIMATE: dict[str, Any] = {"relative_humidity_pct": None}


def place(catalogue: Catalogue, **figures: Any) -> Environment:
    return replace(catalogue.environments[COAST], **figures)


def test_climate_figures_go_through_the_dose_response_function(catalogue: Catalogue) -> None:
    site = place(
        catalogue,
        temperature_C=14.0,
        relative_humidity_pct=79.0,
        so2_mg_per_m2_d=20.0,
        chloride_mg_per_m2_d=60.0,
    )
    loss = first_year_loss(StandardMetal.ZINC, site)
    assert loss is not None
    assert loss.um_per_year == first_year_rate_um_per_year(StandardMetal.ZINC, 14.0, 79.0, 20.0, 60.0)
    assert loss.outside == ()
    assert loss.category == "C4"


def test_figures_beyond_the_fit_are_named(catalogue: Catalogue) -> None:
    loss = first_year_loss(StandardMetal.ZINC, place(catalogue, temperature_C=40.0))
    assert loss is not None
    assert loss.outside


def test_without_climate_the_category_gives_its_middle(catalogue: Catalogue) -> None:
    mild, hard = (
        first_year_loss(
            StandardMetal.CARBON_STEEL, place(catalogue, **WITHOUT_CLIMATE, iso9223_category=category)
        )
        for category in ("C2", "C5")
    )
    assert mild is not None
    assert hard is not None
    assert mild.um_per_year < hard.um_per_year
    assert mild.category == "C2"
    assert mild.spread > 1.0


def test_an_extreme_rate_is_beyond_the_categories(catalogue: Catalogue) -> None:
    site = place(catalogue, temperature_C=28.0, relative_humidity_pct=90.0, chloride_mg_per_m2_d=5000.0)
    loss = first_year_loss(StandardMetal.CARBON_STEEL, site)
    assert loss is not None
    assert loss.category == "beyond CX"


@pytest.mark.parametrize(
    "figures",
    [
        {"is_sheltered": True},
        {**WITHOUT_CLIMATE, "iso9223_category": ""},
        {**WITHOUT_CLIMATE, "iso9223_category": "C9"},
    ],
    ids=str,
)
def test_where_the_standard_does_not_reach_there_is_no_figure(
    figures: dict[str, Any], catalogue: Catalogue
) -> None:
    assert first_year_loss(StandardMetal.ZINC, place(catalogue, **figures)) is None


def test_a_category_without_a_band_for_the_metal_gives_none(catalogue: Catalogue) -> None:
    site = place(catalogue, **WITHOUT_CLIMATE, iso9223_category="C1")
    assert first_year_loss(StandardMetal.ALUMINIUM, site) is None


def test_the_sea_is_no_atmosphere(catalogue: Catalogue) -> None:
    assert first_year_loss(StandardMetal.ZINC, catalogue.environments[SEA]) is None
    assert oxygen_capacity_A_per_m2(catalogue.environments[SEA]) is None


def test_a_cathode_gets_no_more_oxygen_than_rusting_steel(catalogue: Catalogue) -> None:
    steel = first_year_loss(StandardMetal.CARBON_STEEL, place(catalogue))
    capacity = oxygen_capacity_A_per_m2(place(catalogue))
    assert steel is not None
    assert capacity == pytest.approx(steel.um_per_year / STEEL_UM_PER_YEAR_PER_A_PER_M2)
