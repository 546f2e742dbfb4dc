"""Films on steel, stainless and copper: black oxide, phosphate, passivation, electropolish, nitriding."""

from __future__ import annotations

import re

from service.callouts.finishes.aluminium_films import decide_conversion
from service.callouts.finishes.decision import Decision, callout_of, certain, torn
from service.callouts.finishes.zinc import CARBON_STEEL
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Callout, Clues, Coat, Sense, Several, Spec, Trait
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

STAINLESS = "stainless steel"
COPPERS = frozenset({"copper", "beryllium copper", "brass", "bronze", "nickel silver", "copper-nickel"})
ALUMINIUMS = frozenset({"wrought aluminium", "cast aluminium"})
CRYSTALS = "Which phosphate is it: zinc, manganese or iron?"
BASIS = "Which metal is the part made of?"


_STAINLESS_CLASSES = frozenset({"2", "3", "4"})
"""MIL-DTL-13924D 1.2: class 1 for carbon and low-alloy steel, 2 to 4 for stainless (read)."""


def decide_black_oxide(_coat: Coat, clues: Clues) -> Decision:
    """Black oxide is another film on steel, on stainless steel and on copper."""
    if clues.families and clues.families <= COPPERS:
        return certain("cu-black-oxide")
    if clues.families == {STAINLESS} or clues.attribute("class") in _STAINLESS_CLASSES:
        return certain("black-oxide-stainless")
    return certain("black-oxide-steel")


def decide_phosphate(coat: Coat, clues: Clues) -> Decision:
    """Choose the phosphate by its metal."""
    named = coat.process or {"m": "manganese", "z": "zinc"}.get(clues.attribute("type"), "")
    by_metal = {"zinc": "phosphate-zn", "manganese": "phosphate-mn", "iron": "phosphate-fe"}
    if named in by_metal:
        return certain(by_metal[named])
    return torn(CRYSTALS, phosphate_zn=0.6, phosphate_mn=0.3, phosphate_fe=0.1)


def decide_passivation(_coat: Coat, clues: Clues) -> Decision:
    """Passivation without another coat: stainless steel, unless the basis says otherwise."""
    if clues.families and clues.families <= COPPERS:
        return certain("cu-passivated")
    if clues.families and clues.families <= ALUMINIUMS:
        if clues.has("chemistry", "cr3", "cr6"):
            return decide_conversion(Coat("chemfilm"), clues)
        return torn(
            "Which conversion coat is meant by passivation?",
            tcp_1a=0.4,
            chem_film_1a=0.4,
            zirconium_conversion=0.2,
        )
    return certain("ss-passivated")


def decide_chromate(_coat: Coat, clues: Clues) -> Decision:
    """A chromate without another coat: by the basis metal."""
    if clues.families and clues.families <= {"magnesium"}:
        return certain("mg-chromate")
    if clues.families and clues.families <= ALUMINIUMS:
        return decide_conversion(Coat("chemfilm"), clues)
    return torn(
        "Which chromate conversion coat is it, and on which metal?",
        chem_film_1a=0.5,
        chem_film_3=0.2,
        tcp_1a=0.3,
    )


def _passivate(clues: Clues) -> Callout:
    return callout_of("passivate", decide_passivation(Coat("passivate"), clues), STAINLESS)


def _a380(clues: Clues) -> Callout:
    decision = torn(
        "Is the stainless steel passivated or only cleaned and pickled?", ss_passivated=0.6, ss_pickled=0.4
    )
    return callout_of(
        "passivate", certain("ss-passivated") if "passivate" in clues.kinds else decision, STAINLESS
    )


def _electropolish(_: Clues) -> Callout:
    return callout_of("electropolish", certain("ss-electropolished"), STAINLESS)


def _black(clues: Clues) -> Callout:
    """MIL-DTL-13924: the class tells the basis metal."""
    decision = decide_black_oxide(Coat("blackoxide"), clues)
    basis = STAINLESS if decision.options[0].finish_id == "black-oxide-stainless" else CARBON_STEEL
    return callout_of("blackoxide", decision, basis)


def _phosphate(clues: Clues) -> Callout:
    """DOD-P-16232F 1.2: type M manganese, type Z zinc phosphate (read in a reproduction)."""
    return callout_of("phosphate", decide_phosphate(Coat("phosphate"), clues), CARBON_STEEL)


def _tt_c_490(clues: Clues) -> Callout:
    """TT-C-490 type I zinc, type II iron phosphate (from memory)."""
    finish = {"1": "phosphate-zn", "2": "phosphate-fe"}.get(clues.attribute("type"))
    return callout_of(
        "phosphate", certain(finish) if finish else decide_phosphate(Coat("phosphate"), clues), CARBON_STEEL
    )


SPECS: dict[str, Spec] = {
    **dict.fromkeys(
        ("astma967", "ams2700", "qqp35", "en2516", "astmf86", "iso16048"),
        Spec("passivation", _passivate),
    ),
    "astma380": Spec("ASTM A380", _a380),
    "astmb912": Spec("ASTM B912", _electropolish),
    "iso15730": Spec("ISO 15730", _electropolish),
    **dict.fromkeys(("mil13924", "ams2485", "din50938", "iso11408"), Spec("black oxide", _black)),
    "mil495": Spec("MIL-F-495", lambda _: callout_of("blackoxide", certain("cu-black-oxide"), "copper")),
    **dict.fromkeys(("mil16232", "iso9717", "en12476", "ams2480", "ams2481"), Spec("phosphate", _phosphate)),
    "ttc490": Spec("TT-C-490", _tt_c_490),
    **dict.fromkeys(
        ("ams2753", "ams2759"),
        Spec("nitrocarburising", lambda _: callout_of("nitride", certain("nitrocarburised"), CARBON_STEEL)),
    ),
}

