"""From requests to inquiries: SI inside, both ways of asking alike."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from service.callouts.reading import Match
from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition, Layer
from service.judgement import Contact, Function, Geometry, Inquiry, InvalidInquiryError
from service.web.inquiries import inquiry_of
from service.web.schemas.couples import CoupleQuery, CoupleRequest
from tests.factories.knowledge import catalogue_of, row, small_package

PACKAGE = small_package()
PACKAGE["environments"].append(
    row(
        "environments",
        id="shore",
        name="Shore",
        exposure="atmosphere",
        temperature_C=9.0,
        temperature_low_C=4.0,
        iso9223_category="C5",
    )
)
CATALOGUE = catalogue_of(PACKAGE)
COUPLE: dict[str, Any] = {"first": "zinc", "second": "S235JR", "environment": "harbour"}


def asked(**changes: Any) -> Inquiry:
    return inquiry_of(CoupleRequest.model_validate(COUPLE | changes), CATALOGUE)


def environment(**figures: Any) -> Environment:
    found = asked(environment=figures).environment
    assert isinstance(found, Environment)
    return found


def test_plain_texts_are_enough() -> None:
    inquiry = asked()
    assert (inquiry.first.text, inquiry.second.text, inquiry.environment) == ("zinc", "S235JR", "harbour")
    assert inquiry.functions == (Function.STRUCTURAL,)
    assert inquiry.contact == Contact()


def test_figures_become_si() -> None:
    inquiry = asked(first_area_cm2=5, second_area_cm2=2.5, fastener_radius_mm=4, geometry="fastener")
    assert (inquiry.first_area_m2, inquiry.second_area_m2) == (0.0005, 0.00025)
    assert (inquiry.fastener_radius_m, inquiry.geometry) == (0.004, Geometry.FASTENER)


def test_a_bore_becomes_si() -> None:
    assert asked(bore_mm=22, geometry="pipe").bore_m == 0.022


def test_a_structure_is_a_surface() -> None:
    layers = [{"finish_id": "gold-plate", "thickness_um": 0.8}, {"finish_id": "nickel-plate"}]
    side = asked(first={"material_id": "s235", "layers": layers, "condition": "worn"}).first
    assert side.surface is not None
    assert side.surface.layers == (Layer("gold-plate", 0.8), Layer("nickel-plate"))
    assert side.surface.condition is side.condition is Condition.WORN
    assert side.text == ""


def test_notes_stay_separate() -> None:
    side = asked(first={"material": "S235JR", "finish": "Fe//Zn8", "thickness_um": 8}).first
    assert (side.material, side.finish, side.thickness_um, side.surface) == ("S235JR", "Fe//Zn8", 8.0, None)


@pytest.mark.parametrize(
    ("level", "expected"), [("any", None), ("strict", Match.NORMALISED), ("exact", Match.EXACT)]
)
def test_strictness_is_translated(level: str, expected: Match | None) -> None:
    assert asked(match=level).strictest_match is expected


def test_a_place_can_be_described() -> None:
    found = environment(
        exposure="immersed", electrolyte_class="chloride", conductivity_S_per_m=4, tags=["biofilm"]
    )
    assert (found.id, found.exposure, found.conductivity_S_per_m) == ("custom", "immersed", 4.0)
    assert (found.screening_class, found.is_sheltered, found.tags) == ("harsh", False, ("biofilm",))


def test_a_known_place_with_other_figures_loses_what_was_derived_from_the_old_ones() -> None:
    found = environment(id="shore", temperature_C=20)
    assert (found.id, found.temperature_C, found.temperature_low_C) == ("custom", 20.0, None)
    assert found.iso9223_category == ""
    assert found.exposure == "atmosphere"
    same = environment(id="shore", tags=["uv"])
    assert (same.temperature_low_C, same.iso9223_category) == (4.0, "C5")


def test_an_unknown_place_names_near_ones() -> None:
    with pytest.raises(InvalidInquiryError) as caught:
        environment(id="harbor", temperature_C=9)
    assert (caught.value.pointer, caught.value.suggestions) == ("/environment/id", ("harbour",))


def test_both_ways_of_asking_are_the_same_question() -> None:
    joint: dict[str, Any] = {"first_area_cm2": 5.0, "functions": ["seal", "rf"], "match": "strict"}
    query = CoupleQuery.model_validate(COUPLE | joint | {"current_A": 32.0})
    assert inquiry_of(query.to_request(), CATALOGUE) == asked(**joint, contact={"current_A": 32.0})
    plain = CoupleQuery.model_validate(COUPLE)
    assert inquiry_of(plain.to_request(), CATALOGUE) == asked()


def test_writing_the_same_thing_differently_is_the_same_question() -> None:
    assert asked(joint_temperature_C=-0.0) == asked(joint_temperature_C=0)
    assert repr(asked(joint_temperature_C=-0.0)) == repr(asked(joint_temperature_C=0))
    assert asked(first={"text": "zinc"}) == asked()
    assert asked(functions=["seal", "rf"]) == asked(functions=["rf", "seal"])


@pytest.mark.parametrize(
    "changes",
    [
        {"first_area_cm2": 0},
        {"first_area_cm2": -1},
        {"first_area_cm2": float("nan")},
        {"first_area_cm2": float("inf")},
        {"functions": []},
        {"functions": ["flying"]},
        {"functions": ["seal", "seal"]},
        {"min_grade": "F"},
        {"design_life_years": 0},
        {"contact": {"force_N": 0}},
        {"environment": {"pH": 40}},
        {"first": {"layers": [{"finish_id": "gold-plate"}] * 11}},
        {"first": 5},
        {"first": " "},
        {"first": {}},
        {"first": {"text": "zinc", "material": "zinc"}},
        {"first": {"material_id": "s235", "finish": "gold"}},
        {"environment": {}},
        {"environment": {"temperature_C": 9}},
        {"environment": {"exposure": "splash", "electrolyte_class": None}},
        {"unknown": 1},
        {"is_isolated": "true"},
        {"is_isolated": 1},
        {"first_area_cm2": "5"},
        {"first_area_cm2": True},
        {"compound": 5},
        {"geometry": 1},
        {"functions": "seal"},
    ],
)
def test_impossible_questions_are_refused(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        CoupleRequest.model_validate(COUPLE | changes)
