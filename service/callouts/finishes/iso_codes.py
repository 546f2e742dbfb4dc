"""Codes of basis and coats divided by slashes: ISO 2081, 2082, 2093, 1456, 4521, 4527, 19598, 4042.

``Fe//Zn8//C`` reads basis, coat with its thickness in micrometres, passivation, sealer. Letters of
the passivation: A clear, B bleached, C iridescent, D opaque olive, F black; ``n`` Cr(VI)-free
(ISO 19598); T0 without and T2 with a sealer. A, C, D, F, An, Cn, Fn, T0 and T2 were read in supplier
tables; the rest is from memory. JIS H 0404 writes Ep-Fe/Zn 8/CM2 in the same way (from memory).
"""

from __future__ import annotations

import re

from service.callouts.finishes.deciders import DECIDERS
from service.callouts.finishes.nickel import phosphorus_class
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Amount, Callout, Clues, Coat, Sense
from service.callouts.patterns import Pattern, pattern

BASIS = {
    "fe": "carbon steel",
    "st": "carbon steel",
    "cu": "copper",
    "cuzn": "brass",
    "zn": "zinc die cast",
    "al": "aluminium",
    "mg": "magnesium",
    "ti": "titanium",
    "pl": "plastic",
    "abs": "plastic",
}

_METAL = r"znni|znfe|znco|snzn|snpb|sncu|snag|nip|nib|nid|ni-p|zn|cd|cu|ni|cr|sn|ag|au|pd|rh|pb"
_NUMBER = r"\d{1,3}(?:\.\d{1,2})?"
_COAT = (
    rf"(?:\((?P<base>\d{{2}})\) ?(?=ni-?p))?"
    rf"(?P<metal>{_METAL})(?: ?\((?P<alloy>[\d.]{{1,5}})(?:-[\d.]{{1,5}})?%?\))?(?: ?(?P<um>{_NUMBER}))?"
    r"(?: ?(?:(?<!zn)(?<!cd)(?P<kind>hr|mc|mp|sf|[bsdpmfrh]))(?![^\W_]| ?\())?(?:(?<=[\d)bsdpmfrhc])|(?"
    r"![a-z(]))"
)
_FINISH = r"(?P<passivation>c[12]?[abc]|c[12]d|cm[123]?|[cp][1-5]|[abcdfu]n?)(?![^\W_])"
_SEAL = r"(?P<seal>t[02-9])(?![^\W_])"
_HEAT = r"(?:sr|er|ht) ?\(\d{2,3}\) ?\d{0,2}"
_PHOSPHATE = r"(?P<phosphate>(?:zn|mn)?ph)(?![^\W_])"
_CHROME = r"(?P<chrome>mc|mp|hr|r)(?![^\W_])"
_PART = re.compile(rf"{_HEAT}|{_COAT}|{_CHROME}|{_FINISH}|{_SEAL}|{_PHOSPHATE}")


def _unnamed(expression: str) -> str:
    return re.sub(r"\?P<\w+>", "?:", expression)


_ANY_COAT = _unnamed(_COAT)
_ANY_PART = _unnamed(_PART.pattern)

_COLOURS = {"a": "clear", "b": "blue", "c": "yellow", "d": "olive", "f": "black"}
_OLD_CODES = {
    "c1a": "clear",
    "c1b": "blue",
    "c2c": "yellow",
    "c2d": "olive",
    "cm1": "clear",
    "cm2": "yellow",
    "cm3": "olive",
    "ca": "clear",
    "cb": "blue",
    "cc": "yellow",
    "c1": "blue",
    "c2": "yellow",
    "c3": "olive",
    "c4": "black",
}
"""ISO 4520 and JIS H 8625 classes of chromate and the Swedish C1 to C4 (read in supplier tables). They
give the colour and not the chemistry."""
_FREE_CODES = {"p1": "blue", "p2": "yellow", "p3": "olive", "p4": "black", "p5": "iridescent"}
"""Swedish codes of Cr(VI)-free passivation (read in a supplier table)."""

_QUALITY = {
    "mc": ("chrome", "microcracked"),
    "mp": ("chrome", "microcracked"),
    "b": ("gloss", "bright"),
    "s": ("gloss", "semi-bright"),
    "sf": ("gloss", "semi-bright"),
    "m": ("gloss", "matte"),
    "p": ("gloss", "matte"),
    "d": ("nickel", "duplex"),
    "f": ("tin", "reflow"),
}
"""Letters after the thickness: ISO 1456 for nickel and chromium, ISO 2093 for tin (from memory)."""

_NICKEL_WITH_LETTER = {"nip": "en", "nib": "ni", "nid": "ni"}
"""NiP is electroless nickel (ISO 4527); b bright and d duplex may stand before the figure (JIS H 8617)."""
_PASSIVATED = frozenset({"zn", "cd"})
"""Coats whose finish stays open where the code gives no passivation; the rest of the text may."""
_HARD_CHROME = frozenset({"hr", "h"})


