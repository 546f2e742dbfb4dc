from __future__ import annotations

import pytest

from service.callouts.choices import is_metal_word, place_of_choice
from service.callouts.marks import Aside, Coat, Link, Mark, MetalClass
from service.callouts.reading import Match
from service.callouts.resolver import Resolver

STEEL = MetalClass("steel", frozenset(), (), "Which one?")
ZINC, COPPER = Coat("zn", "hot-dip"), Coat("cu", is_bare_word=True)


def marks(*senses: object) -> tuple[list[Mark], str]:
    """Marks of four characters each in a text of the same words."""
    body = "".join("or  " if sense is Link.ALTERNATIVE else "word" for sense in senses)
    found = []
    for place, sense in enumerate(senses):
        length = 2 if sense is Link.ALTERNATIVE else 4
        found.append(Mark(4 * place, 4 * place + length, sense, "word"))  # type: ignore[arg-type]
    return found, body


def test_an_or_between_material_and_coat_is_a_choice() -> None:
    assert place_of_choice(*marks(STEEL, Link.ALTERNATIVE, ZINC)) == 1
    assert place_of_choice(*marks(ZINC, Aside(), Link.ALTERNATIVE, STEEL)) == 2


def test_an_or_between_likes_is_none() -> None:
    assert place_of_choice(*marks(STEEL, Link.ALTERNATIVE, STEEL)) is None
    assert place_of_choice(*marks(STEEL, ZINC, Link.ALTERNATIVE, ZINC)) is None
    assert place_of_choice(*marks(STEEL, Link.ALTERNATIVE, COPPER)) is None
    assert place_of_choice(*marks(Link.ALTERNATIVE, ZINC)) is None


def test_copper_may_be_the_part() -> None:
    found, _ = marks(COPPER, ZINC, STEEL)
    assert [is_metal_word(mark) for mark in found] == [True, False, False]


@pytest.mark.parametrize(
    ("text", "material", "finish"),
    [
        ("stainless A4 or hot-dip galvanised", "ss-316", "zn-hdg"),
        ("Edelstahl oder verzinkt", "ss-304", "zn-hdg"),
        ("forged steel, zinc or stainless", "ss-304", "zn-passivated-clear"),
        ("zinc plated or stainless", "ss-304", "zn-passivated-clear"),
    ],
)
def test_no_coat_is_put_on_the_other_alternative(
    text: str, material: str, finish: str, resolver: Resolver
) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.AMBIGUOUS
    surfaces = [candidate.surface for candidate in reading.candidates]
    assert material in {surface.material_id for surface in surfaces}
    assert finish in {layer.finish_id for surface in surfaces for layer in surface.layers}
    assert not any(surface.layers for surface in surfaces if surface.material_id == material)


def test_alternatives_of_one_material_keep_their_coat(resolver: Resolver) -> None:
    reading = resolver.resolve("aluminium, clear or black anodised")
    assert all(candidate.surface.layers for candidate in reading.candidates)
