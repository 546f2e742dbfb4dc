"""Nickel: electrolytic and electroless, ASTM B689 and B733, QQ-N-290, AMS 2403 and 2404, MIL-C-26074."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, attribute_amount, callout_of, certain, torn
from service.callouts.marks import Amount, Callout, Clues, Coat, Sense, Spec, Trait
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

PHOSPHORUS = "How much phosphorus does the electroless nickel hold (low 2-4, medium 5-9, high over 10 %)?"
ELECTROLESS = "Is the nickel electrolytic or electroless?"
_NOT_PLATED_DIRECTLY = frozenset({"wrought aluminium", "cast aluminium", "magnesium"})


def decide_nickel(coat: Coat, clues: Clues) -> Decision:
    """Choose the electrolytic nickel; on aluminium and magnesium electroless is as likely."""
    if clues.has("nickel", "duplex"):
        return certain("ni-duplex")
    if clues.has("nickel", "electroless"):
        return decide_electroless(coat, clues)
    if coat.process == "sulfamate":
        return certain("ni-sulfamate")
    is_bright = clues.has("gloss", "bright", "semi-bright", "matte")
    if clues.families & _NOT_PLATED_DIRECTLY and coat.process != "electrolytic" and not is_bright:
        return torn(ELECTROLESS, ni_electro=0.5, en_mid=0.5)
    return certain("ni-electro")


def decide_electroless(coat: Coat, clues: Clues) -> Decision:
    """Choose the electroless nickel by its phosphorus, boron or particles."""
    if coat.process == "boron":
        return certain("chem-ni-b")
    if clues.has("filler", "ptfe"):
        return certain("en-ptfe")
    by_content = {"low": "en-low", "mid": "en-mid", "high": "en-high"}
    content = clues.trait("phosphorus")
    if content in by_content:
        return certain(by_content[content])
    return torn(PHOSPHORUS, en_mid=0.6, en_high=0.25, en_low=0.15)


_LOW_BELOW_PCT = 4.5
_HIGH_FROM_PCT = 10.0


def phosphorus_class(per_cent: float) -> str:
    """Name the class of a phosphorus content (ASTM B733 Types III, IV, V)."""
    if per_cent < _LOW_BELOW_PCT:
        return "low"
    return "high" if per_cent >= _HIGH_FROM_PCT else "mid"


_B733_UM = {"1": 5.0, "2": 13.0, "3": 25.0, "4": 75.0}
"""ASTM B733 service conditions SC1 to SC4 (read in a web reproduction)."""
_B733_TYPES = {"2": "en-low", "3": "en-low", "4": "en-mid", "5": "en-high"}
"""ASTM B733 types: II 1-3 %, III 2-4 %, IV 5-9 %, V over 10 % P (read in a web reproduction)."""
_26074_UM = {"a": 25.4, "b": 12.7, "c": 38.1}
"""MIL-C-26074E 1.2.2: grades A 0.0010, B 0.0005, C 0.0015 in (read in a reproduction)."""
_QQ_N_290_UM = {"a": 40.6, "b": 30.5, "c": 25.4, "d": 20.3, "e": 15.2, "f": 10.2, "g": 5.1}
"""QQ-N-290A 1.2.2: grades A to G of class 1, 0.0016 to 0.0002 in (read in a reproduction)."""


def _b733(clues: Clues) -> Callout:
    amount = attribute_amount(clues, "condition", _B733_UM)
    finish = _B733_TYPES.get(clues.attribute("type"))
    decision = certain(finish) if finish else decide_electroless(Coat("en"), clues)
    return callout_of("en", decision, "", amount)


def _electroless(clues: Clues) -> Callout:
    amount = attribute_amount(clues, "grade", _26074_UM)
    return callout_of("en", decide_electroless(Coat("en"), clues), "", amount)


def _b689(clues: Clues) -> Callout:
    """ASTM B689 engineering nickel, classes in micrometres (from memory)."""
    number = clues.attribute("class")
    amount = Amount(float(number)) if number.isdigit() and int(number) > 0 else None
    return callout_of(
        "ni", torn("Which bath is the nickel from?", ni_electro=0.6, ni_sulfamate=0.4), "", amount
    )


def _qq_n_290(clues: Clues) -> Callout:
    return callout_of("ni", certain("ni-electro"), "", attribute_amount(clues, "grade", _QQ_N_290_UM))


def _decorative(clues: Clues) -> Callout | None:
    """ISO 1456 covers nickel alone and nickel beneath chromium."""
    if clues.kinds:
        return None
    return callout_of("ni", torn("Is there chromium on the nickel?", ni_electro=0.5, cr_decorative=0.5))


def _unless_electroless(clues: Clues) -> Callout | None:
    return None if clues.kinds & {"en", "cr"} else callout_of("ni", certain("ni-electro"))


SPECS: dict[str, Spec] = {
    "astmb733": Spec("ASTM B733", _b733),
    "ams2404": Spec("AMS 2404", _electroless),
    "ams2405": Spec("AMS 2405", lambda _: callout_of("en", certain("en-low"))),
    "mil26074": Spec("MIL-C-26074", _electroless),
    "iso4527": Spec("ISO 4527", lambda clues: None if clues.kinds else _electroless(clues)),
    "ams2433": Spec("AMS 2433", lambda _: callout_of("en", certain("chem-ni-b"))),
    "astmb689": Spec("ASTM B689", _b689),
    "qqn290": Spec("QQ-N-290", _qq_n_290),
    "ams2403": Spec("AMS 2403", lambda _: callout_of("ni", certain("ni-electro"))),
    "ams2424": Spec("AMS 2424", lambda _: callout_of("ni", certain("ni-sulfamate"))),
    "mil27418": Spec("MIL-P-27418", lambda _: callout_of("ni", certain("ni-sulfamate"))),
    "iso1456": Spec("ISO 1456", _decorative),
    "iso4526": Spec("ISO 4526", _unless_electroless),
}

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Trait("nickel", "electroless"),
        "electroless, chemisch, chem, stromlos, aussenstromlos, autocatalytic, autokatalytisch, "
        "chimique, autocatalytique",
    )
    | spelt(
        Coat("ni", "electrolytic"),
        "electrolytic nickel, galvanisch nickel, electroplated nickel, electro nickel, "
        "nickel electrolytique, galvanisch vernickelt, galv vernickelt, watts nickel",
    )
    | spelt(
        Coat("ni"),
        "vernickelt, vernickelung, vern, nickele, nickelee, nickelage, glanzvernickelt, mattvernickelt, "
        "nickelplated, nickelplattiert",
    )
    | spelt(
        Coat("ni", "sulfamate"),
        "sulfamate nickel, sulphamate nickel, nickel sulfamate, nickel sulphamate, sulfamatnickel, "
        "ductile nickel",
    )
    | spelt(
        Coat("ni", is_under=True),
        "nickel underplate, nickel underplating, nickel undercoat, nickel barrier, nickel strike, "
        "nickel under plate, ni underplate, ni barrier, ni strike, nickel underlayer, "
        "nickelsperrschicht, sperrschicht nickel, unternickel, unterschicht nickel, ni sperrschicht, "
        "sous couche nickel, sous couche de nickel, nickel flash, ni flash, ni undercoat, "
        "ni underplating, woods nickel strike, nickel base plate, nickel undercoating, ni under, "
        "nickel under, ni sublayer, sous couche ni",
    )
    | spelt(
        Coat("en"),
        "electroless nickel, electroless ni, electro less nickel, elec nickel, "
        "electroless nickel phosphorus, chemical nickel, chem nickel, chem ni, chemisch nickel, "
        "chemisch vernickelt, chem vernickelt, stromlos vernickelt, stromlos nickel, chemischnickel, "
        "nickel chimique, nickelage chimique, nickele chimique, nickele chimiquement, nip, ni p, "
        "nickel phosphorus, nickel phosphor, chemisch ni, electroless nickle, e nickel, e less nickel, "
        "chem nickel plated, autocatalytic nickel, enp, nickel electroless, ni electroless, kanigen, "
        "durnicoat",
    )
    | spelt(Coat("en", "boron"), "electroless nickel boron, nickel boron, ni b, nib, chemisch nickel bor")
)
