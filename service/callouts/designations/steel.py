"""Carbon and low-alloy steel: property classes, SAE grades and numbers, generic words."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, MetalClass, Sense, Several, Trait
from service.callouts.patterns import Pattern, mentions, pattern, stands_alone
from service.callouts.phrases import spelt

CARBON = "carbon steel"
LOW_ALLOY = "low-alloy steel"
STAINLESS = "stainless steel"
ANY_STEEL = frozenset({CARBON, LOW_ALLOY, STAINLESS})
PLAIN_STEEL = frozenset({CARBON, LOW_ALLOY})

_CLASSES = {"8.8": "steel-8-8", "10.9": "steel-10-9", "12.9": "steel-12-9"}
"""ISO 898-1 property classes of bolts that the catalogue lists."""
_SOFT_STEELS = ("steel-1018", "steel-s235")
"""Stand for ISO 898-1 classes up to 6.8, which any unalloyed steel may meet (from memory)."""
_SAE_GRADES = {"2": _SOFT_STEELS, "5": ("steel-8-8",), "8": ("steel-10-9",)}
"""SAE J429 grades and the ISO 898-1 class of like strength (from memory)."""

FASTENER = re.compile(
    r"(?<![^\W_])(?:m\d|din|iso|bolt|screw|nut|stud|vis|ecrou|hex|gewinde|[a-z]*(?:schraube|bolzen|mutter|stift)|"
    r"tornillo|tuerca|perno|parafuso|porca|bullon|bout|moer|(?:vit[ei]|dad[oi])(?![^\W_]))"
)
_NUT = re.compile(
    r"(?<![^\W_])(?:[a-z]*nuts?|[a-z]*muttern?|ecrous?|din (?:934|985|6923)|iso (?:4032|7040))(?![^\W_])"
)
_SAE_SERIES = r"(?:1[0-35]|4[01346-8]|5[0-2]|61|8[1678]|9[234])(?:\d{2}|[bl]\d{2})h?"


def _property_class(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    name = found["name"]
    options = lexicon.held(_CLASSES.get(name, ""))
    if options:
        return Alloy(options, lexicon.family(options[0]), strength_class=name)
    if not found["word"] and not mentions(FASTENER, found.string):
        return None
    question = f"Property class {name} fixes the strength: which steel is it?"
    options = lexicon.held("steel-8-8") if name == "9.8" else lexicon.held(*_SOFT_STEELS)
    return Alloy(options, CARBON, strength_class=name, question=question)


def _nut_class(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """A class without a point is one of nuts; many a finish document has classes, too."""
    name = found["name"]
    if found["word"].rstrip(".") in {"class", "classe", "cl"} and not mentions(_NUT, found.string):
        return None
    question = f"Property class {name} fixes the strength: which steel is it?"
    options = lexicon.held(*_SOFT_STEELS, "steel-1045")
    return Alloy(options, CARBON, strength_class=name, question=question)


def _set_screw_class(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Hardness of screws that are not pulled: an alloyed, hardened steel from 33H on (from memory)."""
    if not mentions(FASTENER, found.string):
        return None
    name = found["name"].upper()
    options = lexicon.held(*(_SOFT_STEELS if name in {"14H", "22H"} else ("steel-12-9", "steel-4140")))
    question = f"Hardness class {name} fixes the hardness: which steel is it?"
    return Alloy(options, CARBON, strength_class=name, question=question)


def _sae_grade(found: re.Match[str], lexicon: Lexicon) -> Sense:
    grade = found["grade"] or found["late"]
    options = lexicon.held(*_SAE_GRADES[grade])
    question = f"SAE grade {grade} fixes the strength: which steel is it?"
    return Alloy(options, CARBON, strength_class=f"SAE grade {grade}", question=question)


