from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("gold flash", "() | au-flash-over-ni"),
    ("hard gold", "() | au-hard-over-ni"),
    ("soft gold 1 um", "() | au-soft:1"),
    ("Au 0.1um", "() | au-flash-over-ni:0.1"),
    ("Au 0.8um over Ni 2um", "() | au-hard-over-ni:0.8 / ni-matte-underplate:2"),
    ("ASTM B488 Type II Code C Class 1.27", "() | au-hard-over-ni:1.27"),
    ("ASTM B488 Type III Code A Class 2.5", "() | au-soft:2.5"),
    ("ASTM B488 Code C Class 0.25", "() | au-flash-over-ni:0.25"),
    ("MIL-G-45204 TY II GR C CL 1", "() | au-hard-over-ni:1.27"),
    ("MIL-G-45204 TY III CL 00", "() | au-soft:0.508"),
    ("palladium nickel, gold flash", "() | pd-ni"),
    ("electroless nickel, palladium, gold", "(copper) | enepig"),
    ("ASTM B867", "() | pd-ni"),
    ("ASTM B679", "() | pd-electro"),
    ("rhodium plated", "() | rh-electro"),
    ("ASTM B634", "() | rh-electro"),
    ("ISO 23160", "() | ru-electro"),
    ("ASTM B1014", "() | pt-electro"),
    ("MIL-I-23411", "() | in-plate"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("gold plated", "() | au-hard-over-ni"),
    ("Au 0.8um", "() | au-hard-over-ni:0.8"),
    ("Au 5 um over Ni", "() | au-hard-over-ni:5 / ni-matte-underplate"),
    ("gold over nickel", "() | au-hard-over-ni / ni-matte-underplate"),
    ("ASTM B488 Type I", "() | au-hard-over-ni"),
    ("ISO 27874", "() | au-hard-over-ni"),
    ("AMS 2422", "() | au-hard-over-ni"),
    ("Ni/Pd/Au", "() | ppf-nipdau / ni-matte-underplate"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
