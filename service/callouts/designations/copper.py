"""Copper and its alloys: short UNS and CDA numbers, JIS numbers with form and temper, words."""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, MetalClass, Sense
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

COPPER = "copper"
BERYLLIUM_COPPER = "beryllium copper"
BRASS = "brass"
BRONZE = "bronze"
NICKEL_SILVER = "nickel silver"
COPPER_NICKEL = "copper-nickel"
COPPER_FAMILIES = frozenset({COPPER, BERYLLIUM_COPPER, BRASS, BRONZE, NICKEL_SILVER, COPPER_NICKEL})

_CLASS_OF_WORD = {"brass": BRASS, "bronze": BRONZE, "copper": COPPER}


def _short_number(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """C360, CDA 260, 360 brass: the three-digit numbers of which UNS C36000 is the long form."""
    number = found["number"] or found["late"]
    sign = found["sign"] or ""
    unified = lexicon.alloy(f"C{number}00")
    british = lexicon.alloy(f"C{number}") if sign == "c" else None
    if unified is None and british is None:
        return (
            Alloy((), _CLASS_OF_WORD.get(found["word"] or "", COPPER))
            if sign not in {"c", "alloy "}
            else None
        )
    if unified is None or british is None or set(unified.options) == set(british.options):
        return unified or british
    question = f"Is C{number} the British Standard or the UNS number?"
    return replace(british, options=(*british.options, *unified.options), question=question)


def _jis(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    alloy = lexicon.alloy(f"C{found['number']}")
    if alloy is None or alloy.family not in COPPER_FAMILIES:
        return None
    return replace(alloy, temper=(found["temper"] or "").upper())


_BRITISH_BRONZE = re.compile(
    r"(?<![^\W_])(?:bronze|gun ?metal|bs ?1400|phos|bush|bearing|buchse|lager|guss|rotguss|ventil|valve|"
    r"fitting|cast)"
)


_CONDUCTOR = re.compile(r"wire|cable|coax|conductor|draht|kabel|leiter|fil |awg|copper clad|core")


def _british(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Short names of BS 1400, which need a word beside them: LG2, PB1, AB2."""
    if found.group() != found.string.strip() and not mentions(_BRITISH_BRONZE, found.string):
        return None
    return lexicon.alloy(found.group()) or Alloy((), BRONZE)


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?P<sign>c|cda ?#?|alloy |uns c)(?P<number>[1-9]\d{2})"
        r"|(?P<late>[1-7]\d{2}) (?:half hard |1/2 hard |spring )?(?P<word>brass|bronze|copper)",
        "c1 c2 c3 c4 c5 c6 c7 c9 cda alloy brass bronze copper",
        _short_number,
        "copper alloy number",
    ),
    pattern(
        r"c(?P<number>[1-7]\d{3})(?:p|r|ps|rs|t|b|bd|be|w)?(?:[- ]?(?P<temper>o|ol|[134]/[24]h|h|eh|sh|"
        r"ssh|xsh))?",
        "c1 c2 c3 c4 c5 c6 c7",
        _jis,
        "JIS copper alloy number",
    ),
    pattern(
        r"lg[1-4]|ab[12]|pb[1-4]|rg ?\d{1,2}", "lg ab1 ab2 pb rg", _british, "casting bronze BS 1400, Rotguss"
    ),
    pattern(
        r"dzr|nab",
        "dzr nab",
        lambda found, lexicon: lexicon.alloy(found.group()),
        "short name of a copper alloy",
    ),
    pattern(
        r"cc[as]",
        "cca ccs",
        lambda found, lexicon: lexicon.alloy(found.group()) if mentions(_CONDUCTOR, found.string) else None,
        "copper-clad conductor",
    ),
)

_WHICH = "Which copper alloy is it?"
PURE_COPPER = MetalClass(
    "copper", COPPER_FAMILIES, ("cu-etp", "cu-of", "cu-dhp"), "Which copper is it (ETP, OF, DHP)?"
)
ANY_BRASS = MetalClass(
    BRASS,
    frozenset({BRASS}),
    ("brass-cuzn37", "brass-cuzn39pb3", "brass-c36000", "brass-cuzn30", "brass-cuzn40pb2", "brass-dzr"),
    "Which brass is it (zinc and lead content, or alloy number)?",
)
_PHOSPHOR_BRONZES = ("bronze-cusn6", "bronze-510", "bronze-cusn8", "bronze-cusn4")

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("cu", is_bare_word=True),
        "copper, kupfer, cuivre, cu, copper bar, copper strip, copper sheet, copper foil",
    )
    | spelt(
        PURE_COPPER,
        "bare copper, solid copper, copper busbar, busbar copper, copper bus bar, kupferblech, "
        "kupferschiene, barre cuivre, e kupfer, e cu, etp, pure copper, annealed copper, "
        "hard drawn copper, copper etp, electrolytic tough pitch copper, soft copper, cuivre nu, "
        "copper tape",
    )
    | spelt(
        ANY_BRASS,
        "brass, brs, cuzn, cu zn alloy, messing, laiton, brass alloy, brass sheet, messingblech, brass rod, "
        "brass bar, brss, laiton massif",
    )
    | spelt(
        MetalClass(
            "free-cutting brass",
            frozenset({BRASS}),
            ("brass-cuzn39pb3", "brass-c36000", "brass-cuzn40pb2"),
            "Which leaded brass is it?",
        ),
        "free cutting brass, free machining brass, leaded brass, turned brass, laiton de decolletage, "
        "laiton decolletage, brass free cutting, automatenmessing",
    )
    | spelt(
        MetalClass(
            BRONZE,
            frozenset({BRONZE}),
            ("bronze-cusn6", "bronze-cusn8", "bronze-gunmetal", "bronze-al-c95400"),
            "Which bronze is it (tin, aluminium, silicon)?",
        ),
        "bronze, brz, cusn, cu sn alloy, bronze alloy, bearing bronze, tin bronze, zinnbronze, bronze a l "
        "etain, gussbronze, cast bronze",
    )
    | spelt(
        MetalClass(
            "gunmetal",
            frozenset({BRONZE}),
            ("bronze-gunmetal", "bronze-g", "bronze-m", "bronze-cusn12"),
            "Which gunmetal is it (tin, zinc and lead content)?",
        ),
        "gunmetal, gun metal, red bronze, rotguss, bronze de fonderie",
    )
    | spelt(
        MetalClass(
            "phosphor bronze",
            frozenset({BRONZE}),
            _PHOSPHOR_BRONZES,
            "Which phosphor bronze is it (tin content)?",
        ),
        "phosphor bronze, phos bronze, phosphorous bronze, phosphorus bronze, ph bronze, p bronze, "
        "phosphorbronze, bronze phosphoreux, phbz, ph bz, pbz, phos brz, phosphor brz, ph br, "
        "bronze phosphor, bronze phos, phosbronze",
    )
    | spelt(
        MetalClass(
            "aluminium bronze",
            frozenset({BRONZE}),
            ("bronze-al-c95400", "bronze-al-c61400", "bronze-nab"),
            "Which aluminium bronze is it?",
        ),
        "aluminium bronze, aluminum bronze, alum bronze, al bronze, aluminiumbronze, alubronze, "
        "bronze d aluminium, bronze aluminium, cupro aluminium",
    )
    | spelt(
        MetalClass(
            "copper alloy",
            COPPER_FAMILIES,
            ("brass-cuzn30", "bronze-cusn6", "cu-fe2p", "cu-ni-si", "cu-etp"),
            _WHICH,
        ),
        "copper alloy, cu alloy, copper aly, kupferlegierung, alliage de cuivre, alliage cuivreux, "
        "cualloy, copper base alloy, high conductivity copper alloy, high copper alloy, cu legierung",
    )
    | spelt(
        MetalClass(
            BERYLLIUM_COPPER,
            frozenset({BERYLLIUM_COPPER}),
            ("cu-be2", "cu-be-low"),
            "Which beryllium copper is it?",
        ),
        "beryllium copper, be cu, becu, cube, cu be, berylium copper, beryllium cu, be copper, "
        "berylliumkupfer, bronze au beryllium, bronze beryllium, kupfer beryllium, cuivre au beryllium, "
        "cuivre beryllium, copper beryllium, becu alloy, beryllium bronze",
    )
    | spelt(
        MetalClass(
            NICKEL_SILVER,
            frozenset({NICKEL_SILVER}),
            ("nickel-silver",),
            "Which nickel silver is it (zinc, lead)?",
        ),
        "cu ni zn alloy, cu ni zn, cunizn, nickel silver alloy",
    )
    | spelt(
        MetalClass(
            COPPER_NICKEL,
            frozenset({COPPER_NICKEL}),
            ("cuni-90-10", "cuni-70-30", "cuni-80-20"),
            "Which copper-nickel is it (90/10, 70/30)?",
        ),
        "copper nickel, copper nickel alloy, cupronickel, cupro nickel, kupfernickel, cuni alloy, cuni, "
        "cunife",
    )
)
