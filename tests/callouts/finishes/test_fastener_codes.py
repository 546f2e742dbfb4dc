from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("ISO 4042/A0K", "(carbon steel) | zn-passivated-clear"),
    ("ISO 4042 - A3K", "(carbon steel) | zn-passivated-clear:8"),
    ("A4R", "(carbon steel) | zn-black:12"),
    ("A2D", "(carbon steel) | zn-chromate-olive:5"),
    ("B2C", "(carbon steel) | cd-yellow:5"),
    ("8.8 B2C", "steel-8-8 | cd-yellow:5"),
    ("ISO 4042 N2", "() | ag-electro:3 / cu-plate:2"),
    ("ISO 4042 P3R", "(carbon steel) | znni-black:8"),
    ("nut A2", "ss-304 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("ISO 4042/A2L", "(carbon steel) | zn-chromate-yellow:5"),
    ("DIN 267 A3C", "(carbon steel) | zn-chromate-yellow:8"),
    ("A2A", "(carbon steel) | zn-passivated-clear:5"),
    ("A2U", "(carbon steel) | zn-passivated-clear:5"),
    ("G4", "() | ni-electro:8 / cu-plate:4"),
    ("F4", "() | cr-decorative:0.3 / ni-electro:12"),
    ("H4", "() | cr-decorative:0.3 / ni-electro:8 / cu-plate:4"),
    ("A2L", "(carbon steel) | zn-chromate-yellow:5"),
    ("8.8 A2L", "steel-8-8 | zn-chromate-yellow:5"),
    ("A4L", "(carbon steel) | zn-chromate-yellow:12"),
    ("A2", "ss-304 | bare"),
    ("C4", "ss-416 | bare"),
    ("E3", "() | ni-electro:8"),
    ("D2", "() | brass-plate:5"),
    ("8.8 A2", "steel-8-8 | zn-passivated-clear:5"),
    ("plate A2", "ss-304 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("X B2C X", "no material or finish recognised"),
    ("E0", "no material or finish recognised"),
    ("plate E3", "no material or finish recognised"),
    ("K3", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
