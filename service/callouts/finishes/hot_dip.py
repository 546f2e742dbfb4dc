"""Hot-dip, mechanical and sprayed zinc and aluminium: words, sheet designations, JIS sheet grades."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import callout_of, certain, torn
from service.callouts.finishes.zinc import CARBON_STEEL
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Amount, Callout, Clues, Coat, Sense, Several, Spec
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

_SHEET: dict[str, tuple[str, str, float]] = {
    "z": ("zn", "zn-hdg-sheet", 7.14),
    "zf": ("zn", "zn-galvanneal", 7.1),
    "za": ("znal", "galfan", 6.6),
    "az": ("alzn", "galvalume", 3.75),
    "zm": ("znmg", "zn-mg-al", 6.4),
    "as": ("alsi", "al-hotdip", 3.0),
    "g": ("zn", "zn-hdg-sheet", 7.14),
    "a": ("zn", "zn-galvanneal", 7.1),
    "gf": ("znal", "galfan", 6.6),
    "t1-": ("alsi", "al-hotdip", 3.0),
    "t2-": ("alsi", "al-hotdip", 3.0),
}
"""Kind, finish and density in g/cm3 for the letters of EN 10346 and of ASTM A653, A875 and A463.

Densities from memory. The mass is that of both sides together."""

GRAMS_PER_M2_IN_OUNCE_PER_FT2 = 305.152
"""28.349523 g on 0.09290304 m2 (exact definitions of ounce and foot)."""

_JAPANESE = {
    "sgcc": ("zn", "zn-hdg-sheet"),
    "sgcd": ("zn", "zn-hdg-sheet"),
    "sghc": ("zn", "zn-hdg-sheet"),
    "secc": ("zn", "zn-eg-sheet"),
    "secd": ("zn", "zn-eg-sheet"),
    "sece": ("zn", "zn-eg-sheet"),
    "sgac": ("zn", "zn-galvanneal"),
    "sglcc": ("alzn", "galvalume"),
    "sa1c": ("alsi", "al-hotdip"),
}
"""Sheet grades named by their coat (JIS G 3302, G 3313, G 3321, G 3314); from memory."""

_JAPANESE_BASE = {"sg": ("steel-dx51d", "steel-dc01"), "se": ("steel-dc01",), "sa": ("steel-dc01",)}
"""Steels of like composition under the coat (from memory)."""


def per_side_um(grams_per_m2: float, density_g_per_cm3: float) -> float:
    """Thickness of one side from the coating mass of both sides.

    Examples
    --------
    >>> per_side_um(275.0, 7.14)
    19.3
    """
    return float(f"{grams_per_m2 / 2.0 / density_g_per_cm3:.3g}")


_HEAVIEST_ALUMINIUM_G_PER_M2 = 300.0
_MAGNESIUM = "az80"
"""A wrought magnesium alloy as well as 80 g/m2 of aluminium-zinc."""


def _metric(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Grams on both sides of a square metre; Z410 without the plus sign is a zinc die-casting alloy."""
    is_free = found.string[found.start() - 1 : found.start()] != "+"
    if is_free and (lexicon.alloy(found.group()) or found.group() == _MAGNESIUM):
        return None
    if found["letter"] == "as" and float(found["mass"]) > _HEAVIEST_ALUMINIUM_G_PER_M2:
        return None  # AS568 is a table of O-ring sizes
    kind, finish, density = _SHEET[found["letter"]]
    amount = Amount(per_side_um(float(found["mass"]), density))
    return callout_of(kind, certain(finish), CARBON_STEEL, amount)


def _ounces(found: re.Match[str], _: Lexicon) -> Sense | None:
    """Hundredths of an ounce per square foot; A60 is a galvannealed sheet only beside such words."""
    if found["letter"] == "a" and not any(word in found.string for word in ("galv", "653")):
        return None
    kind, finish, density = _SHEET[found["letter"] or found["alloyed"]]
    grams = float(found["mass"] or found["ounces"]) / 100.0 * GRAMS_PER_M2_IN_OUNCE_PER_FT2
    return callout_of(kind, certain(finish), CARBON_STEEL, Amount(per_side_um(grams, density)))


