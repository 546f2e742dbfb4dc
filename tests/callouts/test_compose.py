from __future__ import annotations

import pytest

from service.callouts.compose import MOST_CANDIDATES, NO_FINISH_NAMED
from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn


def test_a_silent_text_is_bare_and_says_so(resolver: Resolver) -> None:
    candidate = resolver.resolve("1.4301").candidates[0]
    assert candidate.surface.layers == ()
    assert NO_FINISH_NAMED in candidate.assumptions


def test_a_text_that_says_bare_assumes_nothing(resolver: Resolver) -> None:
    candidate = resolver.resolve("1.4301, no finish").candidates[0]
    assert candidate.assumptions == ()


def test_a_finish_without_material_misses_its_basis(resolver: Resolver) -> None:
    candidate = resolver.resolve("Fe//Zn8//A").candidates[0]
    assert candidate.surface.material_id is None
    assert candidate.surface.basis_family == "carbon steel"
    assert candidate.missing == ("basis material",)


def test_a_plastic_under_a_coat_is_named(resolver: Resolver) -> None:
    candidate = resolver.resolve("ABS, decorative chrome").candidates[0]
    assert candidate.missing == ("basis material: ABS is not a metal",)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("PA6-GF30", "PA6-GF30: not a metal or another conductor"),
        ("EN AW-6111-T4", "EN AW-6111-T4 is not in the catalogue"),
        ("MFZn", "not understood: MFZn"),
        ("kryptonite", "no material or finish recognised"),
    ],
)
def test_an_unknown_text_has_a_reason(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.candidates == ()
    assert reading.reason == reason


def test_an_unread_finish_is_never_dropped(resolver: Resolver) -> None:
    reading = resolver.resolve("ADC12, MFZn")
    assert torn(reading) == ["al-adc12 | bare"]
    assert reading.candidates[0].missing == ("finish: MFZn",)
    assert "MFZn" in reading.question
    assert NO_FINISH_NAMED not in reading.candidates[0].assumptions


def test_an_unread_document_beside_a_finish_is_reported(resolver: Resolver) -> None:
    reading = resolver.resolve("S235JR, hot dip galvanized, BAC5732")
    assert torn(reading) == ["steel-s235 | zn-hdg"]
    assert reading.candidates[0].missing == ("not read: BAC5732",)


def test_a_code_behind_the_material_may_be_a_finish(resolver: Resolver) -> None:
    assert resolver.resolve("S235JR, ZQX").candidates[0].missing == ("finish: ZQX",)
    assert firm(resolver.resolve("ZQX, S235JR")) == "steel-s235 | bare"
    assert firm(resolver.resolve("S235JR bare, ZQX")) == "steel-s235 | bare"


def test_a_lone_metal_is_a_part_or_a_coat(resolver: Resolver) -> None:
    reading = resolver.resolve("silver")
    assert torn(reading) == ["ag | bare", "() | ag-electro"]
    assert reading.question == "Is silver the base material, a coat or only a colour?"


def test_a_code_with_two_meanings_keeps_both(resolver: Resolver) -> None:
    reading = resolver.resolve("A2")
    assert torn(reading)[0] == "ss-304 | bare"
    assert "(carbon steel) | zn-passivated-clear:5" in torn(reading)
    assert sum(candidate.confidence for candidate in reading.candidates) <= 1.0


def test_candidates_are_few_and_ordered(resolver: Resolver) -> None:
    reading = resolver.resolve("aluminium, chem film")
    confidences = [candidate.confidence for candidate in reading.candidates]
    assert len(confidences) == MOST_CANDIDATES
    assert confidences == sorted(confidences, reverse=True)


def test_an_assumption_costs_confidence(resolver: Resolver) -> None:
    sure = resolver.resolve("1.4301, no finish").candidates[0].confidence
    assumed = resolver.resolve("1.4301").candidates[0].confidence
    assert assumed < sure < 1.0


def test_the_question_goes_to_what_the_electrolyte_sees(resolver: Resolver) -> None:
    assert "steel" in resolver.resolve("steel, tin plated matte").question
    assert "electroplated or hot-dip" in resolver.resolve("steel, galvanized").question


def test_nitride_is_not_tin(resolver: Resolver) -> None:
    assert firm(resolver.resolve("1.4301 TiN coated")) == "ss-304 | ti-nitride-pvd"
    assert torn(resolver.resolve("1.4301 TIN coated"))[0] == "ss-304 | sn-matte"


def test_a_riddle_means_the_same_wherever_it_stands(resolver: Resolver) -> None:
    once, often = resolver.resolve("A2"), resolver.resolve("A2 " * 3000)
    assert often.question == once.question
    assert [one.surface for one in often.candidates] == [one.surface for one in once.candidates]


def test_of_many_riddles_the_first_two_are_asked(resolver: Resolver) -> None:
    reading = resolver.resolve(" ".join(["A1 A2 A3 A4 A5"] * 4))
    assert reading.match is Match.AMBIGUOUS
    assert len(reading.candidates) <= MOST_CANDIDATES
    assert all(candidate.confidence > 0.0 for candidate in reading.candidates)


@pytest.mark.parametrize(
    "text", ["ABS, painted RAL 9003", "Polycarbonate, RAL 7035", "PA6 GF30 black powder coat", "Hardwood"]
)
def test_paint_makes_no_conductor_of_a_plastic(text: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.is_insulator


def test_metal_on_a_plastic_is_seen(resolver: Resolver) -> None:
    for text, finish in (
        ("ABS, nickel plated", "ni-electro"),
        ("ABS, conductive nickel paint", "nickel-acrylic"),
    ):
        layers = resolver.resolve(text).candidates[0].surface.layers
        assert [layer.finish_id for layer in layers] == [finish]


def test_black_chrome_is_reported_and_no_other_chromium(resolver: Resolver) -> None:
    reading = resolver.resolve("steel, black chrome plated")
    assert reading.match is Match.AMBIGUOUS
    assert all(not candidate.surface.layers for candidate in reading.candidates)
    assert "black chrome" in reading.question


def test_the_size_of_a_recess_is_no_coat(resolver: Resolver) -> None:
    reading = resolver.resolve("DIN 7985-4.8-H1-(A2K)-M2,5x4")
    layers = reading.candidates[0].surface.layers
    assert [(layer.finish_id, layer.thickness_um) for layer in layers] == [("zn-passivated-clear", 5.0)]
