"""Electroplated zinc and its alloys: words, colours, ASTM B633 and F1941, QQ-Z-325, AMS."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import (
    Decision,
    attribute_amount,
    callout_of,
    certain,
    coat_of,
    first_that_holds,
    torn,
)
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Amount, Callout, Clues, Coat, Sense, Several, Spec, Trait
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

CARBON_STEEL = "carbon steel"

CHEMISTRY = "Is the yellow or iridescent passivation hexavalent (Cr(VI)) or Cr(VI)-free?"
COLOUR = "Which passivation is on the zinc (clear, yellow, black, sealed), and is it Cr(VI)-free?"
PROCESS = "Is the zinc electroplated or hot-dip galvanized?"


def decide_zinc(coat: Coat, clues: Clues) -> Decision:
    """Choose the zinc finish by process, colour, chemistry and sealer."""
    process = coat.process
    if process in _BY_PROCESS:
        return certain(_BY_PROCESS[process])
    if process == "galvanized":
        return _galvanized(clues)
    return electroplated(clues)


_BY_PROCESS = {
    "mechanical": "zn-mechanical",
    "hot-dip": "zn-hdg",
    "hot-dip sheet": "zn-hdg-sheet",
    "galvannealed": "zn-galvanneal",
    "electro sheet": "zn-eg-sheet",
    "sherardized": "zn-sherardized",
    "sprayed": "zn-sprayed",
}


def _galvanized(clues: Clues) -> Decision:
    """Galvanized, verzinkt, galv: electroplated and hot-dip are both called so."""
    if clues.trait("colour") or clues.trait("chemistry") or clues.trait("seal"):
        return electroplated(clues)
    if clues.has("form", "sheet"):
        return torn(PROCESS, zn_hdg_sheet=0.6, zn_eg_sheet=0.2, zn_hdg=0.1, zn_passivated_clear=0.1)
    return torn(PROCESS, zn_hdg=0.4, zn_passivated_clear=0.3, zn_hdg_sheet=0.2, zn_chromate_yellow=0.1)


def electroplated(clues: Clues) -> Decision:
    """Choose the passivation of electroplated zinc."""
    colour = clues.trait("colour")
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (clues.has("treatment", "none"), "zn-plain"),
        (clues.has("treatment", "phosphate"), "zn-phosphate"),
        (colour == "black", "zn-black"),
        (clues.has("seal", "sealed", "anodic"), "zn-passivated-sealed"),
        (colour == "olive", "zn-chromate-olive"),
        (colour in {"clear", "blue"}, "zn-passivated-clear"),
        (colour in {"yellow", "iridescent"}, _yellow(clues)),
    )
    return first_that_holds(rules, _colourless(clues))


def _yellow(clues: Clues) -> Decision:
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (clues.has("chemistry", "cr3"), "zn-passivated-iridescent"),
        (clues.has("chemistry", "cr6"), "zn-chromate-yellow"),
    )
    return first_that_holds(rules, _YELLOW)


def _colourless(clues: Clues) -> Decision:
    if clues.has("chemistry", "cr3"):
        return _FREE_OF_CHROMIUM_SIX
    return _CHROMATED if clues.has("chemistry", "cr6", "chromate") else _UNPASSIVATED


_YELLOW = torn(CHEMISTRY, zn_chromate_yellow=0.6, zn_passivated_iridescent=0.4)
_FREE_OF_CHROMIUM_SIX = torn(
    COLOUR, zn_passivated_clear=0.6, zn_passivated_iridescent=0.25, zn_passivated_sealed=0.15
)
_CHROMATED = torn(
    COLOUR,
    zn_chromate_yellow=0.5,
    zn_passivated_clear=0.25,
    zn_passivated_iridescent=0.15,
    zn_chromate_olive=0.1,
)
_UNPASSIVATED = torn(
    COLOUR, zn_passivated_clear=0.5, zn_chromate_yellow=0.25, zn_passivated_iridescent=0.15, zn_plain=0.1
)


def decide_zinc_nickel(coat: Coat, clues: Clues) -> Decision:
    """Zinc-nickel: black passivated or not, low-embrittlement bath or not."""
    if coat.process == "low embrittlement":
        return certain("znni-low-embrittlement")
    return certain("znni-black" if clues.has("colour", "black") else "znni")


_B633_UM = {"1": 5.0, "2": 8.0, "3": 12.0, "4": 25.0}
"""ASTM B633 service conditions SC1 to SC4; classes read in a web reproduction."""

_QQ_Z_325_UM = {"1": 25.4, "2": 12.7, "3": 5.1}
"""QQ-Z-325 classes 1 to 3 (0.001, 0.0005, 0.0002 in); from memory."""

AS_PLATED = "No supplementary treatment is ordered: was the zinc passivated all the same?"


def _b633(clues: Clues) -> Callout:
    """ASTM B633, of which the types were read in a web reproduction.

    I as plated, II coloured chromate, III colourless chromate, IV phosphate, V colourless passivate,
    VI coloured passivate.
    """
    amount = attribute_amount(clues, "condition", _B633_UM)
    return callout_of("zn", _b633_type(clues), CARBON_STEEL, amount)


def _b633_type(clues: Clues) -> Decision:
    match clues.attribute("type"):
        case "1":
            return torn(AS_PLATED, zn_plain=0.7, zn_passivated_clear=0.3)
        case "2":
            colour = clues.trait("colour")
            return certain(
                {"black": "zn-black", "olive": "zn-chromate-olive"}.get(colour, "zn-chromate-yellow")
            )
        case "3" | "5":
            return certain("zn-passivated-clear")
        case "4":
            return certain("zn-phosphate")
        case "6":
            return certain("zn-black" if clues.has("colour", "black") else "zn-passivated-iridescent")
        case _:
            return electroplated(clues)


def _qq_z_325(clues: Clues) -> Callout:
    """QQ-Z-325 types: I as plated, II chromate, III phosphate (from memory)."""
    amount = attribute_amount(clues, "class", _QQ_Z_325_UM)
    match clues.attribute("type"):
        case "1":
            decision = torn(AS_PLATED, zn_plain=0.7, zn_passivated_clear=0.3)
        case "3":
            decision = certain("zn-phosphate")
        case "2":
            decision = electroplated(Clues(clues.traits | {("chemistry", "chromate")}))
        case _:
            decision = electroplated(clues)
    return callout_of("zn", decision, CARBON_STEEL, amount)


def _zinc(clues: Clues) -> Callout:
    return callout_of("zn", electroplated(clues), CARBON_STEEL)


def _zinc_nickel(clues: Clues) -> Callout:
    return callout_of("znni", decide_zinc_nickel(Coat("znni"), clues), CARBON_STEEL)


def _low_embrittlement(_: Clues) -> Callout:
    return callout_of("znni", certain("znni-low-embrittlement"), CARBON_STEEL)


def _free_of_chromium_six(clues: Clues) -> Callout | None:
    """DIN 50979 covers Cr(VI)-free passivation only (from memory)."""
    if clues.kinds:
        return None
    return _zinc(Clues(clues.traits | {("chemistry", "cr3")}))


SPECS: dict[str, Spec] = {
    # AMS 2417G types (read in a reproduction): 1 as plated, 2 chromated, 3 phosphated; AMS 2461 from memory.
    "astmb633": Spec("ASTM B633", _b633),
    "qqz325": Spec("QQ-Z-325", _qq_z_325),
    "defstan03-20": Spec("DEF STAN 03-20", _zinc),
    "ams2402": Spec("AMS 2402", _zinc),
    "iso2081": Spec("ISO 2081", _zinc),
    "din50961": Spec("DIN 50961", _zinc),
    "jish8610": Spec("JIS H 8610", _zinc),
    "ams2417": Spec("AMS 2417", _zinc_nickel),
    "ams2461": Spec("AMS 2461", _low_embrittlement),
    "astmb841": Spec("ASTM B841", _zinc_nickel),
    "din50979": Spec("DIN 50979", _free_of_chromium_six),
    "astmb840": Spec("ASTM B840", lambda _: callout_of("znco", certain("znco"), CARBON_STEEL)),
    "astmb842": Spec("ASTM B842", lambda _: callout_of("znfe", certain("znfe"), CARBON_STEEL)),
    "ams2434": Spec("AMS 2434", lambda _: callout_of("snzn", certain("snzn"), CARBON_STEEL)),
    "astmf1941": Spec("ASTM F1941", lambda clues: None if clues.kinds else _zinc(clues)),
}

_F1941_COLOURS = {"a": "clear", "b": "blue", "c": "yellow", "d": "olive", "e": "black", "f": ""}
"""ASTM F1941 letters after the thickness, T for trivalent (read in a supplier table); N from memory."""


def _f1941(found: re.Match[str], _: Lexicon) -> Sense:
    colour = _F1941_COLOURS[found["colour"]]
    traits = {("colour", colour)} if colour else set()
    if found["free"]:
        traits.add(("chemistry", "cr3"))
    if found["seal"]:
        traits.add(("seal", "sealed"))
    decision = electroplated(Clues(frozenset(traits)))
    return Callout((coat_of("zn", decision, Amount(float(found["um"]))),), CARBON_STEEL)


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"fe[/ ]{1,2}zn[ -]?(?P<um>\d{1,2})[ -]?(?P<colour>[a-f])(?P<free>[nt])?(?P<seal>[ /]?t2)?",
        "fe/zn fezn fe zn",
        _f1941,
        "zinc code ASTM F1941",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("zn", "electroplated"),
        "zp, bzp, electro zinc, electrozinc, electroplated zinc, electro galvanized, electro galvanised, "
        "electrogalvanized, electrogalvanised, elektrolytisch verzinkt, galvanisch verzinkt, "
        "galv verz, galvanisch verz, gal verz, galv vz, gal vz, gvz, galv verzinkt, gal verzinkt, "
        "galvanische verzinkung, glanzverzinkt, galv zn, gal zn, "
        "galvanisch zn, electrozingue, electro zingue, zingage electrolytique, zingue electrolytique, "
        "zinc electrolytique, zingage, zingue, zinguee, zinc electroplate, zinc electroplated, "
        "zinc electroplating",
    )
    | spelt(Several((Coat("zn", "electroplated"), Trait("colour", "yellow"))), "zyp, yzp")
    | spelt(
        Coat("zn", "galvanized"),
        "galvanized, galvanised, galvanize, galvanise, galv, galvd, galvan, galvanizing, galvanising, "
        "verzinkt, verz, vz, galva, gi, galvanisiert, verzinkung, gal",
    )
    | spelt(
        Coat("zn", "mechanical"),
        "mechanical zinc, mechanically zinc, mechanically plated zinc, mechanically galvanized, "
        "mechanically galvanised, mechanical galvanizing, mech zinc, mech galv, mech galvanized, "
        "mechanisch verzinkt, mechanical zinc plating, mechanically deposited zinc, zinc mechanically, "
        "zinc mechanical, zinc mech plated, mech plated zinc, zinc mech plate, mech zinc plated",
    )
    | spelt(
        Coat("znni"),
        "zinc nickel, zn ni, znni, zinc nickel alloy, zink nickel, zinknickel, zn nickel, "
        "alliage zinc nickel",
    )
    | spelt(
        Coat("znni", "low embrittlement"),
        "lhe zinc nickel, low hydrogen embrittlement zinc nickel, lhe znni, lhe zn ni, "
        "low embrittlement zinc nickel",
    )
    | spelt(Coat("znfe"), "zinc iron, zn fe, znfe, zinc iron alloy, zink eisen, zinc fer")
    | spelt(Coat("znco"), "zinc cobalt, zn co, znco, zinc cobalt alloy, zink kobalt")
    | spelt(Coat("snzn"), "tin zinc, sn zn, snzn, zinn zink")
)
