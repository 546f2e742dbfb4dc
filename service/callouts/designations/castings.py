"""Zinc die castings, magnesium and cast iron: short names and generic words."""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, MetalClass, Sense
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

ZINC_DIE_CAST = "zinc die cast"
MAGNESIUM = "magnesium"
CAST_IRON = "cast iron"
CAST_ALUMINIUM = "cast aluminium"


def _zinc_alloy(found: re.Match[str], lexicon: Lexicon) -> Sense:
    return lexicon.alloy(f"Zamak {found['number']}", f"ZA-{found['number']}") or Alloy((), ZINC_DIE_CAST)


def _grey_iron(found: re.Match[str], lexicon: Lexicon) -> Sense:
    return lexicon.alloy(found.group(), f"EN-{found.group()}") or Alloy((), CAST_IRON)


def _british(found: re.Match[str], lexicon: Lexicon) -> Sense:
    alloy = lexicon.alloy(f"LM{found['number']}") or Alloy((), CAST_ALUMINIUM)
    return replace(alloy, temper=found["temper"].upper()) if found["temper"] else alloy


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?:zamak|zamac|zinc alloy|zn alloy|zinc die ?cast(?:ing)?|zl|zp|za|znal4?)[ ,.-]{0,2}(?"
        r":alloy )?(?:no\.? ?|#)?(?P<number>[2358]|27)",
        "zam zinc zn zl zp za",
        _zinc_alloy,
        "zinc die-casting alloy",
    ),
    pattern(
        r"zdc ?-?(?P<number>\d)",
        "zdc",
        lambda found, lexicon: lexicon.alloy(f"ZDC{found['number']}") or Alloy((), ZINC_DIE_CAST),
        "zinc die-casting alloy JIS H 5301",
    ),
    pattern(
        r"(?:gg|ggg|ggv|fc|fcd|fgl|fgs|gjl|gjs)[ -]?\d{2,3}(?:-\d{1,2})?",
        "gg fc fg gj",
        _grey_iron,
        "cast iron grade",
    ),
    # BS 1490 numbers; M as cast, TF fully heat treated (from memory).
    pattern(
        r"(?:al(?:uminium)? )?lm ?-?(?P<number>\d{1,2})(?:[ -]?(?P<temper>m|ts|te|tb7?|tf7?))?",
        "lm",
        _british,
        "casting alloy BS 1490",
    ),
)

ZINC_CASTING = MetalClass(
    ZINC_DIE_CAST,
    frozenset({ZINC_DIE_CAST, "zinc"}),
    ("zn-zamak5", "zn-zamak3", "zn-za8"),
    "Which zinc casting alloy is it (3, 5, ZA-8)?",
)
ZAMAK = MetalClass(
    "Zamak",
    frozenset({ZINC_DIE_CAST, "zinc"}),
    ("zn-zamak5", "zn-zamak3", "zn-zamak2"),
    "Which Zamak is it (2, 3, 5)?",
)
_IRON_QUESTION = "Is it grey, ductile or another cast iron?"
MAGNESIUM_ALLOY = MetalClass(
    MAGNESIUM, frozenset({MAGNESIUM}), ("mg-az91d", "mg-az31b", "mg-am60b"), "Which magnesium alloy is it?"
)

PHRASES: dict[str, Sense] = (
    spelt(
        ZINC_CASTING,
        "zinc die cast, zinc die casting, zinc diecast, die cast zinc, diecast zinc, zinc casting, "
        "cast zinc, zinc alloy, zn alloy, zinkdruckguss, zn druckguss, gd zn, "
        "zinklegierung, alliage de zinc, zinc die cast alloy, zinc alloy die cast, zdc, pot metal, "
        "zink druckguss, zinkguss, die cast zinc alloy, znal",
    )
    | spelt(ZAMAK, "zamak, zamac, zamack, mazak")
    | spelt(
        MAGNESIUM_ALLOY,
        "magnesium, mg, magnesium alloy, mag alloy, magnesiumlegierung, alliage de magnesium, "
        "magnesium die cast, die cast magnesium, magnesiumdruckguss",
    )
    | spelt(
        MetalClass(
            CAST_IRON, frozenset({CAST_IRON}), ("ci-gjl-250", "ci-gjs-400", "ci-malleable"), _IRON_QUESTION
        ),
        "cast iron, fonte, gusseisen, c iron, c i, ci, iron casting, eisenguss, guss, fonte de fer",
    )
    | spelt(
        MetalClass("grey iron", frozenset({CAST_IRON}), ("ci-gjl-250",), "Which grade of grey iron is it?"),
        "grey iron, gray iron, grey cast iron, gray cast iron, grauguss, fonte grise",
    )
    | spelt(
        MetalClass(
            "ductile iron",
            frozenset({CAST_IRON}),
            ("ci-gjs-400", "ci-gjs-500"),
            "Which grade of ductile iron is it?",
        ),
        "ductile iron, ductile cast iron, nodular iron, nodular cast iron, sg iron, "
        "spheroidal graphite iron, sphaeroguss, kugelgraphitguss, fonte ductile, fonte gs, "
        "fonte a graphite spheroidal, fonte nodulaire",
    )
    | spelt(
        MetalClass(
            "malleable iron",
            frozenset({CAST_IRON}),
            ("ci-malleable",),
            "Which grade of malleable iron is it?",
        ),
        "malleable iron, malleable, temperguss, fonte malleable, malleable cast iron",
    )
    | spelt(
        MetalClass(
            "iron",
            frozenset({CAST_IRON, "carbon steel", "low-alloy steel"}),
            ("ci-gjl-250", "steel-s235", "iron-pure"),
            "Is it cast iron or steel?",
        ),
        "iron, eisen, fer, ferrous, ferrous metal, wrought iron",
    )
)
