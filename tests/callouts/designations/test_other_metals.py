from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("graphite", "graphite | bare"),
    ("C11000 copper", "cu-etp | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("silver", "ag | bare"),
    ("gold", "au | bare"),
    ("tin", "sn | bare"),
    ("solder", "solder-sac305 | bare"),
    ("lead free solder", "solder-sac305 | bare"),
    ("CFRP", "cfrp | bare"),
    ("lead", "pb | bare"),
    ("tungsten alloy", "w | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
