from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("EN AW-6082-T6", "al-6082-t6 | bare"),
    ("6061T6", "al-6061-t6 | bare"),
    ("A6061-T651", "al-6061-t6 | bare"),
    ("AA 5052-H34", "al-5052-h32 | bare"),
    ("AlMgSi1", "al-6082-t6 | bare"),
    ("EN 12345:2024 steel S235JR", "steel-s235 | bare"),
    ("A92024-T3", "al-2024-t3 | bare"),
    ("5083 H111", "al-5083-h116 | bare"),
    ("6061-T5", "al-6061-t6 | bare"),
    ("6082 T7", "al-6082-t6 | bare"),
    ("7075-T76", "al-7075-t7351 | bare"),
    ("AB-6061 S235JR", "steel-s235 | bare"),
    ("Alclad 2024-T351", "alclad-2024 | bare"),
    ("2024-T3 clad", "alclad-2024 | bare"),
    ("7075-T6 ALCLAD", "alclad-7075 | bare"),
    ("A356.0-T6", "al-a356-t6 | bare"),
    ("Al 380", "al-a380 | bare"),
    ("A380 die cast", "al-a380 | bare"),
    ("A413", "al-a413 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("alu 6063", "al-6063-t6 | bare"),
    ("2024", "al-2024-t3 | bare"),
    ("drawing 2014", "al-2014-t6 | bare"),
    ("Aluminium 2024", "al-2024-t3 | bare"),
    ("A95083", "al-5083-h116 | bare"),
    ("alu", "al-6082-t6 | bare"),
    ("cast aluminium", "al-alsi9cu3 | bare"),
    ("6061 o.d. 10mm", "al-6061-t6 | bare"),
    ("1.4301 / 6061", "ss-304 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("EN AW-6111-T4", "EN AW-6111-T4 is not in the catalogue"),
    ("AA6999", "AA6999 is not in the catalogue"),
    ("6999-T6", "6999-T6 is not in the catalogue"),
    ("6999", "no material or finish recognised"),
    ("CONNECTOR 5052-0112", "no material or finish recognised"),
    ("Alclad 7475-T6", "ALCLAD 7475-T6 is not in the catalogue"),
    ("380", "no material or finish recognised"),
    ("535.0", "535.0 is not in the catalogue"),
    ("A201.0", "A201.0 is not in the catalogue"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
