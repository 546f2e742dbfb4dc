"""Cadmium: words, QQ-P-416, ASTM B766 and B696, AMS 2400 and 2401, MIL-STD-1500."""

from __future__ import annotations

from service.callouts.finishes.decision import (
    Decision,
    attribute_amount,
    callout_of,
    certain,
    first_that_holds,
    torn,
)
from service.callouts.finishes.zinc import CARBON_STEEL
from service.callouts.marks import Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

SUPPLEMENT = "Does the cadmium carry a chromate (yellow), and is there nickel beneath?"
_OLIVE = torn(SUPPLEMENT, cd_olive=0.7, cd_yellow=0.3)
_CHROMATED = torn(SUPPLEMENT, cd_yellow=0.8, cd_olive=0.2)
_OPEN = torn(SUPPLEMENT, cd_clear=0.5, cd_yellow=0.5)


def decide_cadmium(coat: Coat, clues: Clues) -> Decision:
    """Choose the cadmium finish by process and supplementary treatment."""
    colour = clues.trait("colour")
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (coat.process == "vacuum", "cd-vacuum"),
        (coat.process == "low embrittlement", "cd-ti-lhe"),
        (clues.has("treatment", "phosphate"), "cd-phosphate"),
        (clues.has("treatment", "none"), "cd-clear"),
        (colour == "olive" and bool(clues.kinds & {"en", "ni"}), "cd-olive"),
        (colour == "olive", _OLIVE),
        (colour in {"yellow", "iridescent"}, "cd-yellow"),
        (clues.has("chemistry", "chromate", "cr6"), _CHROMATED),
    )
    return first_that_holds(rules, _OPEN)


_QQ_P_416_UM = {"1": 12.7, "2": 7.6, "3": 5.1}
"""QQ-P-416F classes: 0.0005, 0.0003, 0.0002 in (read in a web reproduction)."""


def _qq_p_416(clues: Clues) -> Callout:
    """QQ-P-416F types: I as plated, II chromate, III phosphate (read in a web reproduction)."""
    amount = attribute_amount(clues, "class", _QQ_P_416_UM)
    return callout_of("cd", _by_type(clues), CARBON_STEEL, amount)


def _by_type(clues: Clues) -> Decision:
    match clues.attribute("type"):
        case "1":
            return certain("cd-clear")
        case "2":
            if clues.has("colour", "olive"):
                return torn(SUPPLEMENT, cd_olive=0.6, cd_yellow=0.4)
            return certain("cd-yellow")
        case "3":
            return certain("cd-phosphate")
        case _:
            return decide_cadmium(Coat("cd"), clues)


def _b766(clues: Clues) -> Callout:
    """ASTM B766 types: I as plated, II coloured chromate, III colourless; classes in micrometres."""
    number = clues.attribute("class")
    amount = attribute_amount(clues, "class", {number: float(number)} if number.isdigit() else {})
    if clues.attribute("type") == "3":
        return callout_of("cd", torn(SUPPLEMENT, cd_clear=0.7, cd_yellow=0.3), CARBON_STEEL, amount)
    return callout_of("cd", _by_type(clues), CARBON_STEEL, amount)


def _ams2400(clues: Clues) -> Callout:
    """AMS 2400 asks for no chromate unless the drawing does (from memory)."""
    if clues.trait("colour") or clues.trait("chemistry"):
        return callout_of("cd", decide_cadmium(Coat("cd"), clues), CARBON_STEEL)
    return callout_of("cd", certain("cd-clear"), CARBON_STEEL)


def _cadmium(clues: Clues) -> Callout:
    return callout_of("cd", decide_cadmium(Coat("cd"), clues), CARBON_STEEL)


def _fixed(name: str, finish: str) -> Spec:
    return Spec(name, lambda _: callout_of("cd", certain(finish), CARBON_STEEL))


SPECS: dict[str, Spec] = {
    "qqp416": Spec("QQ-P-416", _qq_p_416),
    "ams2400": Spec("AMS 2400", _ams2400),
    "astmb766": Spec("ASTM B766", _b766),
    "iso2082": Spec("ISO 2082", _cadmium),
    "defstan03-19": Spec("DEF STAN 03-19", _cadmium),
    "nas672": Spec("NAS 672", _cadmium),
    "ams2401": _fixed("AMS 2401", "cd-ti-lhe"),
    "ams2419": _fixed("AMS 2419", "cd-ti-lhe"),
    "milstd1500": _fixed("MIL-STD-1500", "cd-ti-lhe"),
    "mil8837": _fixed("MIL-C-8837", "cd-vacuum"),
    "ams2426": _fixed("AMS 2426", "cd-vacuum"),
}
"""AMS 2401, 2419, 2426, MIL-STD-1500 and MIL-C-8837 from memory."""

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Coat("cd"),
        "verkadmet, kadmiert, cadmiert, kadmiumbeschichtet, cadmie, cadmiee, cadmiage, cad plate, "
        "cad plated, cad pl",
    )
    | spelt(
        Coat("cd", "vacuum"),
        "vacuum cadmium, vacuum deposited cadmium, vacuum cad, vac cad, ivd cadmium, vac cadmium",
    )
    | spelt(
        Coat("cd", "low embrittlement"),
        "low embrittlement cadmium, lhe cadmium, lhe cad, cadmium titanium, cad ti, titanium cadmium, "
        "low hydrogen embrittlement cadmium, cd ti, ti cad, low embrittlement cad",
    )
)
