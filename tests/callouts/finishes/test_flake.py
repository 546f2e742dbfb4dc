from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("flZn-480h", "(carbon steel) | zn-flake"),
    ("flZnnc-720h-L", "(carbon steel) | zn-flake"),
    ("flZnyc", "(carbon steel) | zn-flake-chromate"),
    ("ISO 10683", "(carbon steel) | zn-flake"),
    ("ASTM F1136 Cr(VI)-free", "(carbon steel) | zn-flake"),
    ("zinc flake", "(carbon steel) | zn-flake"),
    ("Zinklamelle", "(carbon steel) | zn-flake"),
    ("zinc flake hexavalent", "(carbon steel) | zn-flake-chromate"),
    ("ASTM F3393", "(carbon steel) | zn-flake"),
    ("8.8 zinc flake", "steel-8-8 | zn-flake"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("ASTM F1136", "(carbon steel) | zn-flake"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
