from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("QQ-P-416 TY I CL 1", "(carbon steel) | cd-clear:12.7"),
    ("QQ-P-416 TY II CL 2", "(carbon steel) | cd-yellow:7.6"),
    ("QQ-P-416 TY III CL 3", "(carbon steel) | cd-phosphate:5.1"),
    ("ASTM B766 Class 8 Type II", "(carbon steel) | cd-yellow:8"),
    ("AMS 2400", "(carbon steel) | cd-clear"),
    ("AMS 2400 yellow", "(carbon steel) | cd-yellow"),
    ("AMS 2401", "(carbon steel) | cd-ti-lhe"),
    ("MIL-C-8837", "(carbon steel) | cd-vacuum"),
    ("cadmium plated yellow", "() | cd-yellow"),
    ("cadmium plated, no chromate", "() | cd-clear"),
    ("cadmium plated phosphated", "() | cd-phosphate"),
    ("vacuum cadmium", "() | cd-vacuum"),
    ("LHE cadmium", "() | cd-ti-lhe"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("QQ-P-416 TY II olive drab", "(carbon steel) | cd-olive"),
    ("QQ-P-416", "(carbon steel) | cd-clear"),
    ("ASTM B766 Type III", "(carbon steel) | cd-clear"),
    ("NAS 672", "(carbon steel) | cd-clear"),
    ("cad plated", "() | cd-clear"),
    ("cadmium plated, chromated", "() | cd-yellow"),
    ("cadmium, olive drab", "() | cd-olive"),
    ("cadmium plated olive over electroless nickel", "() | cd-olive / en-mid"),
    ("steel verkadmet", "steel-s235 | cd-clear"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
