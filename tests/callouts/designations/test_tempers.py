from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("6061 T6511", "al-6061-t6 | bare"),
    ("2024-T4", "al-2024-t3 | bare"),
    ("5052-H36", "al-5052-h32 | bare"),
    ("CW004A R250", "cu-etp | bare"),
    ("C26000 H04", "brass-cuzn30 | bare"),
    ("CuBe2 TH04", "cu-be2 | bare"),
    ("17-4PH H1150", "ss-17-4ph | bare"),
    ("EN AC-46000 DF", "al-alsi9cu3 | bare"),
    ("AlMgSi1 F28", "al-6082-t6 | bare"),
    ("S235JR R250", "steel-s235 | bare"),
    ("AZ91D-T6", "mg-az91d | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("6063-T4", "al-6063-t6 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
