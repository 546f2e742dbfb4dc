from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("hard chrome", "() | cr-hard"),
    ("decorative chrome", "() | cr-decorative"),
    ("trivalent chrome plated", "() | cr-trivalent-decorative"),
    ("Zamak 5, chrome plated", "zn-zamak5 | cr-decorative"),
    ("chrome 30 um", "() | cr-hard:30"),
    ("bright chrome plated", "() | cr-decorative"),
    ("QQ-C-320 CL 1", "() | cr-decorative"),
    ("QQ-C-320 CL 2", "() | cr-hard"),
    ("AMS 2406", "() | cr-hard"),
    ("AMS 2460 class 2", "() | cr-hard"),
    ("ASTM B456", "() | cr-decorative"),
    ("ISO 6158", "() | cr-hard"),
    ("chrome plated, microcracked, duplex nickel", "() | cr-decorative-microcracked / ni-duplex"),
    ("ASTM B456 nickel plated", "() | ni-electro"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("chrome plated", "() | cr-decorative"),
    ("chrome plated brass", "brass-cuzn37 | cr-decorative"),
    ("nickel chrome plated steel", "steel-s235 | cr-decorative"),
    ("QQ-C-320", "() | cr-decorative"),
    ("chrome plated microcracked", "() | cr-decorative"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
