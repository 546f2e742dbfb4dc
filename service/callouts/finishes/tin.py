"""Tin, tin alloys and lead: ASTM B545, ISO 2093, MIL-T-10727, AMS 2408, tinned wire."""

from __future__ import annotations

from service.callouts.finishes.decision import (
    Decision,
    attribute_amount,
    callout_of,
    certain,
    first_that_holds,
    torn,
)
from service.callouts.marks import Amount, Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

GLOSS = "Is the tin matte, bright or reflowed?"
_OPEN = torn(GLOSS, sn_matte=0.6, sn_bright=0.3, sn_reflow=0.1)
_WIRE = torn("Is the wire dipped or plated with tin?", lead_free_hotdip_sn=0.6, sn_matte=0.4)
_ALUMINIUM = frozenset({"wrought aluminium", "cast aluminium"})


def decide_tin(coat: Coat, clues: Clues) -> Decision:
    """Choose the tin finish by process, gloss, and what lies beneath."""
    is_glossed = clues.has("gloss", "matte", "bright")
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (coat.process in _BY_PROCESS, _BY_PROCESS.get(coat.process, "")),
        (clues.has("tin", "reflow"), "sn-reflow"),
        (bool(clues.families & _ALUMINIUM), "sn-over-cu-al"),
        (bool(clues.kinds & {"ni", "en"}), "sn-over-ni"),
        (clues.has("form", "wire") and not is_glossed, _WIRE),
        (clues.has("gloss", "bright", "semi-bright"), "sn-bright"),
        (clues.has("gloss", "matte", "satin"), "sn-matte"),
    )
    return first_that_holds(rules, _OPEN)


_BY_PROCESS = {
    "hot-dip": "sn-hotdip",
    "immersion": "imm-sn",
    "reflow": "sn-reflow",
    "wire": "lead-free-hotdip-sn",
}

_B545_UM = {"a": 2.5, "b": 5.0, "c": 8.0, "d": 15.0, "e": 20.0, "f": 30.0}
"""ASTM B545 classes (read in a web reproduction)."""


def _b545(clues: Clues) -> Callout:
    amount = attribute_amount(clues, "class", _B545_UM)
    return callout_of("sn", decide_tin(Coat("sn"), clues), "", amount)


def _mil_t_10727(clues: Clues) -> Callout:
    """MIL-T-10727 Type I electroplated, Type II hot-dipped (from memory)."""
    process = "hot-dip" if clues.attribute("type") == "2" else ""
    return callout_of("sn", decide_tin(Coat("sn", process), clues))


def _tin(clues: Clues) -> Callout | None:
    return None if clues.kinds else callout_of("sn", decide_tin(Coat("sn"), clues))


def _fixed(kind: str, finish: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish)))


SPECS: dict[str, Spec] = {
    "astmb545": Spec("ASTM B545", _b545),
    "iso2093": Spec("ISO 2093", _tin),
    "ams2408": Spec("AMS 2408", lambda clues: callout_of("sn", decide_tin(Coat("sn"), clues))),
    "mil10727": Spec("MIL-T-10727", _mil_t_10727),
    "astmb33": _fixed("sn", "lead-free-hotdip-sn"),
    "en13148": _fixed("sn", "sn-hotdip"),
    "mil81728": _fixed("snpb", "snpb-plate"),
    "astmb579": _fixed("snpb", "snpb-plate"),
    "astmb605": _fixed("snni", "sn-ni-plate"),
    "iso2179": _fixed("snni", "sn-ni-plate"),
    "astmb200": _fixed("pb", "pb-plate"),
    "ams2414": _fixed("pb", "pb-plate"),
}

PATTERNS: tuple[Pattern, ...] = ()
_TINPLATE = Callout((Coat("sn", amount=Amount(0.4), options=certain("sn-reflow").options),), "carbon steel")
"""Tinplate is thin reflowed electrolytic tin on steel sheet, some 0.4 um (from memory)."""

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("sn"),
        "tinned, verzinnt, verzinnung, etame, etamee, etamage, tin pl, galv verzinnt, "
        "galvanisch verzinnt, tinplated, vzn, zn verzinnt, verz sn, electro tin, electrotinned, "
        "etain electrolytique",
    )
    | spelt(
        Coat("brass"),
        "brass plated, brass plate, brass plating, brass pl, vermessingt, laitonne, brass electroplated, "
        "brass coated",
    )
    | spelt(
        Coat("whitebronze"),
        "white bronze, weissbronze, white bronze plated, bronze blanc, tri metal, cusnzn, miralloy, "
        "copper tin zinc",
    )
    | spelt(Coat("cu"), "verkupfert, verkupferung, cuivrage, copper flash, copper plate, copper flashed")
    | spelt(
        Coat("cu", is_under=True),
        "copper strike, copper underplate, copper undercoat, cu strike, cu underplate, "
        "kupferunterschicht, sous couche cuivre, unterkupfer",
    )
    | spelt(
        Coat("sn", "hot-dip"),
        "hot tin dip, hot tin dipped, hot dip tin, hot dip tinned, hot dipped tin, hot dipped tinned, "
        "feuerverzinnt, etame a chaud, tin dipped, solder dipped tin, hot tinned, tauchverzinnt",
    )
    | spelt(
        Coat("sn", "wire"),
        "",
    )
    | spelt(
        Coat("sn", "immersion"),
        "immersion tin, imm tin, immersion sn, imm sn, imsn, isn, chemisch zinn, chem zinn, chem sn, "
        "etain chimique, immersion white tin, chemical tin, electroless tin",
    )
    | spelt(
        Coat("sn", "reflow"),
        "reflowed tin, reflow tin, tin reflow, tin reflowed, fused tin, tin fused, aufgeschmolzen, "
        "flow melted tin, umgeschmolzen, tin reflow plated",
    )
    | spelt(_TINPLATE, "tinplate, weissblech, fer blanc, electrolytic tinplate, etp tinplate, spte")
    | spelt(
        Coat("snpb"),
        "tin lead, sn pb, snpb, tinlead, zinn blei, etain plomb, solder plate, solder plated, "
        "sn pb plated, 60 40 tin lead, 90 10 tin lead, snpb plated, solder coated, lead tin, pb sn, "
        "solder dip, solder dipped, snpb solder dipped",
    )
    | spelt(Coat("sncu"), "tin copper, sn cu, sncu plated, tin copper plated")
    | spelt(Coat("snag"), "tin silver, sn ag plated, snag plated, tin silver plated, sn ag")
    | spelt(Coat("snbi"), "tin bismuth, sn bi, snbi, snbi plated, tin bismuth plated")
    | spelt(Coat("snni"), "tin nickel, sn ni alloy, snni, tin nickel alloy")
    | spelt(
        Coat("pb"),
        "lead plated, lead plate, lead plating, verbleit, plombe, lead coated, terne, terne coated, "
        "terne plate",
    )
)
