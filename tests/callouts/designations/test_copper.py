from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("C360", "brass-c36000 | bare"),
    ("CDA 260", "brass-cuzn30 | bare"),
    ("360 brass", "brass-c36000 | bare"),
    ("C1100P-1/4H", "cu-etp | bare"),
    ("C5191R-H", "bronze-cusn6 | bare"),
    ("CuZn39Pb3", "brass-cuzn39pb3 | bare"),
    ("CW508L R300", "brass-cuzn37 | bare"),
    ("C260", "brass-cuzn30 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("C101", "cu-etp | bare"),
    ("999 brass", "brass-cuzn37 | bare"),
    ("brass", "brass-cuzn37 | bare"),
    ("free cutting brass", "brass-cuzn39pb3 | bare"),
    ("bronze", "bronze-cusn6 | bare"),
    ("phosphor bronze", "bronze-cusn6 | bare"),
    ("aluminium bronze", "bronze-al-c95400 | bare"),
    ("copper alloy", "brass-cuzn30 | bare"),
    ("BeCu", "cu-be2 | bare"),
    ("cupronickel", "cuni-90-10 | bare"),
    ("pure copper", "cu-etp | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("C9999", "no material or finish recognised"),
    ("CDA 999", "CDA 999 is not in the catalogue"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