def _read(found: re.Match[str], _: Lexicon) -> Sense | None:
    coats: list[Coat] = []
    traits: set[tuple[str, str]] = set()
    for part in _PART.finditer(found["code"]):
        if part["metal"]:
            coats.append(_coat(part))
        traits |= _traits(part)
    symbol = found.groupdict().get("basis") or ""
    if symbol in {"cu", "al"} and not any(coat.amount for coat in coats):
        return None  # Cu/Ni/Cr without figures is a stack and Al/Cu may be two metals: no basis is named
    basis = BASIS.get(symbol, "")
    kinds = frozenset(coat.kind for coat in coats)
    clues = Clues(frozenset(traits), kinds=kinds)
    outermost_first = tuple(
        coat if coat.kind in _PASSIVATED and not traits else _decided(coat, clues) for coat in reversed(coats)
    )
    return Callout(outermost_first, basis)


def _coat(part: re.Match[str]) -> Coat:
    amount = Amount(float(part["um"])) if part["um"] and float(part["um"]) > 0.0 else None
    metal = part["metal"].replace("-", "")  # ISO 4527 NiP(10), JIS H 8645 (90)Ni-P
    if metal in _NICKEL_WITH_LETTER:
        return Coat(_NICKEL_WITH_LETTER[metal], amount=amount)
    return Coat(metal, "hard" if part["kind"] in _HARD_CHROME and metal == "cr" else "", amount)


def _traits(part: re.Match[str]) -> set[tuple[str, str]]:
    traits: set[tuple[str, str]] = set()
    if part["metal"] in {"nip", "ni-p"} and (part["alloy"] or part["base"]):
        per_cent = float(part["alloy"] or 0.0) or 100.0 - float(part["base"])
        traits.add(("phosphorus", phosphorus_class(per_cent)))
    letter = {"nib": "b", "nid": "d"}.get(part["metal"] or "", "")
    if (quality := _QUALITY.get(letter or part["kind"] or part["chrome"] or "")) is not None:
        traits.add(quality)
    if part["passivation"]:
        traits |= _passivation(part["passivation"])
    if part["seal"] and part["seal"] != "t0":
        traits.add(("seal", "sealed"))
    if part["phosphate"]:
        traits.add(("treatment", "phosphate"))
    return traits


def _passivation(code: str) -> set[tuple[str, str]]:
    if code in _OLD_CODES:
        return {("colour", _OLD_CODES[code])}
    if code in _FREE_CODES:
        return {("colour", _FREE_CODES[code]), ("chemistry", "cr3")}
    if code[0] not in _COLOURS:
        return {("treatment", "none")}
    free = {("chemistry", "cr3")} if code.endswith("n") else set()
    return {("colour", _COLOURS[code[0]])} | free


def _decided(coat: Coat, clues: Clues) -> Coat:
    decision = DECIDERS[coat.kind](coat, clues)
    return Coat(coat.kind, coat.process, coat.amount, decision.options, decision.question)


_JIS_GRADES_UM = {"1": 2.0, "2": 5.0, "3": 8.0, "4": 13.0, "5": 20.0, "6": 25.0}
"""JIS H 8610 grades (read in a web reproduction)."""


def _jis_grade(found: re.Match[str], _: Lexicon) -> Sense:
    """Ep-Fe/Zn[2-C1]: grade of thickness, C1 bright, C2 coloured chromate."""
    colour = {"1": {("colour", "clear")}, "2": {("colour", "yellow")}}.get(found["chromate"] or "", set())
    coat = Coat("zn", amount=Amount(_JIS_GRADES_UM[found["grade"]]))
    return Callout((_decided(coat, Clues(frozenset(colour))),), BASIS["fe"])


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?:ep-?)?fe/zn ?[\[(](?P<grade>[1-6])(?:-c(?P<chromate>[12]))?[\])]",
        "fe/zn",
        _jis_grade,
        "zinc grade JIS H 8610",
        is_bounded=False,
    ),
    pattern(
        rf"(?:e?l?p-)?(?P<basis>fe|st|cuzn|cu|zn|al|mg|ti|pl|abs) ?/{{1,2}} ?"
        rf"(?P<code>(?:{_unnamed(_HEAT)} ?/{{1,2}} ?)?{_ANY_COAT}(?:[ /,+-]{{0,3}}(?:{_ANY_PART})){{0,7}})",
        "/",
        _read,
        "coating code",
    ),
    pattern(
        rf"(?P<code>(?:znni|znfe|zn)(?:\(\d{{1,2}}\))? ?\d{{1,2}} ?/{{1,2}} ?(?:{_unnamed(_FINISH)})(?: ?"
        rf"/{{1,2}} ?(?:{_unnamed(_SEAL)}))?)",
        "zn",
        _read,
        "fastener coating code ISO 4042",
    ),
)
"""``_COAT`` ends in a lookahead, so that a symbol inside a word is not taken for a coat."""
