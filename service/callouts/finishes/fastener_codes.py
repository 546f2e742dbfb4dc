"""Legacy fastener codes of ISO 4042 (A2K, B2C) and the two-character codes that mean other things too.

First letter the coating metal, digit its thickness: read in reproductions of ISO 4042 and DIN 267-9.
Last letter gloss and chromate colour: A, B, C, D and R read in an extract, the others from memory. It
gives the colour and not the chemistry. A1 to A5, C1 to C4, F1, D2 to D8 are also stainless groups (ISO 3506),
and C1 to C5 corrosivity classes (ISO 12944).
"""

from __future__ import annotations

import re
from dataclasses import replace

from service.callouts.designations.stainless import stainless_group
from service.callouts.designations.steel import FASTENER, STAINLESS
from service.callouts.finishes.deciders import DECIDERS
from service.callouts.finishes.decision import Decision, torn
from service.callouts.finishes.zinc import AS_PLATED, CARBON_STEEL
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Amount, Callout, Clues, Coat, Riddle, Sense
from service.callouts.patterns import Pattern, mentions, pattern

_METALS: dict[str, tuple[str, ...]] = {
    "a": ("zn",),
    "b": ("cd",),
    "c": ("cu",),
    "d": ("brass",),
    "e": ("ni",),
    "f": ("cr", "ni"),
    "g": ("ni", "cu"),
    "h": ("cr", "ni", "cu"),
    "j": ("sn",),
    "l": ("ag",),
    "n": ("ag", "cu"),
    "p": ("znni",),
    "q": ("znco",),
    "r": ("znfe",),
}
"""Coats of each letter, outermost first."""

_TOTAL_UM = (0.0, 3.0, 5.0, 8.0, 12.0, 15.0, 20.0, 25.0, 32.0, 40.0)
_INNER_UM = (0.0, 0.0, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 12.0, 16.0)
"""Total and, of two layers, the inner thickness for each digit."""
_CHROMIUM_UM = 0.3

_COLOUR_LETTERS = {
    "clear": "aejn",
    "blue": "bfk",
    "yellow": "cgl",
    "olive": "dhm",
    "black": "rst",
}
_COLOURS = {letter: colour for colour, letters in _COLOUR_LETTERS.items() for letter in letters}
_NO_CHROMATE = frozenset("aejn")

_CLASS = re.compile(r"(?<![\w.])(?:[4-9]\.[689]|1[02]\.9)(?![\w.])")

_STAINLESS_WORD = re.compile(r"(?<![^\W_])(?:inox|rvs|roestv|stainless|edelstahl|niro|rostfrei)")
_RECESSES = frozenset({"h1", "h2", "h3", "h4"})
"""Sizes of the cross recess of a screw (ISO 4757, from memory); they are no coats."""


def _coated(letter: str, digit: str, last: str) -> Callout:
    kinds = _METALS[letter]
    colour = _COLOURS.get(last, "")
    clues = Clues(frozenset({("colour", colour)} if colour else ()), kinds=frozenset(kinds))
    amounts = _amounts(kinds, int(digit))
    coats = []
    for kind, amount in zip(kinds, amounts, strict=True):
        decision = _decision(kind, last, clues)
        coats.append(Coat(kind, amount=amount, options=decision.options, question=decision.question))
    return Callout(tuple(coats), CARBON_STEEL if kinds[0] in {"zn", "cd", "znni", "znco", "znfe"} else "")


def _decision(kind: str, last: str, clues: Clues) -> Decision:
    if kind == "zn" and last in _NO_CHROMATE:
        return torn(AS_PLATED, zn_passivated_clear=0.6, zn_plain=0.4)
    return DECIDERS[kind](Coat(kind), clues)


def _amounts(kinds: tuple[str, ...], digit: int) -> list[Amount | None]:
    total, inner = _TOTAL_UM[digit], _INNER_UM[digit]
    if total == 0.0:
        return [None] * len(kinds)
    metals = [kind for kind in kinds if kind != "cr"]
    thick = [total] if len(metals) == 1 else [total - inner, inner]
    amounts: list[Amount | None] = [Amount(um) if um else None for um in thick]
    return [Amount(_CHROMIUM_UM), *amounts] if kinds[0] == "cr" else amounts


def _with_standard(found: re.Match[str], _: Lexicon) -> Sense:
    return _coated(found["letter"], found["digit"], found["last"] or "")


def _three(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    letter, digit, last = found["letter"], found["digit"], found["last"]
    is_whole = found.group() == found.string.strip()
    if letter != "a" and not is_whole and not mentions(_CLASS, found.string):
        return None
    callout = _coated(letter, digit, last)
    low_carbon = lexicon.alloy(f"{letter}{digit}l") if last == "l" else None
    if low_carbon is None or mentions(_CLASS, found.string):
        return callout
    name = found.group().upper()
    return Riddle((callout, low_carbon), f"Is {name} a zinc code (ISO 4042) or a stainless group (ISO 3506)?")


def _two(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    name, is_whole = found.group(), found.group() == found.string.strip()
    if name in _RECESSES and not is_whole:
        return None
    if mentions(_CLASS, found.string):
        return _coated(found["letter"], found["digit"], "")
    group = stainless_group(name, lexicon)
    if group is not None and name[0] == "a" and not is_whole:
        if mentions(_STAINLESS_WORD, found.string):
            return group
        if mentions(FASTENER, found.string):
            reason = f"{name.upper()} on a fastener taken as the stainless group of ISO 3506"
            return replace(group, assumptions=(reason,))
    if not is_whole and not (group is not None and name[0] == "a"):
        return None
    return _riddle(name, group, found, lexicon)


def _riddle(name: str, group: Alloy | None, found: re.Match[str], lexicon: Lexicon) -> Riddle:
    listed = lexicon.alloy(name)
    others = tuple(n for n in listed.options if lexicon.family(n) != STAINLESS) if listed else ()
    senses: list[tuple[Alloy | Callout | None, str]] = [
        (group, "a stainless steel group (ISO 3506)"),
        (_coated(found["letter"], found["digit"], ""), "a coating code (ISO 4042)"),
        (Alloy(others, lexicon.family(others[0])) if others else None, "an alloy of this name"),
    ]
    meanings = [meaning for sense, meaning in senses if sense is not None]
    if name[0] == "c":
        meanings.append("a corrosivity class (ISO 12944)")
    question = f"What is {name.upper()} here: {' or '.join(meanings)}?"
    return Riddle(tuple(sense for sense, _ in senses if sense is not None), question)


_LETTERS = "".join(sorted(_METALS))

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?:(?:din )?(?:en )?iso ?4042|din ?267(?:-9| teil 9)?)[ /:,-]{{1,3}}(?P<letter>[{_LETTERS}])(?"
        rf"P<digit>\d)(?P<last>[a-hj-np-u])?",
        "4042 267",
        _with_standard,
        "fastener coating code ISO 4042",
    ),
    pattern(
        rf"(?P<letter>[{_LETTERS}])(?P<digit>[1-9])(?P<last>[a-hj-np-u])",
        "",
        _three,
        "fastener coating code ISO 4042",
    ),
    pattern(
        rf"(?P<letter>[{_LETTERS}])(?P<digit>[1-9])(?!-\d)", "", _two, "short code with several meanings"
    ),
)