def _electro_sheet(found: re.Match[str], _: Lexicon) -> Sense:
    """ZE25/25: tenths of a micrometre a side (EN 10152); E16: grams a side (JIS G 3313). From memory."""
    if found["tenths"]:
        amount = Amount(float(found["tenths"]) / 10.0)
    else:
        amount = Amount(per_side_um(2.0 * float(found["grams"]), _SHEET["z"][2]))
    return callout_of("zn", certain("zn-eg-sheet"), CARBON_STEEL, amount)


def _japanese_sheet(found: re.Match[str], lexicon: Lexicon) -> Sense:
    kind, finish = _JAPANESE[found["grade"]]
    callout = callout_of(kind, certain(finish), CARBON_STEEL)
    relatives = lexicon.held(*_JAPANESE_BASE[found["grade"][:2]])
    if not relatives:
        return callout
    name = lexicon.catalogue.materials[relatives[0]].name
    question = f"{found['grade'].upper()} is not listed: may {name} stand for its steel?"
    return Several((Alloy(relatives, CARBON_STEEL, question=question), callout))


def _a653(_: re.Match[str], lexicon: Lexicon) -> Sense:
    """ASTM A653 sheet is hot-dip coated with zinc (G) or zinc-iron (A)."""
    name = "Which steel and which coat of ASTM A653 is it?"
    base = Alloy(lexicon.held("steel-1008", "steel-dx51d"), CARBON_STEEL, question=name)
    return Several((base, callout_of("zn", torn(name, zn_hdg_sheet=0.8, zn_galvanneal=0.2), CARBON_STEEL)))


def _batch(_: Clues) -> Callout:
    return callout_of("zn", certain("zn-hdg"), CARBON_STEEL)


def _mechanical(clues: Clues) -> Callout:
    """ASTM B695 classes are the least thickness in micrometres (from memory)."""
    number = clues.attribute("class")
    amount = Amount(float(number)) if number.isdigit() and int(number) > 4 else None  # noqa: PLR2004
    return callout_of("zn", certain("zn-mechanical"), CARBON_STEEL, amount)


def _unless_named(kind: str, finish: str) -> Spec:
    """A specification that covers many coats: it decides only where no coat is named."""

    def read(clues: Clues) -> Callout | None:
        return None if clues.kinds else callout_of(kind, certain(finish), CARBON_STEEL)

    return Spec(finish, read)


def _always(kind: str, finish: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish), CARBON_STEEL))


SPECS: dict[str, Spec] = {
    **dict.fromkeys(
        ("iso1461", "astma123", "astma153", "astmf2329", "iso10684", "jish8641"), Spec("hot-dip", _batch)
    ),
    **dict.fromkeys(("astma924", "en10346", "jisg3302"), _unless_named("zn", "zn-hdg-sheet")),
    **dict.fromkeys(("astma879", "astma591", "en10152", "jisg3313"), _unless_named("zn", "zn-eg-sheet")),
    **dict.fromkeys(("iso17668", "en17668", "en13811", "astma1059"), _always("zn", "zn-sherardized")),
    **dict.fromkeys(("astmb695", "iso12683"), Spec("mechanical zinc", _mechanical)),
    "astma792": _always("alzn", "galvalume"),
    "astma875": _always("znal", "galfan"),
    "astma463": _always("alsi", "al-hotdip"),
    "iso2063": _unless_named("zn", "zn-sprayed"),
}
"""What each document covers, from memory."""

