from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("304", "ss-304 | bare"),
    ("SS304", "ss-304 | bare"),
    ("304 SS", "ss-304 | bare"),
    ("316L stainless", "ss-316l | bare"),
    ("SUS430", "ss-430 | bare"),
    ("A2-70", "ss-304 | bare"),
    ("A4L-80", "ss-316l | bare"),
    ("A5L-70", "ss-316ti | bare"),
    ("Edelstahl A4", "ss-316 | bare"),
    ("A2 stainless", "ss-304 | bare"),
    ("DIN 912 M6 A4", "ss-316 | bare"),
    ("A8-80", "ss-254smo | bare"),
    ("C1-70", "ss-410 | bare"),
    ("17-4PH", "ss-17-4ph | bare"),
    ("13-8 Mo", "ss-ph13-8mo | bare"),
    ("CF8M", "ss-cf8m | bare"),
    ("A2 80", "ss-304 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("WASHER 316", "ss-316 | bare"),
    ("AISI 304H", "ss-304 | bare"),
    ("440A", "ss-440c | bare"),
    ("A2", "ss-304 | bare"),
    ("18-8", "ss-304 | bare"),
    ("18/10", "ss-304 | bare"),
    ("V2A", "ss-304 | bare"),
    ("V4A", "ss-316 | bare"),
    ("stainless", "ss-304 | bare"),
    ("300 series stainless", "ss-304 | bare"),
    ("400 series", "ss-410 | bare"),
    ("s/s", "ss-304 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("SS 309", "SS 309 is not in the catalogue"),
    ("AISI 348", "AISI 348 is not in the catalogue"),
    ("303 x 12", "no material or finish recognised"),
    ("M4 x 304", "no material or finish recognised"),
    ("304-0021", "no material or finish recognised"),
    ("Type 999", "no material or finish recognised"),
    ("PH 15-7", "no material or finish recognised"),
    ("CF3", "CF3 is not in the catalogue"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
