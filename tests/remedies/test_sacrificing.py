from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Function, Geometry
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.sacrificing import (
    ANODE_AREA_SHARE,
    ANODE_MATERIAL,
    ANODE_STOCK_UM,
    RENEW_ANODE,
    REPLACE_ON_SCHEDULE,
    cathodic_protection,
    replaceable_part,
    sacrifice,
)
from tests.factories.remedies import COPPER, STEEL, arrangement, couple_of, situation

SEA = "seawater-quiescent"


def test_both_sides_are_judged_against_the_anode(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(STEEL, COPPER), SEA)
    (after,) = cathodic_protection(arrangement(given), {"interval_years": 2.0}, given)
    assert [couple.first for couple in after.couples] == [STEEL, COPPER]
    assert {couple.second.material_id for couple in after.couples} == {ANODE_MATERIAL}
    assert {couple.section_allowance_um for couple in after.couples} == {ANODE_STOCK_UM}
    assert {couple.design_life_years for couple in after.couples} == {2.0}
    for couple in after.couples:
        assert couple.second_area_m2 == pytest.approx(ANODE_AREA_SHARE * (couple.first_area_m2 or 0.0))
    assert after.is_sacrificial
    assert after.conditions == (RENEW_ANODE,)


def test_a_fastener_is_judged_as_a_flat_piece_against_its_anode(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(geometry=Geometry.FASTENER), SEA)
    (after,) = cathodic_protection(arrangement(given), {"interval_years": 2.0}, given)
    assert {couple.geometry for couple in after.couples} == {Geometry.STRIP}


def test_an_impressed_current_is_not_judged(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id=SEA)
    with pytest.raises(NotPossibleError) as caught:
        cathodic_protection(arrangement(given), {"impressed": True}, given)
    assert caught.value.obstacle is Obstacle.OUTSIDE_MODEL


def test_a_washer_that_is_eaten_does_not_carry_load(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    with pytest.raises(NotPossibleError) as caught:
        sacrifice(arrangement(given), {"role": "washer", "material": "zn-pure"}, given)
    assert caught.value.obstacle is Obstacle.ENDS_FUNCTION


def test_a_washer_guards_the_eaten_side(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(functions=(Function.THERMAL,)))
    parameters = {"role": "washer", "material": "zn-pure", "interval_years": 1.0}
    (after,) = sacrifice(arrangement(given), parameters, given)
    assert [(couple.first, couple.second.material_id) for couple in after.couples] == [
        (couple_of().first, "zn-pure")
    ]


def test_a_spool_is_judged_over_its_interval(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id=SEA)
    (after,) = sacrifice(arrangement(given), {"role": "spool", "interval_years": 2.0}, given)
    assert after.couples[0].design_life_years == 2.0
    assert after.conditions == (REPLACE_ON_SCHEDULE,)


def test_a_part_that_is_replaced_has_a_shorter_life_to_last(catalogue: Catalogue) -> None:
    after = replaceable_part(arrangement(situation(catalogue)), 3.0)
    assert after.couples[0].design_life_years == 3.0
