from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Coat, Mark, MetalClass, Trait
from service.callouts.neighbours import told_apart
from service.callouts.normalise import normalise
from service.callouts.resolver import Resolver
from service.callouts.scan import scan
from tests.callouts.outlines import torn


def told(text: str, lexicon: Lexicon) -> list[Mark]:
    normalised = normalise(text)
    return list(told_apart(scan(normalised.text, lexicon)[0], normalised, text))


def coats(text: str, lexicon: Lexicon) -> list[str]:
    return [mark.sense.kind for mark in told(text, lexicon) if isinstance(mark.sense, Coat)]


def metals(text: str, lexicon: Lexicon) -> list[str]:
    return [mark.sense.name for mark in told(text, lexicon) if isinstance(mark.sense, MetalClass)]


def test_capitals_tell_a_nitride_from_tin(lexicon: Lexicon) -> None:
    assert coats("TiN", lexicon) == ["pvd"]
    assert coats("Tin", lexicon) == ["sn"]


def test_capitals_tell_messing_from_mild_steel(lexicon: Lexicon) -> None:
    assert metals("Ms vernickelt", lexicon) == ["brass"]
    assert metals("MS nickel plated", lexicon) == ["MS"]


@pytest.mark.parametrize("text", ["Cu foil 35 um", "zinc sheet", "silver wire", "Nickel-Blech", "tin bar"])
def test_a_form_makes_a_metal_of_a_coat(text: str, lexicon: Lexicon) -> None:
    assert coats(text, lexicon) == []
    assert len(metals(text, lexicon)) == 1


def test_a_form_of_another_metal_makes_none(lexicon: Lexicon) -> None:
    assert coats("Zn sheet steel", lexicon) == ["zn"]


def test_a_bimetal_has_two_metals(resolver: Resolver) -> None:
    readings = torn(resolver.resolve("Lug Al/Cu bimetal 50 mm2"))
    assert {line.split(" | ")[1] for line in readings} == {"bare"}
    assert any(line.startswith("cu-") for line in readings)
    assert any(line.startswith("al-") for line in readings)


def test_a_colour_beside_a_plastic_is_the_plastics(lexicon: Lexicon) -> None:
    senses = [mark.sense for mark in told("polyamide black with stainless pin", lexicon)]
    assert Trait("colour", "black") not in senses
    assert Aside("black") in senses


def test_a_metallic_colour_beside_a_plastic_is_no_coat(lexicon: Lexicon) -> None:
    assert coats("label polyester silver", lexicon) == []
    assert coats("label silver", lexicon) == ["ag"]


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("acier traité au zinc", ["zn"]),
        ("zingué au bichromate", ["zn"]),
        ("CuBe2 au plated", ["au"]),
        ("Muster AG Schraube", []),
        ("Ni 1-3, Au 0.8", ["ni", "au"]),
        ("Kontakt AG plattiert", ["ag"]),
        ("CuSn6 Ag 3 µm", ["ag"]),
    ],
)
def test_an_article_and_a_firm_are_no_metals(text: str, kinds: list[str], lexicon: Lexicon) -> None:
    assert coats(text, lexicon) == kinds


def test_a_cube_is_no_beryllium_copper(lexicon: Lexicon) -> None:
    assert metals("CuBe", lexicon) == ["beryllium copper"]
    assert metals("ice cube tray", lexicon) == []


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Zn 99.9 8 µm", ["zn"]),
        ("S235JR, Zn 99.99, 12 µm", ["zn"]),
        ("Cu 99.9 5 µm", ["cu"]),
        ("Pb 99.9 20 µm", ["pb"]),
        ("Zn 99.9", []),
        ("Cu 99.9 2 mm", []),
        ("Al 99.5 10 µm", []),
    ],
)
def test_a_metal_of_stated_purity_is_a_coat_if_it_has_a_thickness(
    text: str, kinds: list[str], lexicon: Lexicon
) -> None:
    assert coats(text, lexicon) == kinds
