"""A place by itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement.regimes import spells
from service.judgement.site import site_of

SEA_FRONT = "marine-atmosphere-0-100-m"


def place(catalogue: Catalogue, environment_id: str, **figures: object) -> Environment:
    return replace(catalogue.environments[environment_id], **figures)  # type: ignore[arg-type]


def test_the_functions_of_the_standard_by_hand(catalogue: Catalogue) -> None:
    # ISO 9223:2012, Eq. (2) for zinc, worked with a pocket calculator at 15 °C, 70 %, 4 and 3 mg/(m² d):
    # 0.0129 * 4**0.44 * exp(3.22 - 0.355) + 0.0175 * 3**0.57 * exp(0.56 + 1.275) = 0.4175 + 0.2051 ... µm
    figures = {"temperature_C": 15.0, "relative_humidity_pct": 70.0, "so2_mg_per_m2_d": 4.0}
    somewhere = place(catalogue, SEA_FRONT, **figures, chloride_mg_per_m2_d=3.0)
    zinc = next(metal for metal in site_of(somewhere, 1.0).metals if metal.metal == "zinc")
    assert zinc.first_year_um.median == 0.622
    assert zinc.category == "C2"
    assert zinc.loss_um == zinc.conservative_loss_um == zinc.first_year_um.median


def test_beyond_twenty_years_the_loss_goes_on_in_a_straight_line(catalogue: Catalogue) -> None:
    environment = place(catalogue, SEA_FRONT)
    at_20, at_30, at_40 = (site_of(environment, years).metals[0].loss_um for years in (20.0, 30.0, 40.0))
    # ISO 9224:2012: 20**0.523 + 0.523 * 20**(0.523 - 1) * 20 over 20**0.523
    assert at_40 / at_20 == pytest.approx(1.523, rel=5e-3)
    assert at_40 - at_30 == pytest.approx(at_30 - at_20, abs=1.5)


def test_the_films_are_those_that_couples_are_computed_in(catalogue: Catalogue) -> None:
    environment = place(catalogue, SEA_FRONT)
    site = site_of(environment, 10.0)
    assert [film.name for film in site.films] == [spell.name for spell in spells(environment)]
    assert sum(film.hours_per_year for film in site.films) < 8766
    assert site.wetness is not None
    assert site.wetness.wetness_class == "tau4"


def test_hours_of_rain_alone_leave_the_rest_to_the_climate(catalogue: Catalogue) -> None:
    dry, wet = (
        {
            spell.name: spell.share_of_year
            for spell in spells(place(catalogue, SEA_FRONT, hours_rain_per_year=h))
        }
        for h in (100.0, 1500.0)
    )
    assert wet["rain"] == pytest.approx(15.0 * dry["rain"])
    assert 0.0 < wet["deliquesced"] < dry["deliquesced"]


def test_water_tells_its_salt_and_oxygen(catalogue: Catalogue) -> None:
    # TEOS-10 and Garcia and Gordon (1992): 8.1 mg/L of oxygen in sea water of 35 g/kg at 15 °C.
    water = site_of(place(catalogue, "seawater-quiescent"), 10.0).water
    assert water is not None
    assert water.salinity_g_per_kg == pytest.approx(35.0, abs=0.5)
    assert water.saturated_oxygen_mg_per_L == pytest.approx(8.1, abs=0.1)
    assert site_of(place(catalogue, "seawater-quiescent", temperature_C=55.0), 10.0).water is None


def test_a_room_has_bands_and_no_open_air(catalogue: Catalogue) -> None:
    room = site_of(place(catalogue, "heated-indoor"), 10.0)
    assert room.metals == ()
    assert room.wetness is None
    assert room.water is None
    assert room.kinetics_abstain
    silver = {band.metal: band for band in room.film_nm_per_year}["silver"]
    # ANSI/ISA-71.04-2013: G1 ends at 200 angstrom in 30 days for silver, 243.5 nm in a year.
    assert silver.high == 244.0
    assert silver.is_low_assumed
    assert {band.metal for band in room.indoor_um_per_year} == {"carbon_steel", "zinc", "copper", "silver"}
