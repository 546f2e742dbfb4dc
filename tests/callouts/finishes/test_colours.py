from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import torn

TORN = [
    ("12.9 black", "steel-12-9 | black-oxide-steel"),
    ("6061-T6 black", "al-6061-t6 | anod-ii-dyed"),
    ("6061-T6 gold", "al-6061-t6 | chem-film-1a"),
    ("6061-T6 red", "al-6061-t6 | anod-ii-dyed"),
    ("316 black", "ss-316 | black-oxide-stainless"),
    ("8.8 yellow", "steel-8-8 | zn-chromate-yellow"),
    ("8.8 blue", "steel-8-8 | zn-passivated-clear"),
    ("brass black", "brass-cuzn37 | bare"),
    ("steel clear", "steel-s235 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
