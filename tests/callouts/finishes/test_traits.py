from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from service.catalogue.surfaces import Condition
from tests.callouts.outlines import firm, torn

FIRM = [
    ("zinc plated trivalent, yellow", "() | zn-passivated-iridescent"),
    ("zinc plated hexavalent, yellow", "() | zn-chromate-yellow"),
    ("electroless nickel high phos", "() | en-high"),
    ("electroless nickel 8% P", "() | en-mid"),
    ("S235JR no finish", "steel-s235 | bare"),
    ("S235JR unplated", "steel-s235 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("zinc plated, hex free", "() | zn-passivated-clear"),
    ("zinc plated ohne Cr(VI)", "() | zn-passivated-clear"),
    ("zinc plated type", "() | zn-passivated-clear"),
    ("plain washer 304", "ss-304 | bare"),
    ("304 plain washer, black oxide", "ss-304 | black-oxide-stainless"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


@pytest.mark.parametrize(
    ("word", "condition"),
    [
        ("", Condition.INTACT),
        ("worn", Condition.WORN),
        ("verschlissen", Condition.WORN),
        ("scratched", Condition.DAMAGED),
        ("beschädigt", Condition.DAMAGED),
        ("endommagé", Condition.DAMAGED),
        ("worn and damaged", Condition.DAMAGED),
    ],
)
def test_the_condition_of_the_finish(word: str, condition: Condition, resolver: Resolver) -> None:
    reading = resolver.resolve(f"8.8 zinc plated clear {word}")
    assert reading.candidates[0].surface.condition is condition
    assert any(span.field == "condition" for span in reading.candidates[0].spans) == bool(word)
