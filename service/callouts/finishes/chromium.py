"""Chromium: decorative over nickel, hard; ASTM B456, QQ-C-320, AMS 2406 and 2460, ISO 6158."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, callout_of, certain, torn
from service.callouts.marks import Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

KIND = "Is the chromium decorative over nickel or hard?"
CRACKS = "Is the nickel under the micro-cracked chromium duplex or single?"
_HARD_FROM_UM = 5.0
"""Decorative chromium is below one micrometre, hard chromium starts at several (from memory)."""

_DECORATED = frozenset({"zinc die cast", "brass", "plastic"})
"""Families on which chromium is put for looks, over nickel (common practice)."""


def decide_chromium(coat: Coat, clues: Clues) -> Decision:
    """Choose decorative or hard chromium."""
    if coat.process == "hard":
        return certain("cr-hard")
    if clues.has("chrome", "microcracked"):
        if clues.has("nickel", "duplex"):
            return certain("cr-decorative-microcracked")
        return torn(CRACKS, cr_decorative=0.5, cr_decorative_microcracked=0.5)
    if coat.process == "trivalent" or clues.has("chemistry", "cr3"):
        return certain("cr-trivalent-decorative")
    is_decorative_basis = bool(clues.families) and clues.families <= _DECORATED
    if (
        coat.process == "decorative"
        or is_decorative_basis
        or clues.kinds & {"ni", "en"}
        or clues.has("gloss", "bright", "satin")
    ):
        return certain("cr-decorative")
    if coat.amount is not None and coat.amount.low_um >= _HARD_FROM_UM:
        return certain("cr-hard")
    return torn(KIND, cr_decorative=0.7, cr_hard=0.3)


def _qq_c_320(clues: Clues) -> Callout:
    """QQ-C-320 and AMS 2460 class 1 corrosion protective, class 2 engineering (AMS 2460 read in an abstract)."""
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
    spelt(Coat("cr"), "verchromt, verchromung, chromiert, chrome plat, chromed, chromage")
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
        "nickel chrom, nickel chrome plated, chrome satine, black chrome, schwarzchrom, chrome noir, "
        "vernickelt und verchromt, vernickelt verchromt, nickele chrome, chrome mat, matt chrome, "
        "polished chrome, chrome poli",
    )
    | spelt(
        Coat("cr", "trivalent"),
        "trivalent chrome plated, trivalent chrome plate, trivalent chromium plate, "
        "trivalent decorative chrome, cr3 chrome plate, trivalent chromium plated",
    )
)
