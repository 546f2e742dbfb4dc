from __future__ import annotations

from service.callouts.marks import Clues


def test_clues_answer_for_traits_and_attributes() -> None:
    clues = Clues(
        frozenset({("colour", "black"), ("colour", "yellow"), ("seal", "sealed")}),
        (("type", "2"), ("type", "3"), ("class", "1a")),
    )
    assert clues.trait("colour") == "black"
    assert clues.trait("gloss") == ""
    assert clues.has("seal", "none", "sealed")
    assert not clues.has("seal", "none")
    assert clues.attribute("type") == "2"
    assert clues.attribute("grade") == ""
