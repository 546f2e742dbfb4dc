from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.chemistry.branches import Branches
from service.judgement.attack import (
    CHOKED_A_PER_M2,
    RENEWED_A_PER_M2,
    Attack,
    attack_of,
    has_films,
    oxygen_limit,
    with_oxygen,
)
from service.judgement.couples import Couple
from service.judgement.lanes import Lanes, lanes_of, pairings_of
from service.judgement.regimes import spells
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STAINLESS, STEEL, TITANIUM, coated

SPLASH = "splash-and-tidal-zone"


def attacked(environment: Environment, catalogue: Catalogue, *couples: Couple) -> Attack:
    return attack_of(
        lanes_of(pairings_of(couples, environment, catalogue)[0], catalogue), environment, catalogue
    )


def on(environment_id: str, catalogue: Catalogue, couple: Couple, **figures: Any) -> Attack:
    environment = replace(catalogue.environments[environment_id], **figures)
    return attacked(environment, catalogue, couple)


@pytest.mark.parametrize("environment_id", [COAST, SEA])
def test_like_on_like_has_no_attack(environment_id: str, catalogue: Catalogue) -> None:
    attack = on(environment_id, catalogue, Couple(COPPER, COPPER))
    assert np.abs(attack.galvanic_density).max() < 1e-9
    assert attack.is_solved.all()


def test_the_less_noble_side_is_attacked(catalogue: Catalogue) -> None:
    first, second = np.median(on(SEA, catalogue, Couple(STEEL, COPPER)).galvanic_density[:, 0], axis=-1)
    assert first > 0.0
    assert second == 0.0


def test_a_larger_cathode_attacks_more(catalogue: Catalogue) -> None:
    small, large = (
        on(SEA, catalogue, Couple(ALUMINIUM, COPPER, first_area_m2=0.01, second_area_m2=area))
        for area in (0.01, 0.1)
    )
    assert np.median(large.galvanic_density[0]) > 5.0 * np.median(small.galvanic_density[0])


def test_a_poor_cathode_attacks_less(catalogue: Catalogue) -> None:
    copper, titanium = (on(SEA, catalogue, Couple(STEEL, cathode)) for cathode in (COPPER, TITANIUM))
    assert np.median(titanium.galvanic_density[0]) < np.median(copper.galvanic_density[0])


def test_immersed_metal_is_wet_all_year_and_metal_in_the_air_is_not(catalogue: Catalogue) -> None:
    couple = Couple(STEEL, COPPER)
    assert on(SEA, catalogue, couple).wet_share == 1.0
    assert 0.0 < on(COAST, catalogue, couple).wet_share < 1.0


def test_the_year_is_the_mean_of_its_spells(catalogue: Catalogue) -> None:
    couple = Couple(ALUMINIUM, STAINLESS)
    indoors = "cabinet-with-condensation"
    whole = on(indoors, catalogue, couple, wetness_h_per_year=4000.0)
    half = on(indoors, catalogue, couple, wetness_h_per_year=2000.0)
    np.testing.assert_allclose(half.galvanic_density, whole.galvanic_density / 2.0)


def test_in_the_air_rusting_steel_sets_what_a_cathode_can_take(catalogue: Catalogue) -> None:
    couple = Couple(ALUMINIUM, COPPER, first_area_m2=0.001, second_area_m2=1.0)
    mild = on(COAST, catalogue, couple, relative_humidity_pct=None, iso9223_category="C2")
    hard = on(COAST, catalogue, couple, relative_humidity_pct=None, iso9223_category="CX")
    assert np.median(mild.galvanic_density[0]) < np.median(hard.galvanic_density[0])


def test_products_choke_an_opening_and_splash_carries_some_away(catalogue: Catalogue) -> None:
    painted = Couple(coated("al-6082-t6", "powder-coat"), COPPER)
    choked, renewed = (
        np.median(on(place, catalogue, painted).galvanic_density[0]) for place in (COAST, SPLASH)
    )
    assert choked == pytest.approx(CHOKED_A_PER_M2, rel=0.05)
    assert CHOKED_A_PER_M2 < renewed <= RENEWED_A_PER_M2 * 1.05


