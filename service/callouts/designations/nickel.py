"""Nickel alloys: alloy numbers behind trade words, generic words."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, MetalClass, Sense
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

NICKEL = "nickel"
NICKEL_IRON = "nickel-iron"


def _number(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    word, number = found["word"], found["number"].upper().replace(" ", "-")
    alloy = lexicon.alloy(f"{word} {number}", f"alloy {number}", f"nickel {number}")
    if alloy is not None:
        return alloy
    return None if word == "alloy" else Alloy((), NICKEL)


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?P<word>inconel|incoloy|monel|hastelloy|nickel|alloy|inco|in|nimonic|ni)[ -]?"
        r"(?P<number>200|201|22|276|400|405|600|601|617|625|686|690|718|725|750|800h?t?|825|925|[bcx][ -]?"
        r"(?:2|3|4|22|276|750)?|k-?500|x-?750)",
        "inco monel hast nickel alloy in6 in7 nimo ni2",
        _number,
        "nickel alloy number",
    ),
    pattern(
        r"k ?-?500[ ,-]{1,2}(?:monel|nickel)",
        "500",
        lambda _found, lexicon: lexicon.alloy("Monel K-500") or Alloy((), NICKEL),
        "nickel alloy number",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(Coat("ni", is_bare_word=True), "nickel, ni")
    | spelt(
        MetalClass("pure nickel", frozenset({NICKEL}), ("ni-200",), "Which unalloyed nickel is it?"),
        "pure nickel, pure nickel strip, nickel strip pure, reinnickel, nickel pur, commercially pure "
        "nickel, nickel strip, nickel sheet, nickel foil, nickelband, nickelblech",
    )
    | spelt(
        MetalClass(
            "nickel alloy",
            frozenset({NICKEL}),
            ("inconel-625", "monel-400", "ni-200", "inconel-600"),
            "Which nickel alloy is it?",
        ),
        "nickel alloy, ni alloy, nickellegierung, alliage de nickel, nickel base alloy, superalloy, nimonic",
    )
    | spelt(
        MetalClass(
            "nickel-chromium-iron alloy",
            frozenset({NICKEL}),
            ("inconel-600", "inconel-625", "inconel-718"),
            "Which nickel-chromium alloy is it?",
        ),
        "inconel, incoloy",
    )
    | spelt(
        MetalClass(
            "nickel-copper alloy",
            frozenset({NICKEL}),
            ("monel-400", "monel-k500"),
            "Which nickel-copper alloy is it?",
        ),
        "monel, nickel copper alloy",
    )
    | spelt(
        MetalClass(
            "nickel-molybdenum alloy",
            frozenset({NICKEL}),
            ("hastelloy-c276", "hastelloy-c22", "alloy-b2"),
            "Which nickel-molybdenum alloy is it?",
        ),
        "hastelloy",
    )
    | spelt(
        MetalClass(
            "nickel-iron alloy",
            frozenset({NICKEL_IRON}),
            ("alloy-42", "invar-36", "kovar", "mu-metal"),
            "Which nickel-iron alloy is it?",
        ),
        "nickel iron, nickel iron alloy, nife, ni fe, fe ni 42, feni, fe ni, permalloy, soft magnetic alloy",
    )
)
