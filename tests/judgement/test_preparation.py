from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest

from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition
from service.judgement.couples import Contact, Couple, Function, Geometry
from service.judgement.errors import InvalidInquiryError
from service.judgement.inquiry import Inquiry, Side
from service.judgement.preparation import (
    MOST_COMBINATIONS,
    couple_of,
    distinct_couples,
    environment_of,
    prepare,
)
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, coated


def inquiry(first: Side, second: Side, **joint: Any) -> Inquiry:
    return Inquiry(first, second, joint.pop("environment", COAST), **joint)


BARE = inquiry(Side(surface=ALUMINIUM), Side(surface=COPPER))
PLATED = Side(surface=coated("steel-s235", "zn-plain", 8.0))


def test_one_reading_of_each_side_is_one_couple(catalogue: Catalogue) -> None:
    prepared = prepare(BARE, catalogue)
    assert prepared.couples == (Couple(ALUMINIUM, COPPER),)
    assert prepared.environment is catalogue.environments[COAST]
    assert prepared.by_condition == ()


def test_everything_about_the_joint_reaches_the_couple() -> None:
    asked = replace(
        BARE,
        first_area_m2=0.1,
        second_area_m2=0.2,
        geometry=Geometry.FASTENER,
        fastener_radius_m=0.01,
        bore_m=0.04,
        functions=(Function.SEAL,),
        design_life_years=3.0,
        section_allowance_um=50.0,
        compound_id="grease",
        joint_temperature_C=40.0,
        wear_cycles=100.0,
        is_isolated=True,
        contact=Contact(force_N=10.0),
    )
    couple = couple_of(asked, ALUMINIUM, COPPER)
    joint = [field.name for field in fields(Couple) if field.name not in {"first", "second"}]
    assert [getattr(couple, name) for name in joint] == [getattr(asked, name) for name in joint]
    assert all(getattr(couple, name) != getattr(Couple(ALUMINIUM, COPPER), name) for name in joint)


def test_an_ambiguous_text_gives_a_couple_for_each_reading(catalogue: Catalogue) -> None:
    prepared = prepare(inquiry(Side(text="stainless steel"), Side(surface=COPPER)), catalogue)
    assert prepared.readings[0].match is Match.AMBIGUOUS
    assert len(prepared.couples) > 1
    assert len({couple.first for couple in prepared.couples}) == len(prepared.couples)


def test_combinations_are_bounded(catalogue: Catalogue) -> None:
    prepared = prepare(inquiry(Side(text="stainless steel"), Side(text="aluminium")), catalogue)
    assert len(prepared.couples) == MOST_COMBINATIONS


def test_an_unknown_text_gives_no_couple(catalogue: Catalogue) -> None:
    prepared = prepare(inquiry(Side(text="xyzzy 99"), Side(surface=COPPER)), catalogue)
    assert prepared.couples == ()
    assert prepared.by_condition == ()


def test_a_reading_looser_than_asked_for_is_not_judged(catalogue: Catalogue) -> None:
    asked = inquiry(Side(text="stainless steel"), Side(surface=COPPER), strictest_match=Match.NORMALISED)
    assert prepare(asked, catalogue).couples == ()


def test_finishes_are_looked_at_worn_and_damaged_too(catalogue: Catalogue) -> None:
    prepared = prepare(inquiry(PLATED, Side(surface=COPPER)), catalogue)
    assert [condition for condition, _ in prepared.by_condition] == [Condition.WORN, Condition.DAMAGED]
    for condition, couple in prepared.by_condition:
        assert couple.first.condition is condition
        assert couple.second == COPPER


def test_a_finish_that_is_already_worn_is_judged_as_it_is(catalogue: Catalogue) -> None:
    worn = replace(PLATED, condition=Condition.WORN)
    assert prepare(inquiry(worn, PLATED), catalogue).by_condition == ()


@pytest.mark.parametrize(
    ("change", "pointer", "suggestion"),
    [
        ({"environment": "marine-atmosphere"}, "/environment", COAST),
        ({"compound_id": "sl-ms-polymers"}, "/compound", "sl-ms-polymer"),
        ({"bore_m": 0.04}, "/bore_mm", "pipe"),
    ],
)
def test_what_names_nothing_is_refused_with_near_names(
    change: dict[str, Any], pointer: str, suggestion: str, catalogue: Catalogue
) -> None:
    with pytest.raises(InvalidInquiryError) as caught:
        prepare(replace(BARE, **change), catalogue)
    assert caught.value.pointer == pointer
    assert suggestion in caught.value.suggestions


def test_an_environment_may_be_given_in_figures(catalogue: Catalogue) -> None:
    own = replace(catalogue.environments[SEA], id="", temperature_C=3.0)
    assert environment_of(replace(BARE, environment=own), catalogue) is own


def test_a_couple_that_is_asked_twice_is_judged_once(catalogue: Catalogue) -> None:
    asked = [BARE, BARE, replace(BARE, environment=SEA), inquiry(PLATED, Side(surface=COPPER))]
    wanted = distinct_couples([prepare(item, catalogue) for item in asked])
    assert {environment.id: len(couples) for environment, couples in wanted.items()} == {COAST: 4, SEA: 1}