_SHEET_END = r"(?:-?[nmf]?-?[a-c]-?[cops]{0,3})?(?![^\W_])(?! ?(?:mm|in|x))"

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?:astm )?a ?653m?(?: ?(?:cs|ss|fs|dds|hslas)(?: (?:type|ty|gr(?:ade)?)\.? ?[a-d0-9]{1,2})?)?",
        "653",
        _a653,
        "sheet ASTM A653",
    ),
    pattern(
        rf"(?:(?<=\+)|(?<![^\W_]))(?P<letter>z|zf|za|az|zm|as)(?P<mass>[46-9]0|[1-6]\d\d){_SHEET_END}",
        "z as",
        _metric,
        "coating mass of hot-dip sheet",
        is_bounded=False,
    ),
    pattern(
        r"(?P<letter>gf?|t[12]-|a)(?P<mass>[346]0|90|115|140|165|185|210|235|25|65|100)"
        r"|(?P<alloyed>az)(?P<ounces>30|35|40|50|55|60)",
        "g t1 t2 a",
        _ounces,
        "coating mass of hot-dip sheet",
    ),
    pattern(
        r"(?:(?<=\+)|(?<![^\W_]))(?:ze ?(?P<tenths>\d{2,3})(?:/\d{2,3})?|e(?P<grams>8|16|24|32|40)/e?"
        r"\d{1,2})(?![^\W_])",
        "ze e8 e16 e24 e32 e40",
        _electro_sheet,
        "electrogalvanized sheet",
        is_bounded=False,
    ),
    pattern(
        r"(?P<grade>sgcc|sgcd|sghc|secc|secd|sece|sgac|sglcc|sa1c)(?:-?[a-z]{1,3})?",
        "sg se sa1",
        _japanese_sheet,
        "JIS sheet grade",
    ),
    pattern(
        r"t ?zn(?:-\d{2}um)?|hdzt? ?-?\d{2}[a-c]?", "tzn t zn hdz", lambda *_: _batch(Clues()), "hot-dip code"
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("zn", "hot-dip"),
        "hot dip galvanized, hot dip galvanised, hot dipped galvanized, hot dipped galvanised, "
        "hot dip galvanize, hot dip galv, hot dipped galv, hot galvanized, hot galvanised, hot galv, "
        "hdg, hot dip zinc, hot dipped zinc, hotdip galvanized, hotdip galvanised, hot dip galvanizing, "
        "hot dip galvanising, galvanized hot dip, hot dip, hot dipped, spin galvanized, spun galvanized, "
        "feuerverzinkt, feuerverzinkung, feuerverz, fvz, tauchverzinkt, stueckverzinkt, "
        "schmelztauchverzinkt, thermisch verzinkt, galvanise a chaud, galvanisation a chaud, "
        "galva a chaud, galva chaud, zingue a chaud",
    )
    | spelt(
        Coat("zn", "hot-dip sheet"),
        "pre galvanized, pregalvanized, pre galv, pregalv, pre galvanised, pregalvanised, sendzimir, "
        "sendzimirverzinkt, sendzimir verzinkt, bandverzinkt, hot dip galvanized sheet, "
        "galvanized sheet, galvanised sheet, galvanized sheet metal, galv sheet, hdg sheet, "
        "tole galvanisee, galvanise sendzimir, verzinktes blech, hdgi",
    )
    | spelt(Coat("zn", "galvannealed"), "galvannealed, galvanneal, galvaneal, galvanealed")
    | spelt(
        Coat("zn", "electro sheet"),
        "electrogalvanized sheet, electro galvanized sheet, eg sheet, electrogalvanised sheet",
    )
    | spelt(
        Coat("zn", "sherardized"),
        "sherardized, sherardised, sherardizing, sherardisiert, sherardise, thermal diffusion zinc, "
        "zinc thermal diffusion, thermal diffusion galvanized, diffusionsverzinkt",
    )
    | spelt(
        Coat("zn", "sprayed"),
        "zinc spray, zinc sprayed, zinc metallized, zinc metallised, thermal sprayed zinc, "
        "thermal spray zinc, spritzverzinkt, flame sprayed zinc, arc sprayed zinc, zinc thermal spray, "
        "metallisation zinc, metallise zinc, metallisee zinc, metallise au zinc, zinc projete, "
        "zinc flame sprayed, zinc arc sprayed",
    )
    | spelt(
        Coat("znal", "sprayed"),
        "zinc aluminium spray, thermal sprayed zn al 85 15, znal15, zn al15, zn15al, zn85al15",
    )
    | spelt(
        Coat("al", "sprayed"),
        "thermal sprayed aluminium, thermal sprayed aluminum, thermal spray aluminum, "
        "thermal spray aluminium, tsa, arc sprayed aluminium, arc sprayed aluminum, spritzaluminiert",
    )
    | spelt(
        Coat("alsi", "hot-dip"),
        "aluminized, aluminised, hot dip aluminized, hot dip aluminised, feueraluminiert, aluminise, "
        "aluminiert",
    )
    | spelt(Coat("alzn"), "galvalume, zincalume, aluzinc, aluzink, 55 al zn, al zn 55")
    | spelt(Coat("znal"), "galfan, zn 5al, zn5al, zn 5 al")
    | spelt(
        Coat("znmg"),
        "zn al mg, znalmg, zinc magnesium, zinc aluminium magnesium, zinc aluminum magnesium, zn mg al, "
        "znmgal",
    )
)
