from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.judgement.regimes import HOURS_PER_YEAR, spells
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.wetness import KEEP_DRY, drain, exclude_wetness, with_wet_share
from tests.factories.remedies import SEA_FRONT, arrangement, place, situation


def wet_hours(environment: Environment) -> float:
    return sum(spell.share_of_year for spell in spells(environment)) * HOURS_PER_YEAR


@pytest.mark.parametrize("environment_id", [SEA_FRONT, "splash-and-tidal-zone", "cabinet-with-condensation"])
def test_wet_hours_shrink_by_the_share(environment_id: str, catalogue: Catalogue) -> None:
    before = place(catalogue, environment_id)
    assert wet_hours(with_wet_share(before, 0.25)) == pytest.approx(
        0.25 * min(wet_hours(before), HOURS_PER_YEAR), rel=1e-6
    )


def test_the_film_is_the_mean_of_the_films(catalogue: Catalogue) -> None:
    before = place(catalogue)
    after = with_wet_share(before, 1.0)
    films = [spell.film_thickness_m or 0.0 for spell in spells(before)]
    (one,) = spells(after)
    assert min(films) < (one.film_thickness_m or 0.0) < max(films)


def test_bulk_water_has_no_wet_share(catalogue: Catalogue) -> None:
    sea = place(catalogue, "seawater-quiescent")
    assert with_wet_share(sea, 0.1) == sea


def test_where_nothing_is_computed_the_stated_hours_shrink(catalogue: Catalogue) -> None:
    soil = with_wet_share(place(catalogue, "soil-corrosive"), 0.1)
    assert soil.wetness_h_per_year == pytest.approx(876.0)
    unknown = with_wet_share(place(catalogue, "soil-corrosive", wetness_h_per_year=None), 0.1)
    assert unknown.wetness_h_per_year is None


def test_a_wrap_encloses_an_open_joint(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = exclude_wetness(arrangement(given), {"wet_fraction": 0.1}, given)
    assert after.environment.exposure is Exposure.ENCLOSURE
    assert after.conditions == (KEEP_DRY,)


def test_dry_air_leaves_an_enclosure_one(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="unheated-indoor")
    (after,) = exclude_wetness(arrangement(given), {"wet_fraction": 0.05}, given)
    assert after.environment.exposure is Exposure.INDOOR


def test_a_hood_keeps_the_rain_off_and_the_salt_on(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = exclude_wetness(arrangement(given), {"rain": False, "wet_fraction": 0.6}, given)
    assert after.environment.is_sheltered
    assert "unwashed" in after.environment.tags
    assert "rain_washed" not in after.environment.tags
    assert after.environment.exposure is Exposure.ATMOSPHERE


def test_copper_water_is_led_away_where_there_is_any(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    with pytest.raises(NotPossibleError) as caught:
        exclude_wetness(arrangement(given), {"copper_ions": False}, given)
    assert caught.value.obstacle is Obstacle.DONE
    wet = situation(catalogue, environment_id="acetic-salt-spray-chamber")
    (after,) = exclude_wetness(arrangement(wet), {"copper_ions": False}, wet)
    assert "copper_ions" not in after.environment.tags


def test_drains_halve_the_hours_and_end_standing_water(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="ship-bilge")
    (after,) = drain(arrangement(given), {"wet_fraction_factor": 0.5}, given)
    assert "stagnant" not in after.environment.tags
    assert wet_hours(after.environment) < wet_hours(given.before.environment)


def test_rinsing_takes_salt_off(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="marine-atmosphere-0-100-m-sheltered")
    (after,) = drain(arrangement(given), {"salt_load_factor": 0.3}, given)
    assert "unwashed" not in after.environment.tags
    before = given.before.environment
    assert after.environment.chloride_mg_per_m2_d == (
        None if before.chloride_mg_per_m2_d is None else pytest.approx(0.3 * before.chloride_mg_per_m2_d)
    )
