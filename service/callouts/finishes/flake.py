"""Non-electrolytic zinc flake (ISO 10683, EN 13858, ASTM F1136 and F3393)."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import Decision, callout_of, certain, torn
from service.callouts.finishes.zinc import CARBON_STEEL
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

OLD_GRADE = "Is the zinc flake an older grade with hexavalent chromium?"


def decide_flake(_coat: Coat, clues: Clues) -> Decision:
    """Zinc flake: Cr(VI)-free unless the text says otherwise."""
    return certain("zn-flake-chromate" if clues.has("chemistry", "cr6") else "zn-flake")


def _code(found: re.Match[str], _: Lexicon) -> Sense:
    """FlZn, L integral lubricant, T top coat, nc without chromium(VI), yc with it (ISO 10683; nc read)."""
    finish = "zn-flake-chromate" if found["chromate"] == "yc" else "zn-flake"
    return callout_of("flake", certain(finish), CARBON_STEEL)


def _flake(clues: Clues) -> Callout:
    return callout_of("flake", decide_flake(Coat("flake"), clues), CARBON_STEEL)


def _f1136(clues: Clues) -> Callout:
    """The early grades of ASTM F1136 held chromate (from memory)."""
    if clues.has("chemistry", "cr3"):
        return _flake(clues)
    return callout_of("flake", torn(OLD_GRADE, zn_flake=0.6, zn_flake_chromate=0.4), CARBON_STEEL)


SPECS: dict[str, Spec] = {
    "iso10683": Spec("ISO 10683", _flake),
    "en13858": Spec("EN 13858", _flake),
    "astmf1136": Spec("ASTM F1136", _f1136),
    "astmf3393": Spec("ASTM F3393", _flake),
}

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"fl ?zn(?:/?al)?[ -]{0,2}(?:l|t[ln]?|tx)?[ -]?(?P<chromate>nc|yc)?l?[ -]{0,3}(?:\d{2,4} ?h)?(?"
        r":[ -]{1,2}[clxt]{1,2})?",
        "flzn fl zn",
        _code,
        "zinc flake code ISO 10683",
    ),
)

PHRASES: dict[str, Sense] = spelt(
    Coat("flake"),
    "zinc flake, zinc flakes, zinc flake coating, zinc flake coated, zinklamelle, zinklamellen, "
    "zinklamellenueberzug, zinklamellenbeschichtung, zinklamellen beschichtet, zinklamellenbeschichtet, "
    "lamellaire zinc, zinc lamellaire, zn flake, geomet, dacromet, delta protekt, delta tone, "
    "delta seal, magni, zinc aluminium flake, zinc aluminum flake, zn al flake, znal flake, zinc alu flake, "
    "zinc aluminium coated, zinc aluminum coated, zinc aluminium coating, zinc aluminum coating, "
    "flake zinc, dacro, dacrotized, dacrotised, geomet 321, geomet 500, dacromet 320, dacromet 500, "
    "geomet 321a, geomet 500a, delta protekt kl100, delta protekt kl 100, magni 565, magni 555, "
    "zintek, zintek 200",
)