def _by_number(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """AISI, SAE and C numbers; a bare number only where the catalogue holds such a steel."""
    number, prefix = found["number"], found["prefix"] or ""
    steel = lexicon.alloy(f"AISI {number}", f"SAE {number}")
    if prefix == "c" and (copper := lexicon.alloy(f"C{number}")) and copper.family not in PLAIN_STEEL:
        if steel is None or "steel" in (found["word"] or ""):
            return steel
        question = f"Is C{number} the copper (JIS) or the steel (SAE)?"
        return Alloy((*steel.options, *copper.options), steel.family, question=question)
    if steel is not None and steel.family in PLAIN_STEEL:
        return steel if prefix or found["word"] or stands_alone(found) else None
    if not prefix and not found["word"]:
        return None
    return Alloy((), CARBON if number[:2] in {"10", "11", "12", "13", "15"} else LOW_ALLOY)


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?P<word>(?:class|klasse|classe|qualite|grade|gr|cl|fk|fkl|festigkeitsklasse)\.? ?)?"
        r"0?(?P<name>[45]\.[68]|6\.[68]|[89]\.8|10\.9|12\.9)(?! ?(?:mm|um|in|x|\"|'|kg|g)(?![^\W_]))",
        ".6 .8 .9",
        _property_class,
        "property class ISO 898-1",
    ),
    pattern(
        r"(?P<word>property class|festigkeitsklasse|klasse|kl\.?|fkl\.?|nut class|steel class|classe?|cl\.?)"
        r" ?(?P<name>0?[4568]|10|12)(?!\.)",
        "class kl cl",
        _nut_class,
        "nut property class ISO 898-2",
    ),
    pattern(
        r"(?P<name>14h|22h|33h|45h)",
        "14h 22h 33h 45h",
        _set_screw_class,
        "hardness class of set screws ISO 898-5",
    ),
    pattern(
        r"(?P<name>[0-9]{1,2}(?:cr|mn|smn|smnpb|crmo)[0-9]{1,2})k",
        "k",
        lambda found, lexicon: lexicon.alloy(found["name"]),
        "steel name with the sign for cold-drawn (DIN 17006)",
    ),
    pattern(
        r"(?:sae|j ?429|asme b18\.2\.1|steel|stl)[ ,]{1,2}(?:j ?429 )?(?:grade|gr)\.? ?(?P<grade>[258])"
        r"|(?:grade|gr)\.? ?(?P<late>[258])[ ,]{1,2}(?:alloy )?(?:steel|stl)",
        "gr",
        _sae_grade,
        "SAE J429 grade",
    ),
    pattern(
        rf"(?:(?:steel|stl)[ ,:]{{1,3}})?(?:(?P<prefix>aisi|sae|c)[ /-]{{0,2}})?(?P<number>{_SAE_SERIES})"
        r"(?P<word> ?(?:steel|stl|crs|hrs|cold|hot|alloy|leaded|cf|cd|hr|cr))?",
        "",
        _by_number,
        "AISI/SAE steel number",
    ),
    pattern(
        r"(?:astm )?a ?-?36(?:/a ?36m)?",
        "a36 a-36 36m",
        lambda _found, lexicon: lexicon.alloy("ASTM A36"),
        "ASTM A36",
    ),
    # JIS G 3141: temper S or annealed A, surface D dull or B bright (from memory).
    pattern(
        r"spc(?P<grade>[cdefg])[ -]{0,2}(?:s?[db]|a[db]?|[1248][db]?)",
        "spc",
        lambda found, lexicon: lexicon.alloy(f"SPC{found['grade'].upper()}") or Alloy((), CARBON),
        "JIS G 3141 sheet",
    ),
    pattern(
        r"(?:ck? ?45e?k?|c45e?\+?(?:c|qt|n)?)",
        "45",
        lambda _found, lexicon: lexicon.alloy("C45"),
        "EN steel name",
    ),
)

STEEL = MetalClass(
    "steel",
    ANY_STEEL,
    ("steel-s235", "steel-dc01", "steel-1018"),
    "Which steel is it: unalloyed, alloyed or stainless?",
)
_WHICH_CARBON = "Which unalloyed steel is it?"
_WHICH_ALLOYED = "Which alloyed steel is it, and how strong?"
STEEL_SHEET = MetalClass(
    "steel sheet", PLAIN_STEEL, ("steel-dc01", "steel-1008", "steel-dc04"), _WHICH_CARBON
)

