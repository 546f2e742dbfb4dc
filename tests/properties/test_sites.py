"""Whatever figures the API takes for a place, it can be described and judged in."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from service.catalogue.records import Environment
from service.judgement.regimes import spells
from service.judgement.site import site_of
from tests.seed_catalogue import seed_catalogue

PLACES = ("marine-atmosphere-0-100-m", "urban-atmosphere", "seawater-quiescent", "fresh-water-hard")


def figure(low: float, high: float) -> st.SearchStrategy[float | None]:
    """A figure within the limits of the request, its ends among them, or none."""
    return st.one_of(st.none(), st.sampled_from([low, high]), st.floats(low, high))


FIGURES = st.fixed_dictionaries(
    {
        "temperature_C": figure(-80, 200),
        "relative_humidity_pct": figure(0, 100),
        "wetness_h_per_year": figure(0, 8784),
        "so2_mg_per_m2_d": figure(0, 1e4),
        "chloride_mg_per_m2_d": figure(0, 1e5),
        "salt_load_g_per_m2": figure(0, 1e4),
        "conductivity_S_per_m": figure(1e-7, 1e3),
        "hours_rain_per_year": figure(0, 8784),
        "is_sheltered": st.booleans(),
    }
)


@given(st.sampled_from(PLACES), FIGURES, st.sampled_from([1e-3, 1.0, 10.0, 200.0]))
def test_any_place_can_be_described(name: str, figures: dict[str, Any], years: float) -> None:
    place: Environment = replace(seed_catalogue().environments[name], **figures)
    site = site_of(place, years)
    assert all(loss.first_year_um.low <= loss.first_year_um.high for loss in site.metals)
    assert sum(spell.share_of_year for spell in spells(place)) <= 1.0 + 1e-9 or place.wetness_h_per_year
