"""Silver: ASTM B700, QQ-S-365, AMS 2410 to 2412, ISO 4521, silver-coated wire."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, callout_of, certain
from service.callouts.marks import Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt


def decide_silver(coat: Coat, clues: Clues) -> Decision:
    """Choose the silver finish; an anti-tarnish film is a finish of its own."""
    if coat.process == "immersion":
        return certain("imm-ag")
    if clues.has("tarnish", "protected"):
        return certain("ag-ni-ag-passivated")
    if coat.process == "wire" or clues.has("form", "wire"):
        return certain("ag-wire")
    return certain("ag-electro")


def _b700(clues: Clues) -> Callout:
    """ASTM B700 class N without, class S with anti-tarnish treatment (read in a web reproduction)."""
    protected = {("tarnish", "protected")} if clues.attribute("class") == "s" else set()
    return callout_of("ag", decide_silver(Coat("ag"), Clues(clues.traits | protected)))


def _qq_s_365(clues: Clues) -> Callout:
    """QQ-S-365 grade A with, grade B without tarnish-resistant treatment (from memory)."""
    protected = {("tarnish", "protected")} if clues.attribute("grade") == "a" else set()
    return callout_of("ag", decide_silver(Coat("ag"), Clues(clues.traits | protected)))


def _silver(clues: Clues) -> Callout:
    return callout_of("ag", decide_silver(Coat("ag"), clues))


SPECS: dict[str, Spec] = {
    "astmb700": Spec("ASTM B700", _b700),
    "qqs365": Spec("QQ-S-365", _qq_s_365),
    **dict.fromkeys(("ams2410", "ams2411", "ams2412", "iso4521"), Spec("silver", _silver)),
    "astmb298": Spec("ASTM B298", lambda _: callout_of("ag", certain("ag-wire"))),
}

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Coat("ag"),
        "versilbert, versilberung, argente, argentee, argenture, galv versilbert, galvanisch versilbert, "
        "hartversilbert, silverplated",
    )
    | spelt(
        Coat("ag", "immersion"),
        "immersion silver, imm silver, immersion ag, imm ag, imag, iag, chemisch silber, chem silber, "
        "chem ag, argent chimique, iagg",
    )
    | spelt(
        Coat("ag", "wire"),
        "spc wire",
    )
    | spelt(Coat("agpaint"), "silver paint, silver conductive paint, conductive silver paint, silberleitlack")
)
