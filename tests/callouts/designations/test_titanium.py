from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("Titanium Grade 2", "ti-gr2 | bare"),
    ("Ti Gr.5", "ti-gr5 | bare"),
    ("Gr 2 titanium", "ti-gr2 | bare"),
    ("Ti grade V", "ti-gr5 | bare"),
    ("Ti-6Al-4V", "ti-gr5 | bare"),
    ("6AL4V ELI", "ti-gr23 | bare"),
    ("TC4", "ti-gr5 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("titanium", "ti-gr2 | bare"),
    ("CP titanium", "ti-gr2 | bare"),
    ("Grade 5", "ti-gr5 | bare"),
    ("Gr 2", "ti-gr2 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("Titanium grade 33", "TITANIUM GRADE 33 is not in the catalogue"),
    ("Grade 99", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
