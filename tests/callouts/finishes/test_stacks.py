from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("Cu5Ni8Cr", "() | cr-decorative / ni-electro:8 / cu-plate:5"),
    ("Cu5 Ni8 Cr0.3", "() | cr-decorative:0.3 / ni-electro:8 / cu-plate:5"),
    ("Ni2Sn4 on CuZn37", "brass-cuzn37 | sn-over-ni:4 / ni-sulfamate:2"),
    ("CuNiSn", "() | sn-over-ni / ni-sulfamate / cu-plate"),
    ("Sn/Ni", "() | sn-over-ni / ni-sulfamate"),
    ("0.8 Au over 1.3 Ni", "() | au-hard-over-ni:0.8 / ni-matte-underplate:1.3"),
    ('30 Au over 50u" Ni', "() | au-hard-over-ni:0.762 / ni-matte-underplate:1.27"),
    ("10.9 ZnNi", "steel-10-9 | znni"),
    ("Sn63", "solder-sn63pb37 | bare"),
    ("Ni200", "ni-200 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("Ni/Cr plated steel", "steel-s235 | cr-decorative / ni-electro"),
    ("NiCr", "nichrome-80 | bare"),
    ("Ni/Au", "() | au-hard-over-ni / ni-matte-underplate"),
    ("Sn5", "() | sn-matte:5"),
    ("Sn5-8um", "() | sn-matte:5"),
    ("Au0.8um", "() | au-hard-over-ni:0.8"),
    ("Cr6 free zinc plated", "() | zn-passivated-clear"),
    ("NiP10", "() | en-mid:10"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("CuNi2Sn4", "not understood: CuNi2Sn4"),
    ("Ni5Ni5", "not understood: Ni5Ni5"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
