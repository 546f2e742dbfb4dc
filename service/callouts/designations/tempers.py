"""Tempers and strength classes that stand beside a designation, and which material they pick."""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Sense, Trait
from service.callouts.patterns import Pattern, mentions, pattern

_HARDENING_GROUPS = (
    frozenset({"T1", "T2", "T3", "T4"}),  # naturally aged (EN 515, ANSI H35.1; from memory)
    frozenset({"T5", "T6", "T7", "T8", "T9", "T10"}),  # artificially aged (the same)
)


def with_temper(alloy: Alloy, temper: str, lexicon: Lexicon) -> Alloy:
    """Return the alloy narrowed to the temper named, with the assumption that this needs.

    A temper that the catalogue lists decides; else the nearest one of the same kind of hardening
    stands in for it, and the answer says so.
    """
    tempers = {name: lexicon.catalogue.materials[name].temper for name in alloy.options}
    listed = lexicon.alloys.get(alloy.key + temper.lower())
    near = tuple(name for name in alloy.options if listed and name in listed.options)
    chosen = near[:1] or _nearest(temper, tempers) or alloy.options
    judged = {tempers[name] for name in chosen} - {temper, ""}
    assumptions = tuple(f"temper {temper} judged as {other}" for other in sorted(judged))
    return replace(alloy, options=chosen, temper=temper, assumptions=assumptions)


def _nearest(temper: str, tempers: dict[str, str]) -> tuple[str, ...]:
    for length in (len(temper), 3, 2):
        near = [name for name, held in tempers.items() if held and held[:length] == temper[:length]]
        if near:
            return tuple(near[:1])
    group = next((group for group in _HARDENING_GROUPS if temper[:2] in group), frozenset())
    return tuple(name for name, held in tempers.items() if held[:2] in group)[:1]


def _temper(found: re.Match[str], _: Lexicon) -> Sense:
    return Trait("temper", found.group().replace(" ", "").upper())


def _casting_temper(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    return _temper(found, lexicon) if mentions(_CASTING, found.string) else None


_CASTING = re.compile(r"(?<![^\W_])(?:ac[ -]?\d{5}|(?:ac-)?alsi)")

PATTERNS: tuple[Pattern, ...] = (
    # Copper, EN 1412 property codes: R tensile strength, H hardness, Y proof strength, and the
    # older DIN F numbers (tenths of N/mm2). Supplier pages agree; from memory.
    pattern(r"[ry]\d{3}[a-z]?|h\d{3}|f\d{2}", "", _temper, "temper"),
    # ASTM B601 codes of copper alloys (H01-H14, TB00, TD04, TF00, TH04, TM06); from memory.
    pattern(r"h0\d|h1[0-4]|t[bdfhm]\d{2}", "", _temper, "temper"),
    # EN 1706: letter of the casting process and temper (DF, KT6); from memory.
    pattern(r"[dskl](?:f|t[4-6]\d?)", "ac alsi al", _casting_temper, "temper of a casting"),
    # EN 515 / ANSI H35.1 tempers of aluminium; precipitation-hardened stainless H900 to H1150.
    pattern(
        r"h[1-3]\d{1,2}|t\d{1,4}(?!\.\d)|t\d{2}(?:5[12]|6[25])\d|h ?(?:900|925|1025|1075|1100|1150)[md]?",
        "",
        _temper,
        "temper",
    ),
)