def test_the_potential_is_that_of_the_spell_that_does_most_damage_to_the_lane(catalogue: Catalogue) -> None:
    environment = catalogue.environments[COAST]
    couples = [Couple(ALUMINIUM, COPPER), Couple(STEEL, TITANIUM), Couple(COPPER, COPPER)]
    together = attacked(environment, catalogue, *couples)
    for place, couple in enumerate(couples):
        alone = attacked(environment, catalogue, couple)
        np.testing.assert_array_equal(together.potential[place], alone.potential[0])
        np.testing.assert_array_equal(together.reach[:, place], alone.reach[:, 0])
        np.testing.assert_array_equal(together.galvanic_density[:, place], alone.galvanic_density[:, 0])


def test_what_cannot_be_solved_is_known(catalogue: Catalogue) -> None:
    assert on(SEA, catalogue, Couple(STEEL, COPPER)).is_solved.all()
    assert not on(SEA, catalogue, Couple(STEEL, COPPER), oxygen_mg_per_L=np.nan).is_solved.any()


def test_films_cover_what_is_not_immersed(catalogue: Catalogue) -> None:
    assert [has_films(catalogue.environments[place]) for place in (COAST, SPLASH, SEA)] == [True, True, False]


def test_states_of_a_film_add_up_to_the_year(catalogue: Catalogue) -> None:
    def in_splash(rain_h: float, deliquesced_h: float) -> Attack:
        return on(
            SPLASH,
            catalogue,
            Couple(ALUMINIUM, COPPER),
            hours_rain_per_year=rain_h,
            hours_deliquesced_per_year=deliquesced_h,
            hours_drying_per_year=0.0,
        )

    rain, salt = in_splash(500.0, 0.0), in_splash(0.0, 4000.0)
    both = in_splash(500.0, 4000.0).unchoked_density
    np.testing.assert_allclose(both, rain.unchoked_density + salt.unchoked_density, rtol=1e-12)
    assert not np.allclose(rain.reach, salt.reach)


def test_flowing_and_thin_water_brings_more_oxygen(catalogue: Catalogue) -> None:
    (still,) = spells(catalogue.environments[SEA])
    flowing = replace(still, flow_m_per_s=2.0)
    creeping = replace(still, flow_m_per_s=0.01)
    assert np.all(oxygen_limit(flowing, None) > oxygen_limit(still, None))
    np.testing.assert_array_equal(oxygen_limit(creeping, None), oxygen_limit(still, None))
    assert np.all(oxygen_limit(still, np.full(64, 20e-6)) > oxygen_limit(still, None))


def test_salts_of_zinc_slow_its_cathode_under_a_film(catalogue: Catalogue) -> None:
    zinc, couples = Surface("zn-pure"), {}
    for place in (COAST, SEA):
        lanes = lanes_of(
            pairings_of([Couple(zinc, COPPER)], catalogue.environments[place], catalogue)[0], catalogue
        )
        couples[place] = _attack_with_and_without_salts(lanes, catalogue.environments[place], catalogue)
    assert couples[COAST][0] < 0.7 * couples[COAST][1]
    assert couples[SEA][0] == couples[SEA][1]


def _attack_with_and_without_salts(
    lanes: Lanes, environment: Environment, catalogue: Catalogue
) -> tuple[float, float]:
    """Median attack on zinc, and what it would be on a metal like it whose ions do not precipitate."""
    zinc = catalogue.electrodes["zinc"]
    soluble = replace(zinc, dissolution="Cd:2")
    other = replace(catalogue, electrodes={**catalogue.electrodes, "zinc": soluble})
    found = [attack_of(lanes, environment, holds).galvanic_density[0, 0] for holds in (catalogue, other)]
    return float(np.median(found[0])), float(np.median(found[1]))


def test_oxygen_of_a_spell_is_shared_as_in_stagnant_water(catalogue: Catalogue) -> None:
    (still,) = spells(catalogue.environments[SEA])
    shares = Branches(-0.4, 0.001, 0.06, 0.12, np.array([[0.03], [1.0]]))
    fed = with_oxygen(shares, still, None)
    limit = oxygen_limit(still, None)
    limits = np.asarray(fed.limiting_current)
    np.testing.assert_allclose(limits[1], limit)
    assert np.median(limits[0]) == pytest.approx(0.03 * np.median(limit), rel=0.02)
