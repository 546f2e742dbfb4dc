"""Couples of a batch become the same questions as alone."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import orjson
import pytest

from service.judgement import Inquiry
from service.web.api import assemble
from service.web.batch_input import Head
from service.web.batch_questions import Questions
from service.web.errors import InvalidRequestError
from service.web.inquiries import inquiry_of
from service.web.operations import Operation
from service.web.schemas.couples import CoupleRequest
from tests.factories.knowledge import catalogue_of, small_package

SURFACES = ("A4-80", {"material_id": "zinc-sheet"}, {"text": "S235JR", "condition": "worn"}, {"tekst": 1}, 7)
DEFAULTS: dict[str, Any] = {"environment": "harbour", "design_life_years": 15}
CATALOGUE = catalogue_of(small_package())


@cache
def operation() -> Operation:
    return Operation.of(assemble(), "/v1/couples", "POST")


def questions(defaults: dict[str, Any] | None = None) -> Questions:
    return Questions(Head(SURFACES, DEFAULTS if defaults is None else defaults), CATALOGUE, operation())


def alone(**members: Any) -> Inquiry:
    return inquiry_of(CoupleRequest.model_validate(members), CATALOGUE)


def ask(couple: object, defaults: dict[str, Any] | None = None) -> Inquiry:
    asked = questions(defaults).read(0, orjson.dumps(couple)).asked
    assert isinstance(asked, Inquiry), asked
    return asked


def faults(couple: object, defaults: dict[str, Any] | None = None) -> list[tuple[str, str]]:
    asked = questions(defaults).read(0, orjson.dumps(couple)).asked
    assert isinstance(asked, InvalidRequestError), asked
    return [(fault.pointer, fault.code) for fault in asked.faults]


def test_a_pair_of_indices_is_the_question_with_both_surfaces() -> None:
    expected = alone(first="A4-80", second={"material_id": "zinc-sheet"}, **DEFAULTS)
    assert ask([0, 1]) == ask([0, 1, "ref"]) == ask({"first": 0, "second": 1, "ref": 3}) == expected


def test_what_a_couple_says_itself_goes_before_the_defaults() -> None:
    expected = alone(first="A4-80", second={"text": "S235JR", "condition": "worn"}, **DEFAULTS)
    given = ask({"first": 0, "second": 2, "design_life_years": 3})
    assert given == replace(expected, design_life_years=3)
    assert ask({"first": "A4-80", "second": 2}) == expected


def test_an_index_and_a_ref_are_kept_with_the_question() -> None:
    question = questions().read(41, b'[0,1,"j-7"]')
    assert (question.index, question.ref) == (41, "j-7")
    spoilt = questions().read(42, b'{"ref":"j-8","first":99,"second":0}')
    assert (spoilt.index, spoilt.ref) == (42, "j-8")
    assert isinstance(spoilt.asked, InvalidRequestError)


@pytest.mark.parametrize(
    ("couple", "expected"),
    [
        ([0, 9], [("/second", "no_such_surface")]),
        ([-1, 0], [("/first", "no_such_surface")]),
        ({"first": 9, "second": 0, "match": "any"}, [("/first", "no_such_surface")]),
        ([0, 3], [("/surfaces/3/tekst", "extra_forbidden")]),
        ([4, 0], [("/surfaces/4", "model_type")]),
        ({"first": 0, "second": 1, "as_of": "x"}, [("/as_of", "not_here")]),
        ({"first": 0, "second": 1, "view": "full"}, [("/view", "not_here")]),
        ({"first": 0}, [("/second", "missing")]),
        ({"first": 0, "second": 1, "geometry": "stripe"}, [("/geometry", "enum")]),
        ([True, 1], [("/first", "model_type")]),
    ],
)
def test_what_is_wrong_is_told_with_its_place(couple: object, expected: list[tuple[str, str]]) -> None:
    assert faults(couple) == expected


def test_wrong_defaults_spoil_those_that_use_them() -> None:
    assert faults([0, 1], {}) == [("/environment", "missing")]
    assert faults([0, 1], {"environment": "harbour", "as_of": "x"}) == [("/as_of", "not_here")]
    assert ask({"first": 0, "second": 1, "environment": "harbour"}, {}) == alone(
        first="A4-80", second={"material_id": "zinc-sheet"}, environment="harbour"
    )


def test_a_wrong_surface_is_told_each_time_it_is_used() -> None:
    reader = questions()
    for _ in range(2):
        assert isinstance(reader.read(0, b"[3,0]").asked, InvalidRequestError)
    assert isinstance(reader.read(0, b"[0,0]").asked, Inquiry)
