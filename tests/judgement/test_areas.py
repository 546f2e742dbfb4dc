from __future__ import annotations

import math

import pytest

from service.judgement.areas import (
    DEFAULT_AREA_M2,
    DEFAULT_BORE_M,
    DEFAULT_FASTENER_RADIUS_M,
    default_area_m2,
    fastener_radius_m,
    wetted_areas_m2,
)
from service.judgement.couples import Couple, Geometry
from tests.factories.couples import ALUMINIUM, STAINLESS


def couple(**joint: object) -> Couple:
    return Couple(ALUMINIUM, STAINLESS, **joint)  # type: ignore[arg-type]


def test_without_areas_both_sides_are_alike() -> None:
    assert wetted_areas_m2(couple()) == (DEFAULT_AREA_M2, DEFAULT_AREA_M2)


def test_a_side_that_is_not_stated_equals_the_other() -> None:
    assert wetted_areas_m2(couple(first_area_m2=0.5)) == (0.5, 0.5)
    assert wetted_areas_m2(couple(second_area_m2=0.2)) == (0.2, 0.2)


def test_stated_areas_are_taken_as_they_are() -> None:
    assert wetted_areas_m2(couple(first_area_m2=0.5, second_area_m2=0.1)) == (0.5, 0.1)


def test_a_fastener_has_the_area_of_its_head() -> None:
    plate, head = wetted_areas_m2(couple(geometry=Geometry.FASTENER, fastener_radius_m=0.01))
    assert plate == DEFAULT_AREA_M2
    assert head == pytest.approx(math.pi * 1e-4)


def test_a_pipe_of_which_nothing_is_stated_is_a_metre_long() -> None:
    assert wetted_areas_m2(couple(geometry=Geometry.PIPE)) == pytest.approx((math.pi * DEFAULT_BORE_M,) * 2)
    assert default_area_m2(Geometry.PIPE, 0.1) == pytest.approx(math.pi * 0.1)
    assert default_area_m2(Geometry.IMMERSED, None) == DEFAULT_AREA_M2


def test_the_radius_is_stated_or_follows_the_area_or_is_that_of_a_small_screw() -> None:
    assert fastener_radius_m(couple(fastener_radius_m=0.02, second_area_m2=1.0)) == 0.02
    assert fastener_radius_m(couple(second_area_m2=math.pi * 1e-4)) == pytest.approx(0.01)
    assert fastener_radius_m(couple()) == DEFAULT_FASTENER_RADIUS_M