PHRASES: dict[str, Sense] = (
    spelt(STEEL, "steel, stl, stahl, acier, fe, st, steel part, stahlteil, gehaerteter stahl, hardened steel")
    | spelt(
        MetalClass("unalloyed steel", PLAIN_STEEL, ("steel-s235", "steel-1018", "steel-dc01"), _WHICH_CARBON),
        "mild steel, m s, hrpo, hr p o, hot rolled pickled and oiled, "
        "low carbon steel, lcs, carbon steel, c steel, cs steel, plain steel, "
        "structural steel, baustahl, kohlenstoffstahl, acier doux, acier de construction, acier carbone, "
        "acier au carbone, case hardened steel, einsatzstahl, med carbon steel, medium carbon steel, "
        "steel low carbon, hrs, hot rolled steel, hot rolled, warmgewalzter stahl, steel mild",
    )
    | spelt(
        Several((STEEL_SHEET, Trait("form", "sheet"))),
        "cold rolled steel, cold rolled, cold reduced steel, crca, crs steel, kaltgewalzt, kaltband, "
        "stahlblech, feinblech, sheet steel, steel sheet, steel sheet metal, tole acier, tole d acier, "
        "steel strip, crcq, cold rolled sheet, cold roll steel, cold roll, cr steel, steel plate stock",
    )
    | spelt(
        MetalClass(
            "CRS",
            frozenset({CARBON, LOW_ALLOY, STAINLESS}),
            ("steel-dc01", "steel-1008", "steel-1018", "ss-304"),
            "Does CRS mean cold-rolled steel or corrosion-resistant steel?",
        ),
        "crs",
    )
    | spelt(
        MetalClass("alloyed steel", PLAIN_STEEL, ("steel-4140", "steel-12-9", "steel-4130"), _WHICH_ALLOYED),
        "chrome vanadium, chrome vanadium steel, crv, cr v, cr v steel, chrom vanadium, alloy steel, "
        "alloy stl, aly steel, aly stl, low alloy steel, legierter stahl, acier allie, chrome moly, "
        "chromoly, cr mo steel, hi tensile steel, high tensile steel, high strength steel, "
        "hochfester stahl, heat treated steel, quenched and tempered steel, verguetungsstahl, stl alloy, "
        "steel alloy",
    )
    | spelt(
        MetalClass(
            "spring steel",
            ANY_STEEL,
            ("steel-spring", "ss-301"),
            "Is the spring of unalloyed or stainless steel?",
        ),
        "spring steel, spring stl, federstahl, acier a ressort, acier ressort, federband, spring wire",
    )
    | spelt(
        MetalClass(
            "MS",
            PLAIN_STEEL | {"brass"},
            ("brass-cuzn37", "steel-s235", "brass-cuzn39pb3"),
            "Does MS mean mild steel or Messing (brass)?",
        ),
        "ms",
    )
    | spelt(
        MetalClass("tool steel", PLAIN_STEEL, ("steel-tool-d2",), "Which tool steel is it?"),
        "silver steel, silberstahl, stub acier argent, tool steel, werkzeugstahl, acier a outils, "
        "acier outil, a2 tool steel, o1 tool steel, s7 tool steel",
    )
    | spelt(
        MetalClass("bearing steel", PLAIN_STEEL, ("steel-52100",), "Which bearing steel is it?"),
        "bearing steel, chrome steel, waelzlagerstahl, acier a roulement",
    )
    | spelt(
        MetalClass(
            "reinforcing steel", PLAIN_STEEL, ("steel-b500b", "steel-s355"), "Which reinforcing steel is it?"
        ),
        "rebar, reinforcing steel, reinforcing bar, betonstahl, bewehrungsstahl, bewehrungsstab, "
        "baustahlmatte, acier d armature, acier a beton, rond a beton, fer a beton",
    )
)
