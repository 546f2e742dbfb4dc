from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm

FIRM = [
    ("3.3206.72", "al-6060-t66 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


UNKNOWN = [
    ("1.4999", "1.4999 is not in the catalogue"),
    ("1.9999", "no material or finish recognised"),
    ("S99999", "no material or finish recognised"),
    ("C99999", "C99999 is not in the catalogue"),
    ("CW999N", "CW999N is not in the catalogue"),
    ("EN AC-99999", "EN AC-99999 is not in the catalogue"),
    ("AlMg9Si9", "ALMG9SI9 is not in the catalogue"),
    ("CuZn99", "CUZN99 is not in the catalogue"),
    ("X99CrNi99-9", "X99CRNI99-9 is not in the catalogue"),
    ("G99999", "G99999 is not in the catalogue"),
    ("N99999", "N99999 is not in the catalogue"),
    ("SUS999", "SUS999 is not in the catalogue"),
    ("EN-GJL-999", "GJL-999 is not in the catalogue"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
