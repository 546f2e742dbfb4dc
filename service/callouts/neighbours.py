"""What a word means by its capitals and by the words beside it: Ms, copper foil, black plastic."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from service.callouts.designations.copper import ANY_BRASS
from service.callouts.designations.other_metals import METAL_OF_COAT
from service.callouts.marks import Alloy, Amount, Aside, Coat, Foreign, Mark, Sense, Trait
from service.callouts.normalise import Normalised

_BY_CAPITALS: dict[str, Sense] = {"TiN": Coat("pvd"), "Ms": ANY_BRASS}
"""Titanium nitride is not tin, and the short form of Messing is no mild steel."""

_HAVE_CAPITALS = frozenset({*(word.lower() for word in _BY_CAPITALS), "au", "ag", "cube"})
_FRENCH_AU = re.compile(r" (?!plat|over|flash|coat|finish|on |sur |auf |ni|cu |pd|ag )[a-z]")
"""What follows the French article, *traité au zinc*, and not the sign of gold."""

_FORM = re.compile(
    r"[ -]{0,2}(?:bare |raw |blank )?(?:foil|strip|wires?|tape|bars?|rods?|tub(?:e|ing)|pipe|mesh|ribbon|"
    r"shim|braid|cables?|bus ?bars?|sheets?|ingot|folie|blech|band|draht|schienen?|rohr|stange|litze|"
    r"feuille|bande|barre|fil|tresse|tuyau)(?![^\W_])(?![ -]{0,2}(?:steel|stahl|acier|metal|alumin|alu))"
)
"""Forms that are bought of a metal, never of a coat."""
_PURITY = re.compile(r"(?P<symbol>zn|sn|cu|pb|ni|ag|au|cr|cd) ?99\.\d+")
"""A metal of stated purity: the part itself, but a coat if a thickness stands right behind it."""
_BIMETAL = re.compile(r"(?<![^\W_])(?:bi-?metal|cupal)")
_COLOURS = frozenset({"ag", "au"})
_ANYWHERE = re.compile("")
_BESIDE = re.compile(r"[ ,;:-]{0,3}")
_TOUCHING = re.compile(r"[ -]{0,2}")


def told_apart(marks: Sequence[Mark], normalised: Normalised, original: str) -> tuple[Mark, ...]:
    """Give those words their meaning that only their surroundings fix."""
    body = normalised.text
    is_metal = _ANYWHERE if _BIMETAL.search(body) else _FORM
    told = list(marks)
    for index, mark in enumerate(marks):
        sense = mark.sense
        if body[mark.start : mark.end] in _HAVE_CAPITALS:
            first, last = normalised.span(mark.start, mark.end)
            sense = _BY_CAPITALS.get(original[first:last], sense)
            if _is_no_symbol(marks, index, original[first:last], body):
                sense = Aside()
        purity = _PURITY.fullmatch(body, mark.start, mark.end) if isinstance(sense, Alloy) else None
        if purity and _has_thickness(marks, index, body):
            sense = Coat(purity["symbol"])
        if isinstance(sense, Coat) and sense.is_bare_word:
            is_colour = sense.kind in _COLOURS and _is_of_plastic(marks, index, body)
            sense = Aside() if is_colour else _metal(sense, mark, body, is_metal)
        elif isinstance(sense, Trait) and sense.name == "colour" and _is_of_plastic(marks, index, body):
            sense = Aside(sense.value)
        if sense is not mark.sense:
            told[index] = mark._replace(sense=sense)
    return tuple(told)


def _is_no_symbol(marks: Sequence[Mark], index: int, written: str, body: str) -> bool:
    """Whether *au* is the French article, *AG* part of the name of a firm, and a *cube* no CuBe."""
    mark = marks[index]
    if body[mark.start : mark.end] == "cube":
        return written != "CuBe"
    if written == "au":
        return _FRENCH_AU.match(body, mark.end) is not None
    before = body[: mark.start].rstrip(" ")
    is_after_a_name = before[-1:].isalpha() and (not index or marks[index - 1].end < len(before))
    return written == "AG" and is_after_a_name


def _has_thickness(marks: Sequence[Mark], index: int, body: str) -> bool:
    after = marks[index + 1] if index + 1 < len(marks) else None
    return (
        after is not None
        and isinstance(after.sense, Amount)
        and _BESIDE.fullmatch(body, marks[index].end, after.start) is not None
    )


def _metal(coat: Coat, mark: Mark, body: str, is_metal: re.Pattern[str]) -> Sense:
    """A metal word before a form, or anywhere in a part of two metals, names a metal and no coat."""
    metal = METAL_OF_COAT.get(coat.kind)
    if metal is None or not is_metal.match(body, mark.end):
        return coat
    return replace(metal, question=f"Which {metal.name} is it?")


def _is_of_plastic(marks: Sequence[Mark], index: int, body: str) -> bool:
    """Whether a colour stands right beside a plastic: *polyamide black with stainless pin*."""
    mark = marks[index]
    before = marks[index - 1] if index else None
    after = marks[index + 1] if index + 1 < len(marks) else None
    return any(
        isinstance(left.sense if left is not mark else right.sense, Foreign)
        and _TOUCHING.fullmatch(body, left.end, right.start)
        for left, right in ((before, mark), (mark, after))
        if left is not None and right is not None
    )
