"""Stainless steel: AISI/SUS numbers, ISO 3506 groups and classes, 18-8, generic words."""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.designations.steel import STAINLESS
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, MetalClass, Sense
from service.callouts.patterns import Pattern, pattern, stands_alone
from service.callouts.phrases import spelt

_FAMILY = frozenset({STAINLESS})
_NUMBERS = (
    r"20[1-5]|30[1-589]|31[0467]|32[19]|330|34[78]|384|40[3359]|41[046]|42[029]|43[014679]|44[0246]|50[12]|"
    r"63[0-3]|660|904"
)
"""AISI and similar three-digit numbers (from memory)."""
_WORD = (
    r"aisi|sae|type|typ|ss|sst|s\.s\.?|s/s|sus|inox|cres|crs|stst|stn stl|st stl|stainless(?: steel)?|"
    r"edelstahl|acier inox|astm a\d{3}|nirosta|va"
)
_LATE_WORD = r"stainless(?: steel)?|ss|sst|s/s|s\.s\.?|cres|inox|edelstahl|stst|st\.? ?stl|series|stn ?stl"
_LENGTH = re.compile(r" ?(?:mm|cm|m\b|in\b|inch|ft|\"|x|'|ohm|pcs|pc\b|v\b|w\b|k\b|%|deg|lbs?|g\b|kg|hz)")


