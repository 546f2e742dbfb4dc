"""Aluminium: four-digit numbers with tempers (EN AW-, AA, UNS, JIS), clad sheet, castings, words.

Series and temper letters as in EN 573-1, EN 515 and ANSI H35.1 (from memory); which numbers exist
and how a temper is judged stands in the catalogue's designations.
"""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.designations.tempers import with_temper
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, MetalClass, Sense
from service.callouts.patterns import Pattern, pattern, stands_alone
from service.callouts.phrases import spelt

WROUGHT = "wrought aluminium"
CAST = "cast aluminium"
FAMILIES = frozenset({WROUGHT, CAST})

_WORD = r"al(?:u|um|uminium|uminum|umin|y)?\.?"
_TEMPER = r"(?:h ?\d{2,3}|t ?(?:\d{2}(?:5[12]|6[25])\d|\d{1,4})|[of](?![.\w]))"
_NUMBER = (
    rf"(?<!\d[./:-])(?:(?P<prefix>(?:en[ -]?)?aw|aa|{_WORD}(?: alloy)?|a)[ -]{{0,2}})?(?:(?<=a)9)?"
    rf"(?P<number>[1-8]\d{{3}}[abc]?)(?:p|s|te|td|bd|be|fd|fh|w|h)?"
    rf"(?:[ ,/-]{{0,2}}(?P<temper>{_TEMPER}))?(?P<series> series)?"
)

_YEARS = frozenset({"2011", "2014", "2024"})
"""Alloy numbers that may as well be the year of a standard."""

_REGISTERED_NUMBERS = """
1070 1080 1085 1090 1145 1230 1235 1370 2007 2017 2030 2036 2090 2117 2124 2218 2618 3002 3005 3103 3104
3207 4006 4043 4045 4047 4343 5006 5010 5019 5040 5049 5051 5082 5110 5119 5150 5182 5183 5252 5283 5356
5449 5457 5505 5554 5556 5557 5652 5657 6003 6009 6010 6012 6014 6016 6018 6020 6022 6023 6026 6053 6066
6070 6101 6105 6106 6110 6111 6151 6162 6181 6201 6253 6261 6351 6463 6951 7003 7005 7010 7021 7022 7039
7046 7049 7055 7068 7072 7085 7108 7129 7149 7150 7175 7249 7449 8006 8014 8017 8021 8030 8079 8090 8176
"""
_REGISTERED = frozenset(_REGISTERED_NUMBERS.split())
"""Wrought alloys of the common register that catalogues may lack (Aluminum Association); from memory."""

_CASTING_NUMBERS = frozenset(
    [
        "201",
        "204",
        "206",
        "208",
        "213",
        "222",
        "242",
        "295",
        "296",
        "308",
        "319",
        "328",
        "332",
        "333",
        "336",
        "339",
        "354",
        "355",
        "356",
        "357",
        "359",
        "360",
        "364",
        "380",
        "383",
        "384",
        "390",
        "392",
        "393",
        "413",
        "443",
        "444",
        "511",
        "512",
        "513",
        "514",
        "515",
        "516",
        "518",
        "520",
        "535",
        "705",
        "707",
        "710",
        "711",
        "712",
        "713",
        "771",
        "850",
        "851",
        "852",
        "853",
    ]
)
"""Numbers registered for castings (Aluminum Association); from memory."""


