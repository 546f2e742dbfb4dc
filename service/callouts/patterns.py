"""Codes that a regular expression can recognise, guarded by a literal that must occur first.

Every expression is bounded (no nested repetition), so a scan costs time proportional to the text.
The guard keeps the common case cheap: a text without ``mil`` never runs the military grammars.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Mark, Sense

START = r"(?<![^\W_])"
"""No letter or digit before."""
END = r"(?![^\W_])"
"""No letter or digit after."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """An expression, the literals of which one must occur, and what a find means.

    ``read`` returns ``None`` where the find is nothing after all.
    """

    expression: re.Pattern[str]
    literals: tuple[str, ...]
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
    return Pattern(re.compile(whole), tuple(literals.split()), read, reason)


def stands_alone(found: re.Match[str]) -> bool:
    """Whether a number is not a piece of a part number such as 7075-0012 or AB-6061."""
    text = found.string
    after = text[found.end() : found.end() + 2]
    before = text[: found.start()][-2:]
    return not (after[:1] in _GLUE and after[1:].isdigit()) and not (
        before[1:] in _GLUE and before[:1].isalnum()
    )


_GLUE = frozenset("-_.")


def marks_of(patterns: Iterable[Pattern], text: str, lexicon: Lexicon) -> Iterator[Mark]:
    """Yield a mark for each find."""
    for entry in patterns:
        if entry.literals and not any(literal in text for literal in entry.literals):
            continue
        for found in entry.expression.finditer(text):
            sense = entry.read(found, lexicon)
            if sense is not None:
                yield Mark(found.start(), found.end(), sense, entry.reason)
