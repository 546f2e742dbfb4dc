"""Gold, palladium, rhodium, ruthenium, platinum: ASTM B488, MIL-DTL-45204, ISO 27874, stacks."""

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

HARDNESS = "How thick and how hard is the gold (flash, hard, soft), and is nickel beneath?"
FLASH_UP_TO_UM = 0.25
"""ASTM B488 class 0.25 and below is taken as a flash (catalogue: au-flash-over-ni)."""
_THICK_FROM_UM = 2.6
_OPEN = torn(HARDNESS, au_hard_over_ni=0.6, au_flash_over_ni=0.2, au_soft=0.2)
_BARRIER_OPEN = torn(HARDNESS, au_hard_over_ni=0.7, au_soft=0.2, au_over_cu=0.1)
_STACK_OPEN = torn(
    "Is the nickel-palladium-gold stack a lead frame, a board or palladium-nickel with a gold flash?",
    ppf_nipdau=0.5,
    pd_ni=0.3,
    enepig=0.2,
)
_NICKEL = frozenset({"ni", "en"})


def decide_gold(coat: Coat, clues: Clues) -> Decision:
    """Choose the gold finish by thickness, hardness and underplate."""
    thickness = coat.amount.low_um if coat.amount else None
    is_thin = thickness is not None and thickness <= FLASH_UP_TO_UM
    is_over_palladium = bool(clues.kinds & {"pd", "pdni"}) and (thickness is None or is_thin)
    rules: tuple[tuple[bool, Decision | str], ...] = (
        (is_over_palladium, _palladium_stack(clues)),
        (coat.process == "soft" or clues.has("hardness", "soft"), "au-soft"),
        (coat.process == "flash" or is_thin, "au-flash-over-ni"),
        (coat.process == "hard" or clues.has("hardness", "hard"), "au-hard-over-ni"),
        (thickness is None or thickness >= _THICK_FROM_UM, _OPEN),
        (
            bool(clues.kinds & _NICKEL),
            certain("au-hard-over-ni", "hardness not named: taken as hard contact gold"),
        ),
    )
    return first_that_holds(rules, _BARRIER_OPEN)


def _palladium_stack(clues: Clues) -> Decision:
    if "pdni" in clues.kinds:
        return certain("pd-ni")
    return certain("enepig") if "en" in clues.kinds else _STACK_OPEN


_CLASS_UM = {"00": 0.508, "0": 0.762, "1": 1.27, "2": 2.54, "3": 5.08, "4": 7.62, "5": 12.7, "6": 38.1}
"""MIL-G-45204 classes, 20 to 1500 microinches (read in a plater's summary)."""
_HARD_CODES = frozenset({"b", "c", "d"})


def _by_knoop(letter: str, type_: str, amount: Amount | None, clues: Clues) -> Decision:
    """Code or grade A is at most 90 HK25, C 130 to 200 (read in a web reproduction for ASTM B488)."""
    if amount is not None and amount.low_um <= FLASH_UP_TO_UM:
        return certain("au-flash-over-ni")
    if letter in _HARD_CODES or type_ == "2":
        return certain("au-hard-over-ni")
    if letter == "a" or type_ == "3":
        return certain("au-soft")
    return decide_gold(Coat("au", amount=amount or clues.amount), clues)


def _b488(clues: Clues) -> Callout:
    text = clues.attribute("class")
    number = float(text) if text.replace(".", "", 1).isdigit() else 0.0
    amount = Amount(number) if number else None
    letter = clues.attribute("code") or clues.attribute("grade")
    decision = _by_knoop(letter, clues.attribute("type"), amount, clues)
    return callout_of("au", decision, "", amount)


def _mil_45204(clues: Clues) -> Callout:
    amount = attribute_amount(clues, "class", _CLASS_UM)
    decision = _by_knoop(clues.attribute("grade"), clues.attribute("type"), amount, clues)
    return callout_of("au", decision, "", amount)


def _gold(clues: Clues) -> Callout:
    return callout_of("au", decide_gold(Coat("au", amount=clues.amount), clues))


def _fixed(kind: str, finish: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish)))


SPECS: dict[str, Spec] = {
    "astmb488": Spec("ASTM B488", _b488),
    "mil45204": Spec("MIL-DTL-45204", _mil_45204),
    "iso27874": Spec("ISO 27874", lambda clues: None if clues.kinds else _gold(clues)),
    "iso4523": Spec("ISO 4523", lambda clues: None if clues.kinds else _gold(clues)),
    "ams2422": Spec("AMS 2422", _gold),
    "ams2425": Spec("AMS 2425", _gold),
    "astmb867": _fixed("pdni", "pd-ni"),
    "astmb679": _fixed("pd", "pd-electro"),
    "mil45209": _fixed("pd", "pd-electro"),
    "astmb634": _fixed("rh", "rh-electro"),
    "mil46085": _fixed("rh", "rh-electro"),
    "iso23160": _fixed("ru", "ru-electro"),
    "astmb1014": _fixed("pt", "pt-electro"),
    "mil23411": _fixed("in", "in-plate"),
}

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Coat("au"),
        "vergoldet, vergoldung, verg, dore, doree, dorure, galv vergoldet, galvanisch vergoldet, plaque or, "
        "plaquee or, goldbeschichtet, goldplated, or galvanique",
    )
    | spelt(
        Coat("au", "hard"),
        "hard gold, hartvergoldet, hartgold, acid gold, cobalt gold, cobalt hardened gold, or dur, "
        "hard au, au co, auco, aucofe, auni hard gold",
    )
    | spelt(
        Coat("au", "soft"),
        "soft gold, weichgold, pure gold, bondable gold, wire bondable gold, or mou, soft au, fine gold, "
        "feingold, bondgold, bonding gold",
    )
    | spelt(
        Coat("au", "flash"),
        "gold flash, flash gold, au flash, flash au, goldflash, hauchvergoldet, flash or, flash dore, "
        "gold flashed, selective gold flash, flash gold plated",
    )
    | spelt(
        Coat("pdni"),
        "palladium nickel, pd ni, pdni, palladium nickel alloy, gold flash palladium nickel, "
        "gold flashed palladium nickel",
    )
    | spelt(Coat("rh"), "rhodiert, rhodie")
)
