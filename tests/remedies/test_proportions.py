from __future__ import annotations

import math

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Couple, Geometry
from service.judgement.areas import wetted_areas_m2
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.proportions import enlarge_anode, shrink_cathode
from tests.factories.remedies import COPPER, STEEL, arrangement, couple_of, situation


def areas(couple: Couple) -> tuple[float, float]:
    return wetted_areas_m2(couple)


def test_the_anode_becomes_the_larger_part(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = enlarge_anode(arrangement(given), {"ratio": 10}, given)
    first, second = areas(after.couples[0])
    assert first == pytest.approx(10 * second)
    assert second == areas(couple_of())[1]


def test_an_anode_that_is_larger_already_stays(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(first_area_m2=0.2, second_area_m2=0.02))
    with pytest.raises(NotPossibleError) as caught:
        enlarge_anode(arrangement(given), {"ratio": 10}, given)
    assert caught.value.obstacle is Obstacle.DONE


def test_a_fastener_cannot_be_the_larger_part(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(COPPER, STEEL, geometry=Geometry.FASTENER))
    with pytest.raises(NotPossibleError) as caught:
        enlarge_anode(arrangement(given), {"ratio": 10}, given)
    assert caught.value.obstacle is Obstacle.PROCESS


def test_a_replaceable_anode_is_judged_over_its_interval(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = enlarge_anode(
        arrangement(given), {"allowance": True, "ratio": 1, "interval_years": 2.0}, given
    )
    assert after.couples[0].design_life_years == 2.0


def test_the_cathode_becomes_smaller(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = shrink_cathode(arrangement(given), {"factor": 0.1}, given)
    first, second = areas(after.couples[0])
    assert second == pytest.approx(0.1 * areas(couple_of())[1])
    assert first == areas(couple_of())[0]


def test_a_smaller_fastener_has_a_smaller_radius(catalogue: Catalogue) -> None:
    joint = couple_of(geometry=Geometry.FASTENER, fastener_radius_m=0.004)
    given = situation(catalogue, joint)
    (after,) = shrink_cathode(arrangement(given), {"factor": 0.25}, given)
    changed = after.couples[0]
    assert changed.fastener_radius_m == pytest.approx(0.002)
    assert areas(changed)[1] == pytest.approx(math.pi * 0.002**2)
