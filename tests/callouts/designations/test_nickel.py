from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("Inconel 625", "inconel-625 | bare"),
    ("alloy 718", "inconel-718 | bare"),
    ("IN718", "inconel-718 | bare"),
    ("Hastelloy C-276", "hastelloy-c276 | bare"),
    ("Monel K-500", "monel-k500 | bare"),
    ("Nickel 200", "ni-200 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("Inconel 999", "inconel-600 | bare"),
    ("inconel", "inconel-600 | bare"),
    ("monel", "monel-400 | bare"),
    ("hastelloy", "hastelloy-c276 | bare"),
    ("nickel alloy", "inconel-625 | bare"),
    ("nickel iron", "alloy-42 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("Inconel 617", "INCONEL 617 is not in the catalogue"),
    ("alloy 999", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
