"""Chromium: decorative over nickel, hard; ASTM B456, QQ-C-320, AMS 2406 and 2460, ISO 6158."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, callout_of, certain, first_that_holds, torn
from service.callouts.marks import Callout, Clues, Coat, Sense, Spec, Unread
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

KIND = "Is the chromium decorative over nickel or hard?"
CRACKS = "Is the nickel under the micro-cracked chromium duplex or single?"
_CRACKED = torn(CRACKS, cr_decorative=0.5, cr_decorative_microcracked=0.5)
_OPEN = torn(KIND, cr_decorative=0.7, cr_hard=0.3)
_HARD_FROM_UM = 5.0
"""Decorative chromium is below one micrometre, hard chromium starts at several (from memory)."""

_DECORATED = frozenset({"zinc die cast", "brass", "plastic"})
"""Families on which chromium is put for looks, over nickel (common practice)."""


def decide_chromium(coat: Coat, clues: Clues) -> Decision:
    """Choose decorative or hard chromium."""
    is_cracked = clues.has("chrome", "microcracked")
    is_decorated = bool(clues.families) and clues.families <= _DECORATED
    is_bright = clues.has("gloss", "bright", "satin")
    is_thick = coat.amount is not None and coat.amount.low_um >= _HARD_FROM_UM
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (coat.process == "hard", "cr-hard"),
        (is_cracked and clues.has("nickel", "duplex"), "cr-decorative-microcracked"),
        (is_cracked, _CRACKED),
        (coat.process == "trivalent" or clues.has("chemistry", "cr3"), "cr-trivalent-decorative"),
        (coat.process == "decorative" or is_decorated or is_bright, "cr-decorative"),
        (bool(clues.kinds & {"ni", "en"}), "cr-decorative"),
        (is_thick, "cr-hard"),
    )
    return first_that_holds(rules, _OPEN)


def _qq_c_320(clues: Clues) -> Callout:
    """QQ-C-320 and AMS 2460: class 1 corrosion protective, class 2 engineering (read in an abstract)."""
    finish = {"1": "cr-decorative", "2": "cr-hard"}.get(clues.attribute("class"))
    return callout_of("cr", certain(finish) if finish else decide_chromium(Coat("cr"), clues))


def _hard(_: Clues) -> Callout:
    return callout_of("cr", certain("cr-hard"))


SPECS: dict[str, Spec] = {
    "astmb456": Spec(
        "ASTM B456",
        lambda clues: None if clues.kinds == {"ni"} else callout_of("cr", certain("cr-decorative")),
    ),
    "qqc320": Spec("QQ-C-320", _qq_c_320),
    "ams2460": Spec("AMS 2460", _qq_c_320),
    **dict.fromkeys(
        ("ams2406", "iso6158", "astmb650", "astmb177", "mil20218", "ams2438"),
        Spec("hard chromium", _hard),
    ),
    "astmb604": Spec("ASTM B604", lambda _: callout_of("cr", certain("cr-decorative"))),
}
"""ASTM B456 decorative, the others hard (from memory); AMS 2438 thin dense."""

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Unread("black chrome"),
        "black chrome, black chromium, black chrome plated, black chrome plating, schwarzchrom, schwarz "
        "verchromt, "
        "schwarzverchromt, chrome noir, cromo negro, cromo nero",
    )
    | spelt(Coat("cr"), "verchromt, verchromung, chromiert, chrome plat, chromed, chromage")
    | spelt(
        Coat("cr", "hard"),
        "hard chrome, hard chromium, hartverchromt, hartchrom, hart verchromt, chrome dur, "
        "thin dense chrome, tdc, industrial chrome, engineering chrome, hartverchromung, chromage dur, "
        "functional chrome",
    )
    | spelt(
        Coat("cr", "decorative"),
        "decorative chrome, decorative chromium, bright chrome, satin chrome, glanzverchromt, "
        "glanzchrom, mattverchromt, mattchrom, chrome decoratif, chrome brillant, nickel chrome, "
        "nickel chromium, ni cr plated, nicr plated, cunicr, ni chrome, copper nickel chrome, cu ni cr, "
        "nickel chrom, nickel chrome plated, chrome satine, "
        "vernickelt und verchromt, vernickelt verchromt, nickele chrome, chrome mat, matt chrome, "
        "polished chrome, chrome poli",
    )
    | spelt(
        Coat("cr", "trivalent"),
        "trivalent chrome plated, trivalent chrome plate, trivalent chromium plate, "
        "trivalent decorative chrome, cr3 chrome plate, trivalent chromium plated",
    )
)
