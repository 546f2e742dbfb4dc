from __future__ import annotations

import pytest

from service.assemblies.values import functions, member, truth
from service.catalogue.surfaces import Condition
from service.judgement import Function, Geometry


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("structural", (Function.STRUCTURAL,)),
        ("PE; Signal", (Function.PROTECTIVE_EARTH, Function.SIGNAL_CONTACT)),
        ("Dichtung, RF", (Function.SEAL, Function.RF)),
        ("bond/bond", (Function.ELECTRICAL_BOND,)),
    ],
)
def test_functions_in_the_words_of_records(text: str, expected: tuple[Function, ...]) -> None:
    assert functions(text) == expected


def test_geometry_and_condition_in_other_languages() -> None:
    assert member("Schraube", Geometry) is Geometry.FASTENER
    assert member("usé", Condition) is Condition.WORN


def test_an_unknown_word_names_the_near_one() -> None:
    with pytest.raises(ValueError, match="did you mean 'structural'"):
        functions("structual")
    with pytest.raises(ValueError, match=r"none of strip, fastener, pipe, immersed$"):
        member("zzz", Geometry)


@pytest.mark.parametrize(("text", "value"), [("Ja", True), ("x", True), ("NO", False), ("non", False)])
def test_yes_and_no(text: str, value: bool) -> None:  # noqa: FBT001 - a parameter
    assert truth(text) is value


def test_maybe_is_neither() -> None:
    with pytest.raises(ValueError, match="neither yes nor no"):
        truth("maybe")
