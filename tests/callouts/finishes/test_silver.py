from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("silver plated", "() | ag-electro"),
    ("silver plated, anti-tarnish", "() | ag-ni-ag-passivated"),
    ("immersion silver", "(copper) | imm-ag"),
    ("ASTM B700 Type 1 Grade A Class N", "() | ag-electro"),
    ("ASTM B700 Class S", "() | ag-ni-ag-passivated"),
    ("QQ-S-365 GR A", "() | ag-ni-ag-passivated"),
    ("QQ-S-365 GR B", "() | ag-electro"),
    ("AMS 2411", "() | ag-electro"),
    ("ISO 4521", "() | ag-electro"),
    ("ASTM B298", "(copper) | ag-wire"),
    ("silver paint", "() | ag-paint"),
    ("silver plated, chromated", "() | ag-ni-ag-passivated"),
    ("versilbert 5 µm", "() | ag-electro:5"),
    ("Ag over Ni", "() | ag-electro / ni-electro"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("copper wire silver plated", "cu-etp | ag-wire"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
