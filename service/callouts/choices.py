"""Where a text leaves a choice between a material and a coat: *stainless A4 or hot-dip galvanised*."""

from __future__ import annotations

from collections.abc import Sequence

from service.callouts.marks import Alloy, Aside, Callout, Coat, Link, Mark, MetalClass, Process
from service.callouts.materials import material_of_coat

_OR = frozenset({"or", "oder", "ou"})


def place_of_choice(marks: Sequence[Mark], body: str) -> int | None:
    """Return the index of an *or* between a material and a coat, ``None`` if there is none.

    Both sides are then read by themselves, because the coat is not one of that material. An *or*
    between two materials or two coats leaves a doubt about one of them alone.
    """
    for place, mark in enumerate(marks):
        if mark.sense is not Link.ALTERNATIVE or body[mark.start : mark.end] not in _OR:
            continue
        said = [each for each in marks[:place] if not isinstance(each.sense, (Process, Aside))]
        left = marks[place + 1 :]
        if not said or not left:
            continue
        if _is_base(said[-1]) and _is_coat(left[0]) and not any(map(_is_coat, said)):
            return place
        if _is_coat(said[-1]) and _is_base(left[0]) and not any(map(_is_coat, left)):
            return place
    return None


def is_metal_word(mark: Mark) -> bool:
    """Whether a mark of a coat may as well name a part of that metal."""
    return isinstance(mark.sense, Coat) and material_of_coat(mark.sense) is not None


def _is_base(mark: Mark) -> bool:
    return isinstance(mark.sense, (Alloy, MetalClass))


def _is_coat(mark: Mark) -> bool:
    """Whether a mark is one of a coat; zinc is one, copper may as well be the part."""
    sense = mark.sense
    is_zinc = isinstance(sense, Coat) and sense.kind == "zn"
    return is_zinc or (isinstance(sense, (Callout, Coat)) and not is_metal_word(mark))