_STAINLESS_NAMED = re.compile(r"(?<![^\W_])(?:s/?s|sst|cres|stainless|inox|[34]\d\dl?|17-4|a[24])(?![^\W_])")


def _short(found: re.Match[str], _: Lexicon) -> Sense | None:
    return Coat("passivate") if mentions(_STAINLESS_NAMED, found.string) else None


PATTERNS: tuple[Pattern, ...] = (pattern(r"pass(?=\.?(?:$|[,;/)]))", "pas", _short, "passivated, in short"),)
PHRASES: dict[str, Sense] = (
    spelt(
        Coat("passivate"),
        "passiv, passivated, passivate, passivation, passiviert, passivierung, passivieren, passive, "
        "passivee, passiv, passivized, passivised, passivating",
    )
    | spelt(
        Coat("passivate"),
        "pickled and passivated, pickled passivated, pickle and passivate, gebeizt und passiviert, "
        "gebeizt passiviert, decape passive, decape et passive, beizen und passivieren, "
        "decapage passivation, gebeizt u passiviert, pickled and passivate",
    )
    | spelt(Coat("pickle"), "pickled, gebeizt, decape, pickling, gebeizt und gefettet")
    | spelt(
        Coat("electropolish"),
        "electropolished, electropolish, electro polished, electro polish, elektropoliert, electropoli, "
        "electropolissage, e polished, electropolie, elektrolytisch poliert, electropolishing",
    )
    | spelt(
        Coat("blackoxide"),
        "black oxide, black oxided, blk oxide, blk ox, black ox, blackoxide, blackened, blackening, "
        "brueniert, bruniert, bruenieren, bruenierung, bruni, brunie, brunissage, bronze noir, "
        "black oxidized, black oxidised, hot blackened, gun blue, gun blued, blued, schwarzoxidiert, "
        "schwarz brueniert, schwarzbrueniert, noirci, chemically blackened, chemical black, oxyde noir, "
        "black oxide finish, ox black, black oxide coated, black oxide coating, blackodize, bk oxide, "
        "geschwaerzt, black oxyde, oxide black, ebonol, ebonol c, thermal black, black oxd, blkox",
    )
    | spelt(
        Coat("phosphate"),
        "phosphated, phosphate, phosphating, phosphatiert, phosphatierung, phosphat, phosphatation, "
        "phosphatee, parkerized, parkerised, bonderized, bonderised, phosphate coated, "
        "parkerizing, parkerising, parkerisation, bonderizing, bonderising, "
        "phosphate and oil, phosphate oil, phos and oil, phosphate oiled, phos oil, "
        "phosphatiert und geoelt, phr, phosphate coat, bondered",
    )
    | spelt(
        Coat("phosphate", "zinc"),
        "zinc phosphate, zinc phosphated, zn phosphate, zn phosphated, zinkphosphatiert, zinkphosphat, "
        "phosphate de zinc, znph, zinc phosphate and oil, phosphate au zinc, zinc phosphating",
    )
    | spelt(
        Coat("phosphate", "manganese"),
        "manganese phosphate, manganese phosphated, mn phosphate, manganphosphatiert, manganphosphat, "
        "phosphate de manganese, mnph, mn phosphated, mangan phosphatiert, phosphate manganese",
    )
    | spelt(
        Coat("phosphate", "iron"),
        "iron phosphate, iron phosphated, eisenphosphatiert, eisenphosphat, phosphate de fer, "
        "fe phosphate, feph",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "yellow"))),
        "gelbchromatiert, gelb chromatiert, chromate jaune, yellow chromated",
    )
    | spelt(
        Coat("chromate"),
        "chromated, chromate, chromating, chromatiert, chromatierung, chromatation, chromatee, chromat",
    )
    | spelt(
        Coat("nitride"),
        "nitrocarburised and oxidised, nitrocarburized and oxidized, nitrocarburized, nitrocarburised, "
        "nitrocarburiert, nitrided, nitriert, nitrure, salt bath nitrided, tenifer, qpq, tufftride, "
        "tufftrided, ferritic nitrocarburized, fnc, gasnitriert, gas nitrided, badnitriert, nitriding, "
        "nitration, nitrocarburation, plasma nitrided, plasmanitriert, melonite, nitrox",
    )
    | spelt(
        Coat("pvd"),
        "pvd, titanium nitride, pvd coated, crn, chromium nitride, ticn, titan nitrid, titannitrid, "
        "nitrure de titane, pvd coating, tialn",
    )
    | spelt(Coat("dlc"), "dlc, diamond like carbon, dlc coated, diamond like")
    | spelt(
        Coat("hvof"),
        "hvof, tungsten carbide coated, tungsten carbide coating, wc co coating, "
        "wolframkarbid beschichtet, wc coated, hvof wc",
    )
)