def _wrought(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    number, prefix = found["number"], (found["prefix"] or "").strip(" .-")
    temper = _upper(found["temper"])
    alloy = lexicon.alloy(f"EN AW-{number}", f"AA{number}", f"A{number}")
    if alloy is None or alloy.family != WROUGHT:
        return _unlisted(number, prefix, temper)
    if not temper and found["series"]:
        return replace(alloy, question=f"Is {number} the aluminium alloy or the maker's series?")
    if temper:
        return with_temper(alloy, temper, lexicon)
    if not prefix and not stands_alone(found):
        return None
    if number in _YEARS and not prefix and found.group() != found.string:
        return replace(alloy, doubt=f"Is {number} the aluminium alloy or a year?")
    return alloy


def _unlisted(number: str, prefix: str, temper: str) -> Sense | None:
    """An alloy that is not held; behind the mere word aluminium a number may be that of a part."""
    is_numbered = temper[:1] in {"T", "H"} or prefix.endswith("aw") or prefix == "aa"
    if is_numbered or (prefix not in {"", "a"} and number[:4] in _REGISTERED):
        return Alloy((), WROUGHT, temper=temper)
    return ALUMINIUM if prefix not in {"", "a"} else None


def _clad(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    number = found["number"] or found["late_number"]
    temper = _upper(found["temper"] or found["late_temper"])
    alloy = lexicon.alloy(f"Alclad {number}")
    if alloy is None:
        return Alloy((), WROUGHT, temper=temper)
    return with_temper(alloy, temper, lexicon) if temper else alloy


def _casting(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    letter, number = _upper(found["letter"]), found["number"]
    is_marked = any(found[group] for group in ("letter", "point", "temper", "word", "process"))
    if number not in _CASTING_NUMBERS or not is_marked:
        return None
    alloy = lexicon.alloy(f"{letter}{number}.0", f"{letter}{number}" if letter else f"Al {number}")
    temper = _upper(found["temper"])
    if alloy is None or alloy.family != CAST:
        is_sure = found["word"] or found["point"] or found["process"]
        return Alloy((), CAST, temper=temper) if is_sure else None
    return with_temper(alloy, temper, lexicon) if temper else alloy


def _upper(text: str | None) -> str:
    return (text or "").replace(" ", "").upper()


ALUMINIUM = MetalClass(
    "aluminium",
    FAMILIES,
    ("al-6082-t6", "al-5754-h22", "al-2024-t3", "al-alsi9cu3", "al-6061-t6", "al-5052-h32", "al-1050a-h14"),
    "Which aluminium alloy is it (1xxx, 2xxx, 5xxx, 6xxx, 7xxx or a casting)?",
)
CAST_ALUMINIUM = MetalClass(
    "cast aluminium",
    frozenset({CAST}),
    ("al-alsi9cu3", "al-a380", "al-adc12", "al-alsi10mg", "al-a356-t6"),
    "Which aluminium casting alloy is it, and does it hold copper?",
)

EXTRUSION = MetalClass(
    "aluminium extrusion",
    frozenset({WROUGHT}),
    ("al-6063-t5", "al-6060-t66", "al-6105-t5", "al-6061-t6", "al-6005a-t6"),
    "Which alloy is the profile extruded of?",
)

PATTERNS: tuple[Pattern, ...] = (
    pattern(_NUMBER, "", _wrought, "aluminium alloy number"),
    pattern(
        r"(?:(?:15|20|25|30|40|45|50|60|80|90){2}[ -]?(?:series )?)?[tv]-?slot(?:ted)?(?: alumini?um)?"
        r"[ -](?:extrusion|profile|framing|rail|beam)s?"
        r"|(?:(?:15|20|25|30|40|45|50|60|80|90){2}|\d{2}x\d{2})[ -](?:alumini?um |alu )?"
        r"(?:extrusion|profile?)s?",
        "slo ext pro",
        lambda *_: EXTRUSION,
        "slotted profile, which is of aluminium (common practice)",
    ),
    pattern(
        rf"(?:al)?clad[ -](?:{_WORD} )?(?P<number>[2-7]\d{{3}})(?:[ -]?(?P<temper>{_TEMPER}))?"
        rf"|(?:{_WORD} )?(?P<late_number>[2-7]\d{{3}})(?:[ -]?(?P<late_temper>{_TEMPER}))?,?[ -](?:al)?clad",
        "clad",
        _clad,
        "clad aluminium sheet",
    ),
    pattern(
        rf"(?:(?P<word>{_WORD}) ?-?)?(?P<letter>[a-f])?(?P<number>[2-8]\d{{2}})(?P<point>\.[0-2])?"
        r"(?:[ -]?(?P<temper>t[4-7]\d{0,2}))?(?: ?(?P<process>die cast(?:ing)?))?",
        "",
        _casting,
        "aluminium casting number",
    ),
)

PHRASES: dict[str, Sense] = spelt(
    ALUMINIUM,
    "aluminium, aluminum, alum, alu, al, alumin, aluminium alloy, aluminum alloy, alum alloy, alum aly, "
    "almg, almgsi, alznmg, alcumg, al alloy, alu alloy, aluminiumlegierung, alu legierung, alliage d "
    "aluminium, alliage aluminium, light alloy, alliage leger, leichtmetall, aluminiumblech, alublech, tole "
    "aluminium",
) | spelt(
    CAST_ALUMINIUM,
    "cast aluminium, cast aluminum, cast alum, aluminium casting, aluminum casting, die cast aluminium, "
    "die cast aluminum, diecast aluminium, diecast aluminum, aluminium die cast, aluminum die cast, "
    "aluminium die casting, aluminum die casting, al die cast, alu druckguss, aluminiumdruckguss, "
    "aluminium druckguss, aluguss, aluminiumguss, alu guss, fonte d aluminium, aluminium moule, "
    "aluminium coule, gd al, alsi, gd alsi, alum die cast, alum casting",
)
