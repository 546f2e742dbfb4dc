from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement.regimes import spells
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.inhibition import KEEP_INHIBITED, inhibit
from tests.factories.remedies import COPPER, STEEL, arrangement, coated, couple_of, situation


def test_a_factor_on_the_current_is_one_on_the_wet_hours(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = inhibit(arrangement(given), {"factor": 0.3}, given)
    wet = sum(spell.share_of_year for spell in spells(given.before.environment))
    assert sum(spell.share_of_year for spell in spells(after.environment)) == pytest.approx(
        0.3 * min(wet, 1.0)
    )
    assert after.conditions == (KEEP_INHIBITED,)


def test_in_bulk_water_it_is_one_on_the_oxygen(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="fresh-water-hard")
    (after,) = inhibit(arrangement(given), {"factor": 0.2}, given)
    before = spells(given.before.environment)[0].oxygen_ratio
    assert spells(after.environment)[0].oxygen_ratio == pytest.approx(0.2 * before)


def test_where_nothing_is_computed_the_water_stays(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="alkaline-wash-water")
    (after,) = inhibit(arrangement(given), {"factor": 0.2}, given)
    assert after.environment == given.before.environment


def test_without_oxygen_the_water_is_another(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="fresh-water-hard")
    (after,) = inhibit(arrangement(given), {"oxygen_mg_per_L": 0.05}, given)
    assert after.environment.oxygen_mg_per_L == 0.05
    assert "deaerated" in after.environment.tags


def test_a_factor_of_one_does_nothing(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    with pytest.raises(NotPossibleError) as caught:
        inhibit(arrangement(given), {"factor": 1.0}, given)
    assert caught.value.obstacle is Obstacle.NO_EFFECT


def test_each_harmless_compound_is_a_way(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    wanted = {"factor": 0.3, "compounds": ["jc-petrolatum", "jc-zinc", "jc-cu-filled"]}
    ways = inhibit(arrangement(given), wanted, given)
    assert {after.couples[0].compound_id for after in ways} == {"jc-petrolatum", "jc-zinc"}


def test_if_every_compound_harms_there_is_no_way(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    with pytest.raises(NotPossibleError) as caught:
        inhibit(arrangement(given), {"factor": 0.3, "compounds": ["jc-cu-filled"]}, given)
    assert caught.value.obstacle is Obstacle.NO_COMPOUND


def test_a_film_goes_on_bare_sides_that_take_it(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = inhibit(arrangement(given), {"factor": 0.6, "finish": "tcp-3"}, given)
    assert after.surface("first").layers[0].finish_id == "tcp-3"
    assert after.surface("second") == COPPER


@pytest.mark.parametrize("first", [STEEL, coated("al-6082-t6", "ivd-al", 18.0)])
def test_a_film_needs_a_bare_side(first: Surface, catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(first=first))
    with pytest.raises(NotPossibleError) as caught:
        inhibit(arrangement(given), {"factor": 0.6, "finish": "tcp-3"}, given)
    assert caught.value.obstacle is Obstacle.PROCESS
