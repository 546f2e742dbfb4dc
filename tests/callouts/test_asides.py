from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Aside, Callout, Coat, MetalClass
from service.callouts.normalise import normalise
from service.callouts.resolver import Resolver
from service.callouts.scan import scan
from tests.callouts.outlines import firm


@pytest.mark.parametrize(
    "text",
    [
        "SCREW, PAN HEAD, M4X10",
        "#4-40 X 1/4",
        "1/4-20 UNC x 1",
        "M10 x 1.5 x 40",
        "Sechskantschraube M8x30",
        "vis CHC M6",
        "2 mm thick",
        "45 HRC",
        "Ra 1.6",
        "qty 4 pcs",
        "16 AWG",
        "PER DRAWING, SEE NOTE 4",
        "nickel anti-seize",
        "copper grease",
    ],
)
def test_shapes_sizes_and_notes_say_nothing_of_the_surface(text: str, lexicon: Lexicon) -> None:
    marks, _ = scan(normalise(text).text, lexicon)
    assert not any(isinstance(mark.sense, (Alloy, MetalClass, Coat, Callout)) for mark in marks)


def test_asides_are_understood(lexicon: Lexicon) -> None:
    _, unread = scan(normalise("SCREW, PAN HEAD, M4X10, 2 mm").text, lexicon)
    assert unread == []


def test_a_compound_in_the_thread_is_no_coat(resolver: Resolver) -> None:
    assert firm(resolver.resolve("SCREW SS316, NICKEL ANTI-SEIZE")) == "ss-316 | bare"


def test_an_aside_never_hides_a_meaning(lexicon: Lexicon) -> None:
    marks, _ = scan("ss 304 x 12", lexicon)
    assert [type(mark.sense) for mark in marks if not isinstance(mark.sense, Aside)] == [Alloy]
