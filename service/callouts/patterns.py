"""Codes that a regular expression can recognise, guarded by a literal that must occur first.

Every expression is bounded (no nested repetition), so a scan costs time proportional to the text.
The guard keeps the common case cheap: a text without ``mil`` never runs the military grammars.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Mark, Sense

START = r"(?<![^\W_])"
"""No letter or digit before."""
END = r"(?![^\W_])"
"""No letter or digit after."""


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    """An expression, the beginnings of literals of which one must occur, and what a find means.

    ``read`` returns ``None`` where the find is nothing after all.
    """

    expression: re.Pattern[str]
    guards: frozenset[str]
    read: Callable[[re.Match[str], Lexicon], Sense | None]
    reason: str


def pattern(
    expression: str,
    literals: str,
    read: Callable[[re.Match[str], Lexicon], Sense | None],
    reason: str,
    *,
    is_bounded: bool = True,
) -> Pattern:
    """Build a pattern; ``literals`` are separated by blanks, ``is_bounded`` adds word boundaries."""
    whole = f"{START}(?:{expression}){END}" if is_bounded else expression
    guards = frozenset(literal[:_LONGEST_GUARD] for literal in literals.split())
    return Pattern(re.compile(whole), guards, read, reason)


_LONGEST_GUARD = 3


def grams_of(text: str) -> set[str]:
    """Return all stretches of up to three characters, against which guards are checked at once."""
    grams = set(text)
    grams.update(map("".join, pairwise(text)))
    grams.update(map("".join, zip(text, text[1:], text[2:], strict=False)))
    return grams


def stands_alone(found: re.Match[str]) -> bool:
    """Whether a number is not a piece of a part number such as 7075-0012 or AB-6061."""
    text = found.string
    after = text[found.end() : found.end() + 2]
    before = text[: found.start()][-2:]
    return not (after[:1] in _GLUE and after[1:].isdigit()) and not (
        before[1:] in _GLUE and before[:1].isalnum()
    )


_GLUE = frozenset("-_.")


@lru_cache(maxsize=64)
def mentions(expression: re.Pattern[str], text: str) -> bool:
    """Whether a text holds what a code needs beside it; looked up once for all the codes of a text."""
    return expression.search(text) is not None


_UNGUARDED = ""


@lru_cache(maxsize=64)
def _places_of(entries: tuple[Pattern, ...]) -> dict[str, tuple[int, ...]]:
    """Tell for each guard which patterns it wakes."""
    places: dict[str, list[int]] = {_UNGUARDED: []}
    for place, entry in enumerate(entries):
        for guard in entry.guards or (_UNGUARDED,):
            places.setdefault(guard, []).append(place)
    return {guard: tuple(held) for guard, held in places.items()}


def guards_of(patterns: Iterable[Pattern]) -> frozenset[str]:
    """Return all guards of some patterns."""
    return frozenset(guard for entry in patterns for guard in entry.guards)


def marks_of(patterns: Iterable[Pattern], text: str, grams: set[str], lexicon: Lexicon) -> Iterator[Mark]:
    """Yield a mark for each find."""
    entries = tuple(patterns)
    places = _places_of(entries)
    awake = {place for gram in grams & places.keys() for place in places[gram]}
    for place in sorted(awake.union(places[_UNGUARDED])):
        entry = entries[place]
        for found in entry.expression.finditer(text):
            sense = entry.read(found, lexicon)
            if sense is not None:
                yield Mark(found.start(), found.end(), sense, entry.reason)
