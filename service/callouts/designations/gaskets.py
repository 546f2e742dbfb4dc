"""Conductive gaskets: elastomers by what fills them, and knitted wire."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import MetalClass, Sense
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

_ELASTOMER = re.compile(r"(?<![^\W_])(?:(?:fluoro)?sili[ck]on|elastomer|gasket|dichtung|joint|rubber|gummi)")
_FILLERS = {
    "agal": "Ag/Al silicone gasket",
    "agcu": "Ag/Cu silicone gasket",
    "agglass": "Ag/glass silicone gasket",
    "nic": "Ni/C silicone gasket",
    "nigraphite": "Ni/C silicone gasket",
    "nial": "Ni/Al fluorosilicone gasket",
}
"""Filler, its coat first, and the name under which the catalogue holds such a gasket."""


def _filled(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    filler = found["coat"] + found["core"]
    if filler not in _FILLERS or not mentions(_ELASTOMER, found.string):
        return None
    return lexicon.alloy(_FILLERS[filler])


def _mesh(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    name = {"m": "Monel mesh gasket", "s": "Sn/Cu/Fe mesh gasket", "a": "aluminium mesh gasket"}
    return lexicon.alloy(name[found.group()[0]])


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?P<coat>ag|ni) ?[-/] ?(?P<core>al|cu|glass|graphite|c)(?: filled)?(?: (?:fluoro)?silicone)?"
        r"(?: (?:elastomer|rubber|gasket))?",
        "ag ni",
        _filled,
        "filler of a conductive elastomer",
    ),
    pattern(
        r"(?:monel|sn ?[-/] ?cu ?[-/] ?fe|alumini?um|alu?)[ -](?:knitted |knit )?(?:wire )?mesh(?: gasket)?",
        "mes",
        _mesh,
        "gasket of knitted wire",
    ),
)
PHRASES: dict[str, Sense] = spelt(
    MetalClass(
        "metallised fabric over foam",
        frozenset({"conductive elastomer"}),
        ("emi-fabric-foam",),
        "What is the fabric metallised with?",
    ),
    "fabric over foam, conductive fabric, metallised fabric, metallized fabric, conductive foam gasket",
)
