from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("8.8", "steel-8-8 | bare"),
    ("class 10.9", "steel-10-9 | bare"),
    ("12.9", "steel-12-9 | bare"),
    ("AISI 1018", "steel-1018 | bare"),
    ("1018", "steel-1018 | bare"),
    ("4140", "steel-4140 | bare"),
    ("C1018", "steel-1018 | bare"),
    ("C1020 steel", "steel-1020 | bare"),
    ("C1020 copper", "cu-of | bare"),
    ("A36", "steel-a36 | bare"),
    ("ASTM A36", "steel-a36 | bare"),
    ("C45", "steel-1045 | bare"),
    ("Ck45", "steel-1045 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("class 5.8", "steel-1018 | bare"),
    ("bolt M6 4.8", "steel-1018 | bare"),
    ("9.8 bolt", "steel-8-8 | bare"),
    ("Klasse 8", "steel-1018 | bare"),
    ("kl. 10", "steel-1018 | bare"),
    ("steel grade 5", "steel-8-8 | bare"),
    ("SAE J429 GR 8", "steel-10-9 | bare"),
    ("grade 2 steel", "steel-1018 | bare"),
    ("C1020", "steel-1020 | bare"),
    ("12L14", "steel-11smnpb30 | bare"),
    ("steel", "steel-s235 | bare"),
    ("mild steel", "steel-s235 | bare"),
    ("CRS", "steel-dc01 | bare"),
    ("MS", "brass-cuzn37 | bare"),
    ("spring steel", "steel-spring | bare"),
    ("tool steel", "steel-tool-d2 | bare"),
    ("chrome steel", "steel-52100 | bare"),
    ("alloy steel", "steel-4140 | bare"),
    ("steel sheet", "steel-dc01 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("8.8 mm", "no material or finish recognised"),
    ("4.8", "no material or finish recognised"),
    ("SAE 9310", "SAE 9310 is not in the catalogue"),
    ("9310", "no material or finish recognised"),
    ("1018-05", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
