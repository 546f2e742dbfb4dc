"""Titanium: grades, 6-4, generic words."""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, MetalClass, Riddle, Sense
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

TITANIUM = "titanium"
_NAMED = re.compile(r"(?<![^\W_])titan(?:ium|e)?(?![^\W_])")
"""The word itself; a grade farther off in the text then belongs to it."""
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5"}


def _grade(found: re.Match[str], lexicon: Lexicon) -> Sense:
    text = found["grade"] or found["late"]
    return lexicon.alloy(f"Ti Gr {_ROMAN.get(text, text)}") or Alloy((), TITANIUM)


def _bare_grade(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """A grade alone is one of titanium or of SAE J429."""
    grade = found["grade"]
    titanium = lexicon.alloy(f"Ti Gr {grade}")
    if titanium is not None and mentions(_NAMED, found.string):
        return titanium
    if found.group() != found.string.strip() or titanium is None:
        return None
    steel = lexicon.alloy(f"SAE J429 Grade {grade}")
    senses = (titanium, replace(steel, question="")) if steel else (titanium,)
    return Riddle(
        senses, f"Is grade {grade} the titanium grade or the SAE J429 strength grade of a steel bolt?"
    )


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?:ti|titan(?:ium|e)?|cp ?ti|cp titanium)(?: alloy)?[ ,.-]{0,2}(?:cp )?(?:gr(?:ade|\.|ad)?|g)"
        r"[ .]{0,2}(?P<grade>\d{1,2}|i{1,3}|iv|v)"
        r"|(?:grade|gr)\.? ?(?P<late>\d{1,2})[ ,]{1,2}(?:cp )?(?:ti|titan(?:ium|e)?)",
        "ti",
        _grade,
        "titanium grade",
    ),
    pattern(r"(?:grade|gr)\.? ?(?P<grade>\d{1,2})", "gr", _bare_grade, "grade alone"),
    pattern(
        r"(?:ti(?:tanium)?[ -]?)?6 ?al[ -]?4 ?v(?P<eli> ?-?eli)?|ti[ -]?6[ -]4(?P<eli2> ?-?eli)?|tc4|ti64",
        "6al 6-4 ti6 ti-6 6 tc4 ti64",
        lambda found, lexicon: lexicon.alloy(
            "Ti-6Al-4V ELI" if found["eli"] or found["eli2"] else "Ti-6Al-4V"
        ),
        "titanium 6-4",
    ),
)

PHRASES: dict[str, Sense] = spelt(
    MetalClass(
        TITANIUM, frozenset({TITANIUM}), ("ti-gr2", "ti-gr5"), "Which titanium grade is it (2, 5...)?"
    ),
    "titanium, titan, titane, ti, titanium alloy, titanlegierung, alliage de titane",
) | spelt(
    MetalClass(
        "unalloyed titanium",
        frozenset({TITANIUM}),
        ("ti-gr2", "ti-gr1", "ti-gr4"),
        "Which grade of unalloyed titanium is it?",
    ),
    "cp titanium, cp ti, commercially pure titanium, reintitan, titane pur, ti cp, pure titanium",
)
