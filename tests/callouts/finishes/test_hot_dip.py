from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("DX51D+Z275", "steel-dx51d | zn-hdg-sheet:19.3"),
    ("Z140", "(carbon steel) | zn-hdg-sheet:9.8"),
    ("+ZF100", "(carbon steel) | zn-galvanneal:7.04"),
    ("ZA255", "(carbon steel) | galfan:19.3"),
    ("AZ150", "(carbon steel) | galvalume:20"),
    ("ZM120", "(carbon steel) | zn-mg-al:9.38"),
    ("AS120", "(carbon steel) | al-hotdip:20"),
    ("A60 galvannealed", "(carbon steel) | zn-galvanneal:12.9"),
    ("T1-40", "(carbon steel) | al-hotdip:20.3"),
    ("DC01+ZE25/25", "steel-dc01 | zn-eg-sheet:2.5"),
    ("E16/E16", "(carbon steel) | zn-eg-sheet:2.24"),
    ("ISO 1461", "(carbon steel) | zn-hdg"),
    ("ASTM A153", "(carbon steel) | zn-hdg"),
    ("EN 10152", "(carbon steel) | zn-eg-sheet"),
    ("EN 13811", "(carbon steel) | zn-sherardized"),
    ("ASTM B695 Class 50", "(carbon steel) | zn-mechanical:50"),
    ("ASTM B695", "(carbon steel) | zn-mechanical"),
    ("ASTM A792", "(carbon steel) | galvalume"),
    ("ASTM A875", "(carbon steel) | galfan"),
    ("ASTM A463", "(carbon steel) | al-hotdip"),
    ("ISO 2063", "(carbon steel) | zn-sprayed"),
    ("8.8 tZn", "steel-8-8 | zn-hdg"),
    ("HDZ55", "(carbon steel) | zn-hdg"),
    ("hot dip galvanized", "(carbon steel) | zn-hdg"),
    ("feuerverzinkt", "(carbon steel) | zn-hdg"),
    ("galvanisé à chaud", "(carbon steel) | zn-hdg"),
    ("sherardized", "(carbon steel) | zn-sherardized"),
    ("galvannealed", "(carbon steel) | zn-galvanneal"),
    ("zinc sprayed", "() | zn-sprayed"),
    ("TSA", "() | al-sprayed"),
    ("galvalume", "(carbon steel) | galvalume"),
    ("galfan", "(carbon steel) | galfan"),
    ("Zn-Al-Mg", "(carbon steel) | zn-mg-al"),
    ("znal15", "() | znal15-sprayed"),
    ("pre-galvanized", "(carbon steel) | zn-hdg-sheet"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("G90 steel", "steel-s235 | zn-hdg-sheet:19.2"),
    ("SGCC", "steel-dx51d | zn-hdg-sheet"),
    ("SECC", "steel-dc01 | zn-eg-sheet"),
    ("SGLCC", "steel-dx51d | galvalume"),
    ("ASTM A653", "steel-1008 | zn-hdg-sheet"),
    ("ASTM A653 galvannealed", "steel-1008 | zn-galvanneal"),
    ("aluminized steel", "steel-s235 | al-hotdip"),
    ("steel, EG sheet", "steel-s235 | zn-eg-sheet"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("A60", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
