"""What a finish grammar decides: which finishes a coat may be, and what would settle it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from service.callouts.marks import Amount, Callout, Clues, Coat, Option


@dataclass(frozen=True, slots=True)
class Decision:
    """Finishes that a coat may be, best first; ``question`` settles which."""

    options: tuple[Option, ...]
    question: str = ""


@cache
def certain(finish_id: str, assumption: str = "") -> Decision:
    """Decide for one finish."""
    return Decision((Option(finish_id, 1.0, assumption),))


def torn(question: str, **weights: float) -> Decision:
    """Leave several finishes open; underscores in the names stand for dashes."""
    options = tuple(Option(name.replace("_", "-"), weight) for name, weight in weights.items())
    return Decision(options, question)


def first_that_holds(rules: Iterable[tuple[bool, Decision | str]], otherwise: Decision) -> Decision:
    """Return the decision of the first rule whose condition holds; a plain name is certain."""
    for holds, decision in rules:
        if holds:
            return certain(decision) if isinstance(decision, str) else decision
    return otherwise


def coat_of(kind: str, decision: Decision, amount: Amount | None = None, process: str = "") -> Coat:
    """Build a coat whose finish a code has fixed."""
    return Coat(kind, process, amount, decision.options, decision.question)


def callout_of(
    kind: str, decision: Decision, basis_family: str = "", amount: Amount | None = None, *under: Coat
) -> Callout:
    """Build a callout of one decided coat, with what lies beneath it."""
    return Callout((coat_of(kind, decision, amount), *under), basis_family)


def roman_free(text: str) -> str:
    """Write a type or class with Arabic figures.

    Examples
    --------
    >>> roman_free("III"), roman_free("IIB"), roman_free("1A")
    ('3', '2b', '1a')
    """
    lower = text.lower()
    letter = lower[-1] if lower[-1:] in {"a", "b", "c"} and len(lower) > 1 else ""
    stem = lower[: len(lower) - len(letter)]
    return _ROMAN.get(stem, stem) + letter


_ROMAN_FIGURES = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x")
_ROMAN = {name: str(figure) for figure, name in enumerate(_ROMAN_FIGURES, start=1)}


def attribute_amount(clues: Clues, name: str, table: dict[str, float]) -> Amount | None:
    """Return the thickness that a class or service condition stands for."""
    thickness = table.get(clues.attribute(name))
    return Amount(thickness) if thickness is not None else None