def _number(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    number, suffix = found["number"], found["suffix"] or ""
    is_named = bool(found["word"] or found["late"])
    if not is_named and (_LENGTH.match(found.string, found.end()) or _is_part_of_size(found)):
        return None
    alloy = lexicon.alloy(f"AISI {number}{suffix}", f"SUS{number}{suffix}", f"{number}{suffix}")
    if alloy is None or alloy.family != STAINLESS:
        alloy = _relative(number, suffix, lexicon)
    is_whole = found.group() == found.string.strip()
    if is_named or is_whole or suffix or not alloy.options:
        return alloy if is_named or is_whole or alloy.options else None
    return replace(alloy, doubt=f"Is {number} the stainless steel grade?")


def _duplex(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    alloy = lexicon.alloy(found["number"])
    if alloy is None or found["word"] or found["late"] or found.group() == found.string.strip():
        return alloy
    if _LENGTH.match(found.string, found.end()) or _is_part_of_size(found):
        return None
    return replace(alloy, doubt=f"Is {found['number']} the duplex steel grade?")


def _is_part_of_size(found: re.Match[str]) -> bool:
    before = found.string[: found.start()].rstrip()
    return before.endswith(("x", "#", "$", ".", "=", "no")) or not stands_alone(found)


def _relative(number: str, suffix: str, lexicon: Lexicon) -> Alloy:
    near = lexicon.alloy(f"AISI {number}") or lexicon.alloy(f"AISI {number}C", f"AISI {number}L")
    if near is None or near.family != STAINLESS:
        return Alloy((), STAINLESS)
    name = lexicon.catalogue.materials[near.options[0]].name
    return replace(near, question=f"{number}{suffix.upper()} is not listed: may {name} stand for it?")


def _iso_3506(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    group, grade = found["group"].upper() + (found["low"] or "").upper(), found["grade"]
    if not grade and not found["word"] and not found["late"]:
        return None
    alloy = stainless_group(group, lexicon) or stainless_group(group[:2], lexicon) or Alloy((), STAINLESS)
    return replace(alloy, strength_class=f"{group}-{grade}" if grade else "")


def stainless_group(name: str, lexicon: Lexicon) -> Alloy | None:
    """Return the stainless steels of a group of ISO 3506; other alloys of the same name are left out."""
    for alloy in (lexicon.alloy(f"ISO 3506 {name}"), lexicon.alloy(name)):
        options = [n for n in alloy.options if lexicon.family(n) == STAINLESS] if alloy else []
        if alloy and options:
            return replace(alloy, options=tuple(options), family=STAINLESS, question="", assumptions=())
    return None


def _eighteen_eight(_found: re.Match[str], lexicon: Lexicon) -> Sense:
    options = lexicon.held("ss-304", "ss-302", "ss-303", "ss-305")
    return Alloy(options, STAINLESS, question="18-8 covers 302, 303, 304 and 305: which one is it?")


def _shop_name(found: re.Match[str], lexicon: Lexicon) -> Sense:
    """V2A and V4A were melts of one maker; the shop uses them for a group of grades."""
    grades = {"v2a": ("ss-304", "ss-304l", "ss-321"), "v4a": ("ss-316", "ss-316l", "ss-316ti")}[found.group()]
    question = f"Which grade of {found.group().upper()} is it?"
    return Alloy(lexicon.held(*grades), STAINLESS, question=question)


STAINLESS_STEEL = MetalClass(
    STAINLESS,
    _FAMILY,
    ("ss-304", "ss-316", "ss-430", "ss-303"),
    "Which stainless steel is it (303, 304, 316, 430...)?",
)

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?:(?P<word>{_WORD})[ .:/-]{{0,3}})?(?P<number>{_NUMBERS})(?P<suffix>l[nv]?m?|h|n|ti|cb|se|f|s|"
        rf"a|b|c|cu|mo|j[12])?"
        rf"(?:[ ,-]{{0,2}}(?P<late>{_LATE_WORD})(?![^\W_]))?",
        "",
        _number,
        "stainless steel number",
    ),
    pattern(
        r"(?:(?P<word>iso 3506(?:-\d)?|inox|edelstahl|stainless(?: steel)?|s/?s|sst|cres|va|v[24]a|niro|"
        r"rostfrei|acier inox)"
        r"[ :,(-]{1,3})?(?P<group>a[1-58]|c[134]|f1|d[2468])(?P<low>l)?"
        r"(?:[-/ ](?P<grade>45|50|60|70|80|100|110)(?![.\d]))?"
        r"(?:[ ,)(]{1,3}(?P<late>stainless(?: steel)?|s/?s|sst|inox|edelstahl|rostfrei|v[24]a)(?![^\W_]))?",
        "a1 a2 a3 a4 a5 a8 c1 c3 c4 f1 d2 d4 d6 d8",
        _iso_3506,
        "stainless fastener group ISO 3506",
    ),
    pattern(
        r"(?:(?:inox|ss|sst|s/s|stainless(?: steel)?|type|cres)[ -]{1,2})?18[-/ ](?:8|10)"
        r"(?: ?(?:stainless(?: steel)?|sst?|s/s|inox|cres))?(?! ?(?:mm|x|in))",
        "18-8 18/8 18-10 18/10 18",
        _eighteen_eight,
        "18-8 stainless steel",
    ),
    pattern(
        rf"(?:(?P<word>duplex|super ?duplex|lean ?duplex|{_WORD}|saf)[ .:/-]{{0,3}})?"
        r"(?P<number>2205|2304|2507|2101)"
        r"(?:[ ,-]{0,2}(?P<late>duplex|super ?duplex|stainless(?: steel)?|ss))?",
        "2205 220 230 250 210",
        _duplex,
        "duplex stainless steel",
    ),
    pattern(r"s/s", "s/s", lambda *_: STAINLESS_STEEL, "stainless steel"),
    pattern(
        r"(?:alloy |incoloy |type )?a ?-?286(?: (?:stainless|ss|sst|cres|alloy|superalloy|steel))?",
        "286",
        lambda _found, lexicon: lexicon.alloy("A286") or Alloy((), STAINLESS),
        "A286",
    ),
    pattern(
        r"(?:ph ?)?(?P<number>17-4|15-5|17-7|13-8)(?: ?-?ph)?(?: ?mo)?",
        "17-4 15-5 17-7 13-8",
        lambda found, lexicon: lexicon.alloy(f"{found['number']}PH") or Alloy((), STAINLESS),
        "precipitation-hardening stainless steel",
    ),
    pattern(r"v[24]a", "v2a v4a", _shop_name, "German shop name of stainless steel"),
    pattern(
        r"(?:astm )?(?:a351 |a743 |a744 |grade )?cf-?(?P<grade>8m?|3m?)",
        "cf",
        lambda found, lexicon: lexicon.alloy(f"CF{found['grade'].upper()}") or Alloy((), STAINLESS),
        "cast stainless steel grade",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        STAINLESS_STEEL,
        "stainless, stainless steel, stainles steel, stain steel, stainless stl, stnls, stnls stl, "
        "stnl stl, st stl, stn stl, stn steel, sst, ss, s s, stst, cres, cress, "
        "corrosion resistant steel, corrosion resisting steel, inox, inoxydable, acier inox, "
        "acier inoxydable, edelstahl, rostfrei, rostfreier stahl, stahl rostfrei, nichtrostender stahl, "
        "niro, nirosta, va, va stahl, steel stainless, stl stainless, crst, austenitic stainless steel, "
        "stainless steels, edelstahlblech, tole inox, cr ni stahl, crni stahl",
    )
    | spelt(
        MetalClass(
            "300 series",
            _FAMILY,
            ("ss-304", "ss-303", "ss-316", "ss-302", "ss-305"),
            "Which stainless steel of the 300 series is it?",
        ),
        "stainless 300 series, stainless steel 300 series, 300 series, 300 series stainless, 300 series "
        "stainless steel, 300 series ss, ss 300 series, series 300",
    )
    | spelt(
        MetalClass(
            "400 series",
            _FAMILY,
            ("ss-410", "ss-416", "ss-430", "ss-420"),
            "Which stainless steel of the 400 series is it?",
        ),
        "400 series, 400 series stainless, 400 series stainless steel, martensitic stainless steel, "
        "ferritic stainless steel",
    )
)
