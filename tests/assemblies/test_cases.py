from __future__ import annotations

import math
from typing import Any

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.cases import AS_STATED, LARGE_FIRST, SMALL_FIRST, Case, cases_of
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.judgement import Contact, Function, Geometry, Inquiry, Side


def cases(
    joint: Joint, first: Part | None = None, second: Part | None = None, **more: Any
) -> tuple[Case, ...]:
    parts = {"A": first or Part("A", text="S355"), "B": second or Part("B", text="A4-80")}
    programme = Programme(environment="rural-atmosphere", design_life_years=12.0)
    return cases_of(joint, Assembly(parts, (joint,), programme=programme, **more))


def areas(found: tuple[Case, ...]) -> list[tuple[str, float | None, float | None]]:
    return [(case.end, case.inquiry.first_area_m2, case.inquiry.second_area_m2) for case in found]


def test_a_stated_joint_is_one_question() -> None:
    joint = Joint(
        "J",
        "A",
        "B",
        environment="quay",
        functions=(Function.SEAL,),
        geometry=Geometry.PIPE,
        first_area_m2=0.2,
        second_area_m2=0.1,
        contact=Contact(current_A=5.0),
        design_life_years=3.0,
        section_allowance_um=50.0,
        compound="c",
        joint_temperature_C=30.0,
        wear_cycles=9.0,
    )
    (case,) = cases(joint)
    assert case.inquiry == Inquiry(
        Side(text="S355"),
        Side(text="A4-80"),
        "quay",
        first_area_m2=0.2,
        second_area_m2=0.1,
        geometry=Geometry.PIPE,
        functions=(Function.SEAL,),
        design_life_years=3.0,
        section_allowance_um=50.0,
        compound_id="c",
        joint_temperature_C=30.0,
        wear_cycles=9.0,
        contact=Contact(current_A=5.0),
    )


def test_the_area_of_the_joint_goes_before_that_of_the_part() -> None:
    first = Part("A", text="S355", wetted_area_m2=9.0)
    second = Part("B", text="A4-80", wetted_area_m2=2.0)
    assert areas(cases(Joint("J", "A", "B", first_area_m2=1.0), first, second)) == [(AS_STATED, 1.0, 2.0)]


def test_two_unknown_areas_are_judged_at_both_ends() -> None:
    found = areas(cases(Joint("J", "A", "B")))
    assert [end for end, *_ in found] == [SMALL_FIRST, LARGE_FIRST]
    for (_, first, second), ratio in zip(found, (0.1, 10.0), strict=True):
        assert first is not None
        assert second is not None
        assert first / second == pytest.approx(ratio, rel=0.01)
        assert math.sqrt(first * second) == pytest.approx(0.01, rel=0.01)


def test_two_unknown_lengths_of_pipe_have_a_mean_of_a_metre() -> None:
    joint = Joint("J", "A", "B", geometry=Geometry.PIPE, bore_m=0.04)
    for _, first, second in areas(cases(joint)):
        assert math.sqrt((first or 0.0) * (second or 0.0)) == pytest.approx(math.pi * 0.04, rel=0.01)
    assert {case.inquiry.bore_m for case in cases(joint)} == {0.04}


@pytest.mark.parametrize(
    ("joint", "expected"),
    [
        (Joint("J", "A", "B", first_area_m2=1.0), [(SMALL_FIRST, 1.0, 10.0), (LARGE_FIRST, 1.0, 0.1)]),
        (Joint("J", "A", "B", second_area_m2=1.0), [(SMALL_FIRST, 0.1, 1.0), (LARGE_FIRST, 10.0, 1.0)]),
    ],
)
def test_one_unknown_area_follows_the_other(joint: Joint, expected: list[tuple[str, float, float]]) -> None:
    assert areas(cases(joint)) == expected


@pytest.mark.parametrize(
    ("joint", "second", "radius_m"),
    [
        (
            Joint("J", "A", "B", geometry=Geometry.FASTENER),
            Part("B", text="A4-80", description="Screw M8"),
            0.0068,
        ),
        (
            Joint("J", "A", "B", geometry=Geometry.FASTENER),
            Part("B", text="A4-80", description="Screw"),
            0.006,
        ),
        (
            Joint("J", "A", "B", geometry=Geometry.FASTENER, fastener_radius_m=0.01),
            Part("B", text="A4-80"),
            0.01,
        ),
    ],
)
def test_a_head_follows_from_its_thread(joint: Joint, second: Part, radius_m: float) -> None:
    found = areas(cases(joint, second=second))
    assert [end for end, *_ in found] == [SMALL_FIRST, LARGE_FIRST]
    for (_, first, head), ratio in zip(found, (10.0, 1000.0), strict=True):
        assert head == pytest.approx(math.pi * radius_m**2)
        assert first == pytest.approx(math.pi * radius_m**2 * ratio, rel=0.01)


def test_each_place_is_a_question_of_its_own() -> None:
    first, second = Part("A", text="S355", zone="x"), Part("B", text="A4-80", zone="y")
    joint = Joint("J", "A", "B", first_area_m2=1.0, second_area_m2=1.0)
    assert [case.inquiry.environment for case in cases(joint, first, second)] == ["x", "y"]


def test_without_a_place_there_is_no_question() -> None:
    parts = {"A": Part("A", text="S355"), "B": Part("B", text="A4-80")}
    assert cases_of(Joint("J", "A", "B"), Assembly(parts, ())) == ()


def test_programme_and_parts_fill_what_the_joint_leaves_open() -> None:
    joint = Joint("J", "A", "B", first_area_m2=1.0, second_area_m2=1.0)
    (case,) = cases(joint, second=Part("B", text="A4-80", is_isolated=True))
    assert case.inquiry.design_life_years == 12.0
    assert case.inquiry.is_isolated
