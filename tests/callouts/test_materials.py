from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, outline, torn


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1.4301 / AISI 304 / X5CrNi18-10", "ss-304 | bare"),
        ("steel, stainless, 316L", "ss-316l | bare"),
        ("C36000 BRASS", "brass-c36000 | bare"),
        ("Aluminium alloy EN AW-6082 [AlSi1MgMn] T6", "al-6082-t6 | bare"),
        ("C1020 copper", "cu-of | bare"),
        ("copper C11000", "cu-etp | bare"),
        ("Duplex 1.4462 stainless steel", "ss-2205 | bare"),
    ],
)
def test_several_names_of_one_material_agree(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("304/316", {"ss-304 | bare", "ss-316 | bare"}),
        ("1.4301 screw in 6082-T6 housing", {"ss-304 | bare", "al-6082-t6 | bare"}),
        ("6082-T6, brass insert", {"al-6082-t6 | bare", "brass-cuzn37 | bare"}),
        ("brass, aluminium", {"brass-cuzn37 | bare", "al-6082-t6 | bare"}),
    ],
)
def test_names_that_exclude_each_other_stay_open(text: str, wanted: set[str], resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert wanted <= set(torn(reading))
    assert "several materials" in reading.question


def test_the_narrower_of_two_generic_words_counts(resolver: Resolver) -> None:
    assert {line.split("-")[0] for line in torn(resolver.resolve("steel, stainless"))} == {"ss"}
    assert torn(resolver.resolve("bronze, phosphor bronze"))[0] == "bronze-cusn6 | bare"


def test_an_unlisted_name_beside_a_listed_one_asks(resolver: Resolver) -> None:
    reading = resolver.resolve("EN AW-6082-T6 or EN AW-6111-T4")
    assert torn(reading) == ["al-6082-t6 | bare"]
    assert reading.candidates[0].missing == ("EN AW-6111-T4 is not in the catalogue",)


def test_two_unlisted_names_leave_the_family_open(resolver: Resolver) -> None:
    reading = resolver.resolve("EN AW-6111-T4 / C99999, nickel plated")
    assert {candidate.surface.basis_family for candidate in reading.candidates} == {""}
    assert len(reading.candidates[0].missing) == 2


def test_an_unlisted_name_keeps_its_family_beside_a_finish(resolver: Resolver) -> None:
    reading = resolver.resolve("16MnCr5 brüniert")
    assert firm(reading) == "(low-alloy steel) | black-oxide-steel"
    assert reading.candidates[0].missing == ("16MNCR5 is not in the catalogue",)


def test_an_unlisted_name_confirms_its_generic_word(resolver: Resolver) -> None:
    reading = resolver.resolve("Aluminium EN AW-6111-T4, clear anodised")
    assert firm(reading) == "(aluminium) | anod-ii-clear"
    assert reading.candidates[0].surface.temper == "T4"


def test_a_temper_that_follows_the_name_is_kept(resolver: Resolver) -> None:
    reading = resolver.resolve("CW004A, R290")
    assert reading.candidates[0].surface.temper == "R290"


def test_a_temper_needs_a_family_that_has_tempers(resolver: Resolver) -> None:
    assert resolver.resolve("S235JR R290").candidates[0].surface.temper == ""


def test_a_doubt_ends_where_another_word_confirms(resolver: Resolver) -> None:
    assert torn(resolver.resolve("WASHER 316")) == ["ss-316 | bare"]
    assert firm(resolver.resolve("WASHER 316, stainless")) == "ss-316 | bare"


def test_the_strength_class_is_kept(resolver: Resolver) -> None:
    candidate = resolver.resolve("alloy steel, class 12.9").candidates[0]
    assert (outline(candidate), candidate.surface.strength_class) == ("steel-12-9 | bare", "12.9")


def test_zinc_plated_spring_steel_is_not_stainless(resolver: Resolver) -> None:
    readings = torn(resolver.resolve("spring steel, zinc plated"))
    assert all(line.startswith("steel-spring | zn-") for line in readings)
    assert torn(resolver.resolve("spring steel")) == ["steel-spring | bare", "ss-301 | bare"]


def test_a_generic_word_does_not_hide_a_second_material(resolver: Resolver) -> None:
    readings = torn(resolver.resolve("ductile iron body GGG40, disc CF8M"))
    assert readings == ["ci-gjs-400 | bare", "ss-cf8m | bare"]
