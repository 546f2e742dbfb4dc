from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("Zamak 5", "zn-zamak5 | bare"),
    ("ZP3", "zn-zamak3 | bare"),
    ("zinc alloy 3", "zn-zamak3 | bare"),
    ("ZA-27", "zn-za27 | bare"),
    ("GGG40", "ci-gjs-400 | bare"),
    ("GG25", "ci-gjl-250 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("zinc die cast", "zn-zamak5 | bare"),
    ("magnesium", "mg-az91d | bare"),
    ("cast iron", "ci-gjl-250 | bare"),
    ("ductile iron", "ci-gjs-400 | bare"),
    ("malleable iron", "ci-malleable | bare"),
    ("grey iron", "ci-gjl-250 | bare"),
    ("iron", "ci-gjl-250 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("GJS-999-1", "GJS-999-1 is not in the catalogue"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
