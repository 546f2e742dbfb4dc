"""Films on aluminium, magnesium and titanium: anodise (MIL-PRF-8625, ISO 7599, ELOX) and conversion."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import Decision, callout_of, certain, first_that_holds, torn
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Amount, Callout, Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

ALUMINIUM = "aluminium"
ANODISE = "Is the anodic film clear, dyed or hard (type and thickness)?"
CONVERSION = "Which conversion coat is it: class 1A or 3, hexavalent (Type I) or trivalent (Type II)?"

_COLOURLESS = frozenset({"", "clear"})
_THICKEST_CLASS_UM = 25.0
"""Last class of ISO 7599; hard films run to 50 um and more."""
_HARD_FROM_UM = 35.0


def decide_anodise(coat: Coat, clues: Clues) -> Decision:
    """Choose the anodic film by basis metal, process, type, colour and thickness."""
    colour, type_ = clues.trait("colour"), clues.attribute("type")
    is_dyed = colour not in _COLOURLESS or clues.attribute("class") == "2"
    is_hard = coat.process == "hard" or (type_ == "3" and coat.process not in _BY_PROCESS)
    rules: tuple[tuple[bool, Decision | str], ...] = (
        ("titanium" in clues.families or coat.process == "titanium", "ti-anodised"),
        ("magnesium" in clues.families or coat.process == "magnesium", "mg-anodise"),
        (coat.process in _BY_PROCESS, _BY_PROCESS.get(coat.process, "")),
        (is_hard and clues.has("filler", "ptfe"), "anod-iii-ptfe"),
        (is_hard, "anod-iii-hard"),
        (type_ in _BY_TYPE, _BY_TYPE.get(type_, "")),
        (is_dyed, "anod-ii-dyed"),
        (clues.has("seal", "none"), "anod-ii-unsealed"),
        (colour == "clear" or coat.process == "sulfuric" or type_ == "2", "anod-ii-clear"),
    )
    return first_that_holds(rules, _by_thickness(coat.amount))


_BY_PROCESS = {
    "chromic": "anod-i",
    "thin": "anod-iib",
    "boric": "anod-ic",
    "phosphoric": "anod-phosphoric",
    "plasma": "peo",
}
_BY_TYPE = {"1": "anod-i", "1b": "anod-i", "1c": "anod-ic", "2b": "anod-iib"}
"""MIL-A-8625F types: I and IB chromic, IC non-chromic, II sulfuric, IIB thin, III hard (read); class 2 is
dyed."""


def _by_thickness(amount: Amount | None) -> Decision:
    if amount is None:
        return torn(ANODISE, anod_ii_clear=0.6, anod_ii_dyed=0.2, anod_iii_hard=0.2)
    if amount.low_um >= _HARD_FROM_UM:
        return certain("anod-iii-hard", "a film this thick is taken as hard anodised")
    if amount.low_um > _THICKEST_CLASS_UM:
        return torn(ANODISE, anod_iii_hard=0.5, anod_ii_clear=0.5)
    return certain("anod-ii-clear", "no colour named: taken as clear sulfuric anodise")


def decide_conversion(coat: Coat, clues: Clues) -> Decision:
    """Choose the conversion coat by class, type, chemistry and colour."""
    if "magnesium" in clues.families or coat.process == "magnesium":
        return certain("mg-conversion-ncr" if clues.has("chemistry", "cr3") else "mg-chromate")
    if coat.process == "zirconium":
        return certain("zirconium-conversion")
    class_ = clues.attribute("class")
    is_trivalent = clues.attribute("type") == "2" or clues.has("chemistry", "cr3")
    is_hexavalent = (
        clues.attribute("type") == "1" or clues.has("chemistry", "cr6") or coat.process == "hexavalent"
    )
    colour = clues.trait("colour")
    if colour in {"yellow", "iridescent"} and not is_trivalent:
        is_hexavalent = True  # trivalent films are colourless to faintly blue (from memory)
    weights = {
        "chem_film_1a": (class_ in {"1a", ""}) and not is_trivalent,
        "tcp_1a": (class_ in {"1a", ""}) and not is_hexavalent,
        "chem_film_3": (class_ in {"3", ""}) and not is_trivalent,
        "tcp_3": (class_ in {"3", ""}) and not is_hexavalent,
    }
    names = [name for name, is_possible in weights.items() if is_possible]
    if not names:
        names = list(weights)
    if len(names) == 1:
        return certain(names[0].replace("_", "-"))
    return torn(CONVERSION, **{name: 1.0 / (rank + 2) for rank, name in enumerate(names)})


def _mil_8625(clues: Clues) -> Callout:
    return callout_of(
        "anodise",
        decide_anodise(Coat("anodise", "sulfuric" if clues.attribute("type") else ""), clues),
        ALUMINIUM,
    )


def _conversion(clues: Clues) -> Callout:
    return callout_of("chemfilm", decide_conversion(Coat("chemfilm"), clues), ALUMINIUM)


def _old_conversion(clues: Clues) -> Callout:
    """MIL-C-5541 knew the hexavalent type only."""
    traits = clues.traits if clues.has("chemistry", "cr3") else clues.traits | {("chemistry", "cr6")}
    return _conversion(Clues(traits, clues.attributes))


def _anodised(process: str) -> Spec:
    return Spec(
        f"{process} anodise",
        lambda clues: callout_of(
            "anodise", decide_anodise(Coat("anodise", process, clues.amount), clues), ALUMINIUM
        ),
    )


def _fixed(kind: str, finish: str, basis: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish), basis))


SPECS: dict[str, Spec] = {
    "mil8625": Spec("MIL-PRF-8625", _mil_8625),
    "iso7599": _anodised(""),
    "iso10074": _anodised("hard"),
    "bs5599": _anodised("hard"),
    "defstan03-24": _anodised("chromic"),
    "defstan03-25": _anodised("sulfuric"),
    "defstan03-26": _anodised("hard"),
    "ams2468": _anodised("hard"),
    "ams2469": _anodised("hard"),
    "ams2470": _anodised("chromic"),
    "ams2471": _fixed("anodise", "anod-ii-clear", ALUMINIUM),
    "ams2472": _fixed("anodise", "anod-ii-dyed", ALUMINIUM),
    "ams2482": _fixed("anodise", "anod-iii-ptfe", ALUMINIUM),
    "astmb580": _anodised(""),
    "din17611": _anodised(""),
    "bs1615": _anodised(""),
    "astmd3933": _fixed("anodise", "anod-phosphoric", ALUMINIUM),
    "ams2487": _fixed("anodise", "ti-anodised", "titanium"),
    "ams2488": _fixed("anodise", "ti-anodised", "titanium"),
    "astmb893": _fixed("anodise", "mg-anodise", "magnesium"),
    "mil45202": _fixed("anodise", "mg-anodise", "magnesium"),
    "ams2466": _fixed("anodise", "peo", "magnesium"),
    "mil5541": Spec("MIL-DTL-5541", _conversion),
    "milc5541": Spec("MIL-C-5541", _old_conversion),
    "mil81706": Spec("MIL-DTL-81706", _conversion),
    "ams2473": Spec("AMS 2473", _old_conversion),
    "ams2474": Spec("AMS 2474", _old_conversion),
    "ams2477": Spec("AMS 2477", _old_conversion),
    "iso10546": Spec("ISO 10546", _old_conversion),
    "astmb449": Spec("ASTM B449", _old_conversion),
    "mil3171": _fixed("chemfilm", "mg-chromate", "magnesium"),
    "ams2475": _fixed("chemfilm", "mg-chromate", "magnesium"),
    "mil83488": Spec("MIL-DTL-83488", lambda _: callout_of("al", certain("ivd-al"))),
    "ams2427": Spec("AMS 2427", lambda _: callout_of("al", certain("ivd-al"))),
}
"""What the AMS, BS and DIN documents cover, from memory; MIL-DTL-5541F and -8625F read."""


def _iso_class(found: re.Match[str], _: Lexicon) -> Sense:
    """AA15: average thickness 15 um (ISO 7599)."""
    amount = Amount(float(found["um"]))
    return Callout((Coat("anodise", amount=amount),), ALUMINIUM)


def _surface_code(found: re.Match[str], _: Lexicon) -> Sense:
    """E0-E8 pretreatment, EV1 or C0 natural, other numbers coloured (DIN 17611 style; from memory)."""
    is_natural = (found["elox"] or "1") == "1" and (found["colour"] or "0").strip("-") in {"0", "00"}
    return callout_of("anodise", certain("anod-ii-clear" if is_natural else "anod-ii-dyed"), ALUMINIUM)


PATTERNS: tuple[Pattern, ...] = (
    pattern(r"aa ?-?(?P<um>5|10|15|20|25)", "aa", _iso_class, "anodic thickness class ISO 7599"),
    pattern(
        r"(?:elox(?:al|iert)?[ -]{0,2})?e ?[0-8](?:[ /-]{0,2}(?:ev ?(?P<elox>\d{1,2})|c ?-?(?P<colour>0|"
        r"3[1-7]|\d{1,2})))",
        "ev c",
        _surface_code,
        "anodising surface code",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("anodise"),
        "alumite, anodised, anodized, anodise, anodize, anodising, anodizing, anod, anodizd, anodic, "
        "eloxiert, eloxal, elox, eloxieren, eloxalschicht, anodisiert, anodisch oxidiert, anodisation, "
        "anodisee, anodic coating, anodic film, anodic oxidation, oxydation anodique, "
        "oxydation anodique oac, oac, oas, anodic treatment, anodizing finish, ano, anodoxid, "
        "anodize finish, anodising finish",
    )
    | spelt(
        Coat("anodise", "hard"),
        "hard anodised, hard anodized, hard anodise, hard anodize, hardanodised, hardanodized, "
        "hard anodising, hard anodizing, hard coat anodize, hardcoat anodize, hard coat anodized, "
        "hardcoat anodized, hard anodic, hardcoat, hard coat, hartanodisiert, harteloxiert, "
        "hart eloxiert, harteloxal, hartcoatiert, hart coat, hartcoat, anodise dur, anodisation dure, "
        "oad, oxydation anodique dure, hard black anodize, hard black anodized, hard ano, hard anod, "
        "hae, anodize hard, anodized hard, hard clear anodize, hardcoat anodise, anodise hard, "
        "hard coat anodise, hard anodic coating, hard anodize black, hard anodized black, thick anodize",
    )
    | spelt(
        Coat("anodise", "sulfuric"),
        "sulfuric anodize, sulfuric anodise, sulphuric anodise, sulfuric acid anodize, "
        "sulphuric acid anodise, sulfuric acid anodized, sulphuric acid anodised, saa, "
        "sulfuric anodized, sulphuric anodised",
    )
    | spelt(
        Coat("anodise", "chromic"),
        "chromic anodize, chromic anodise, chromic acid anodize, chromic acid anodise, "
        "chromic acid anodized, chromic acid anodised, caa, chromic anodized, anodise chromique, "
        "chromsaeureanodisiert",
    )
    | spelt(
        Coat("anodise", "boric"),
        "boric sulfuric anodize, boric sulfuric acid anodize, bsaa, tartaric sulfuric anodize, "
        "tartaric sulfuric acid anodise, tartaric sulphuric anodise, "
        "thin film sulfuric tartaric anodise",
    )
    | spelt(
        Coat("anodise", "phosphoric"),
        "phosphoric anodize, phosphoric acid anodize, phosphoric acid anodise, paa",
    )
    | spelt(
        Coat("anodise", "plasma"),
        "plasma electrolytic oxidation, peo, micro arc oxidation, mao, keronite, plasma anodised, "
        "plasma keramik, anodisch plasmachemisch",
    )
    | spelt(
        Coat("anodise", "titanium"),
        "titanium anodize, titanium anodised, anodized titanium type 2, tiodize, color anodized titanium",
    )
    | spelt(Coat("anodise", "magnesium"), "hae anodize, hae, dow 17, tagnite, magoxid, anomag")
    | spelt(Coat("chemfilm", "magnesium"), "dow 1, dow 7, dow 9, dow 19, dow 20, dow 22, dow 23")
    | spelt(
        Coat("chemfilm"),
        "chem film, chemfilm, chem filmed, chemical film, chemical conversion coating, "
        "chemical conversion coat, chemical conversion, conversion coating, conversion coat, "
        "conversion coated, chromate conversion, chromate conversion coating, chromate conversion coat, "
        "chromate film, chem conv coat, chem conversion coat, alodine, alodined, alodyne, iridite, "
        "irridite, yellow iridite, alochrom, bonderite, konversionsschicht, chemical conv coating, "
        "chem conversion, alochrome, alodized, chromate conv, conversion chromique, conversion chimique, "
        "chem conv, chem con, chromated aluminium, chem flim, chromate conversion coated, "
        "alodine coating, alocrom",
    )
    | spelt(
        Coat("chemfilm", "hexavalent"),
        "alodine 1200, alodine 1200s, alodine 1000, iridite 14 2, iridite 14, alocrom 1200, "
        "alocrom 1000, surtec 651, bonderite m cr 1200, bonderite m cr 1200s, alochrom 1200, "
        "yellow chromate conversion, iridite 14 2 gold",
    )
    | spelt(
        Coat("chemfilm", "zirconium"),
        "zirconium conversion, titanium zirconium conversion, zr conversion, ti zr conversion, "
        "bonderite nt, zirconium pretreatment",
    )
    | spelt(
        Coat("al", "ivd"),
        "ivd aluminium, ivd aluminum, ion vapor deposited aluminum, ion vapour deposited aluminium, "
        "ivadize, ivadized, ivd al, ion vapor deposition aluminum",
    )
    | spelt(
        Coat("al", "electroplated"),
        "electroplated aluminium, electroplated aluminum, alumiplate, galvanisch aluminium, "
        "aluminium plated, aluminum plated",
    )
)
