from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, MetalClass, Trait
from service.callouts.normalise import normalise
from service.callouts.scan import scan


@pytest.mark.parametrize(
    "text",
    [
        "tube 8 mm OD",
        'pipe 1/2" O.D.',
        "ring OD 12.5",
        "salt spray 24 hrs",
        "5 gal",
        "250 mg",
        "2 cu ft",
        "Pt100",
        "PT 1000",
        "CR2032",
        "SW 13",
        "SW5,5",
        "S/N 47110815",
        "SN: 123456-01",
    ],
)
def test_a_unit_spelt_like_a_metal_names_none(text: str, lexicon: Lexicon) -> None:
    marks, _ = scan(normalise(text).text, lexicon)
    assert not [mark for mark in marks if isinstance(mark.sense, (Alloy, Coat, MetalClass, Trait))]


@pytest.mark.parametrize(
    "text", ["cadmium plated, OD", "Sn", "Cr", "gal verzinkt", "Scheibe 6,4 VA", "Sn 5 µm"]
)
def test_the_same_letters_without_a_figure_keep_their_meaning(text: str, lexicon: Lexicon) -> None:
    marks, _ = scan(normalise(text).text, lexicon)
    assert any(isinstance(mark.sense, (Alloy, Coat, MetalClass, Trait)) for mark in marks)
