"""Which coats the marks of a text name, each with its thickness, and which metal words are none."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from service.callouts.marks import (
    Amount,
    Attribute,
    Callout,
    Clues,
    Coat,
    Link,
    Mark,
    Process,
    Spec,
    Trait,
    Zone,
)
from service.callouts.materials import MaterialReading, material_of_coat

_NEAR = re.compile(r"[ \-./:=(,]{0,4}(?:with |mit |avec |of )?")
_FILMS = frozenset({"anodise", "chemfilm", "chromate", "paint", "powder", "ecoat", "lacquer"})
_DYED = frozenset({"wrought aluminium", "cast aluminium"})
_CHROMATED = frozenset({"zn", "znni", "cd"})
_COLOUR_WORDS = {"au": "yellow", "ag": "clear", "cu": "dyed"}
"""Metal words that name a colour beside an anodic or conversion film (*chem film, gold*)."""
_SYMBOL_LENGTH = 2
_SHORT_FOR_ELECTROPLATED = frozenset({"galv", "gal", "galvan", "galvanisiert"})
_ELECTROPLATED = frozenset(
    {
        "ni",
        "sn",
        "cu",
        "ag",
        "au",
        "cr",
        "cd",
        "znni",
        "snpb",
        "brass",
        "pd",
        "rh",
        "snzn",
        "znfe",
        "whitebronze",
    }
)
_COPPER = "cu"
_TOO_THICK_FOR_A_STRIKE_UM = 8.0
_BASIS_FIRST = {"cu": "copper", "zn": "zinc"}
"""Bare metal words that name the part where other coats follow (*Copper, tin plated*), with its family."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A coat, the stretch of text that named it, and the mark that gave its thickness."""

    coat: Coat
    mark: Mark
    amount_mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Coats:
    """Coats in the order of the text, with what else the text says of the finish.

    ``overs`` are pairs (upper kind, lower kind) that the text orders itself. ``promoted`` are metal
    words that name the part. ``unattached`` are process words to which no coat belongs.
    """

    placed: tuple[Placed, ...] = ()
    traits: frozenset[tuple[str, str]] = frozenset()
    attributes: tuple[tuple[str, str], ...] = ()
    basis_family: str = ""
    assumptions: tuple[str, ...] = ()
    overs: tuple[tuple[str, str], ...] = ()
    zones: tuple[str, ...] = ()
    promoted: tuple[Mark, ...] = ()
    unattached: tuple[Mark, ...] = ()

    @property
    def kinds(self) -> frozenset[str]:
        """Kinds of all coats."""
        return frozenset(entry.coat.kind for entry in self.placed)


def read_coats(marks: Sequence[Mark], material: MaterialReading, text: str) -> Coats:
    """Collect the coats that a text names."""
    spoken = _spoken(marks, text)
    overs = _overs(marks, spoken)
    spoken = _unbared(spoken, overs, material)
    traits = frozenset((m.sense.name, m.sense.value) for m in marks if isinstance(m.sense, Trait))
    spoken, colours = _without_colours(spoken, material)
    traits |= colours
    placed, free_attributes, basis, assumptions = _with_specs(marks, spoken, traits, material)
    placed = _with_amounts(placed, marks)
    placed, promoted = _without_basis(placed, material, basis)
    return Coats(
        placed=tuple(placed),
        traits=traits,
        attributes=free_attributes,
        basis_family=basis,
        assumptions=assumptions,
        overs=tuple((upper.coat.kind, lower.coat.kind) for upper, lower in overs),
        zones=tuple(dict.fromkeys(m.sense.name for m in marks if isinstance(m.sense, Zone))),
        promoted=tuple(promoted),
        unattached=tuple(_unattached(marks, placed)),
    )


def _spoken(marks: Sequence[Mark], text: str) -> list[Placed]:
    """Coats named by words and codes; a process word next to a metal word makes it a coat."""
    placed: list[Placed] = []
    for index, mark in enumerate(marks):
        if _says_electroplated(marks, index, text):
            continue
        if isinstance(mark.sense, Callout):
            placed.extend(Placed(coat, mark) for coat in mark.sense.coats)
        elif isinstance(mark.sense, Coat):
            coat = mark.sense
            if coat.is_bare_word and _touches_process(marks, index, text):
                coat = replace(coat, is_bare_word=False)
            placed.append(Placed(coat, mark))
    return placed


def _says_electroplated(marks: Sequence[Mark], index: int, text: str) -> bool:
    """Whether *galv.* before another metal is short for galvanisch, electroplated: *galv. Sn*."""
    mark = marks[index]
    after = marks[index + 1] if index + 1 < len(marks) else None
    return bool(
        text[mark.start : mark.end] in _SHORT_FOR_ELECTROPLATED
        and after
        and isinstance(after.sense, Coat)
        and after.sense.kind in _ELECTROPLATED
        and text[mark.end : after.start].strip(" .:-") == ""
    )


def _touches_process(marks: Sequence[Mark], index: int, text: str) -> bool:
    mark = marks[index]
    after = marks[index + 1] if index + 1 < len(marks) else None
    before = marks[index - 1] if index else None
    if after and isinstance(after.sense, Process) and text[mark.end : after.start].strip(" -./") == "":
        return True
    is_free = not any(
        isinstance(earlier.sense, (Coat, Callout)) for earlier in marks[max(index - 2, 0) : index]
    )
    near = before and _NEAR.fullmatch(text, before.end, mark.start)
    return bool(
        before
        and near
        and isinstance(before.sense, Process)
        and not before.sense.is_weak
        and is_free
        and (near.group().strip() or not _is_copper(mark))  # a plated copper part is not plated with copper
    )


def _is_copper(mark: Mark) -> bool:
    return isinstance(mark.sense, Coat) and mark.sense.kind == _COPPER


def _overs(marks: Sequence[Mark], placed: Sequence[Placed]) -> list[tuple[Placed, Placed]]:
    """Pairs of coats with a word such as *over* between them."""
    pairs = []
    ends = [entry.mark.end for entry in placed]
    for mark in marks:
        if mark.sense is not Link.OVER:
            continue
        lower = bisect_right(ends, mark.start)
        if 0 < lower < len(placed) and placed[lower - 1].coat.kind != placed[lower].coat.kind:
            pairs.append((placed[lower - 1], placed[lower]))
    return pairs


def _unbared(
    spoken: Sequence[Placed], overs: Iterable[tuple[Placed, Placed]], material: MaterialReading
) -> list[Placed]:
    """A metal word that stands over another coat, or under it, is a coat."""
    coats = {upper.mark.start for upper, _ in overs}
    for _, lower in overs:
        basis = _BASIS_FIRST.get(lower.coat.kind)
        if basis is None or (material.is_named and basis not in material.families):
            coats.add(lower.mark.start)
    return [
        replace(entry, coat=replace(entry.coat, is_bare_word=False)) if entry.mark.start in coats else entry
        for entry in spoken
    ]


def _without_colours(
    placed: list[Placed], material: MaterialReading
) -> tuple[list[Placed], frozenset[tuple[str, str]]]:
    kinds = {entry.coat.kind for entry in placed}
    is_aluminium = bool(material.families) and material.families <= _DYED
    words = set(_COLOUR_WORDS) if is_aluminium or "anodise" in kinds else {"au", "ag"}
    is_plated = bool(kinds & _ELECTROPLATED - set(_COLOUR_WORDS)) or "en" in kinds
    if not kinds & (_FILMS | _CHROMATED) and (is_plated or not is_aluminium):
        return placed, frozenset()
    kept = [entry for entry in placed if not (entry.coat.kind in words and _is_colour(entry))]
    coloured = {entry.coat.kind for entry in placed if entry.coat.kind in words and _is_colour(entry)}
    return kept, frozenset(("colour", _COLOUR_WORDS[kind]) for kind in coloured)


def _is_colour(entry: Placed) -> bool:
    """A metal word, not its symbol, can be a colour."""
    return entry.coat.is_bare_word and entry.mark.end - entry.mark.start > _SYMBOL_LENGTH


def _with_specs(
    marks: Sequence[Mark], spoken: list[Placed], traits: frozenset[tuple[str, str]], material: MaterialReading
) -> tuple[list[Placed], tuple[tuple[str, str], ...], str, tuple[str, ...]]:
    """Read each specification with the types and classes that stand around it."""
    specs = [(mark, mark.sense) for mark in marks if isinstance(mark.sense, Spec)]
    attributes = [
        (mark.start, (mark.sense.name, mark.sense.value))
        for mark in marks
        if isinstance(mark.sense, Attribute)
    ]
    amounts = [mark.sense for mark in marks if isinstance(mark.sense, Amount)]
    callouts = [mark.sense for mark in marks if isinstance(mark.sense, Callout)]
    kinds = frozenset(entry.coat.kind for entry in spoken)
    places = [place for place, _ in attributes]
    placed = list(spoken)
    for index, (mark, spec) in enumerate(specs):
        start = 0 if index == 0 else mark.start
        end = specs[index + 1][0].start if index + 1 < len(specs) else marks[-1].end
        around = slice(bisect_left(places, start), bisect_left(places, end))
        near = tuple(pair for _, pair in attributes[around])
        clues = Clues(traits, near, material.families, kinds, amounts[0] if len(amounts) == 1 else None)
        callout = spec.read(clues)
        if callout is not None:
            placed.extend(Placed(coat, mark) for coat in callout.coats if _adds(coat, kinds, near))
            callouts.append(callout)
    placed.sort(key=lambda entry: entry.mark.start)
    free = () if specs else tuple(pair for _, pair in attributes)
    basis = next((callout.basis_family for callout in callouts if callout.basis_family), "")
    assumptions = tuple(text for callout in callouts for text in callout.assumptions)
    return placed, free, basis, assumptions


def _adds(coat: Coat, said: frozenset[str], attributes: tuple[tuple[str, str], ...]) -> bool:
    """A document cited without type or class adds nothing to a coat that the text itself names."""
    return bool(attributes) or coat.kind not in said or len(coat.options) == 1


def _with_amounts(placed: list[Placed], marks: Sequence[Mark]) -> list[Placed]:
    """Give each thickness to the coat that it stands before or behind, as the text starts."""
    amounts = [(mark, mark.sense) for mark in marks if isinstance(mark.sense, Amount)]
    if not placed or not amounts:
        return placed
    result = list(placed)
    leads = amounts[0][0].start < placed[0].mark.start
    vacant = [index for index, entry in enumerate(result) if entry.coat.amount is None]
    starts = [result[index].mark.start for index in vacant]
    for mark, amount in amounts:
        if not vacant:
            break
        if amount.low_um >= _TOO_THICK_FOR_A_STRIKE_UM and len(vacant) > 1:
            vacant = [index for index in vacant if not _is_strike(result[index])] or vacant
            starts = [result[index].mark.start for index in vacant]
        after = bisect_left(starts, mark.start)
        takes_after = after == 0 or (leads and after < len(vacant))
        place = after if takes_after else after - 1
        chosen = vacant.pop(place)
        del starts[place]
        coat = replace(result[chosen].coat, amount=amount, is_bare_word=False)
        result[chosen] = replace(result[chosen], coat=coat, amount_mark=mark)
    return result


def _is_strike(entry: Placed) -> bool:
    return entry.coat.is_under and entry.coat.kind == _COPPER


def _without_basis(
    placed: list[Placed], material: MaterialReading, basis_family: str
) -> tuple[list[Placed], list[Mark]]:
    """Tell coats from metal words that name the part itself."""
    bare = [entry for entry in placed if entry.coat.is_bare_word]
    if not bare:
        return placed, []
    if material.is_named:
        absorbed = [
            entry
            for entry in bare
            if (metal := material_of_coat(entry.coat)) and metal.families & material.families
        ]
    elif basis_family or len(placed) == 1:
        absorbed = []
    else:
        absorbed = _first_or_last_basis(placed)
    taken = {entry.mark.start for entry in absorbed}
    kept = [entry for entry in placed if not (entry.coat.is_bare_word and entry.mark.start in taken)]
    return kept, [entry.mark for entry in absorbed]


def _first_or_last_basis(placed: list[Placed]) -> list[Placed]:
    for entry in (placed[0], placed[-1]):
        if entry.coat.is_bare_word and entry.coat.kind in _BASIS_FIRST:
            return [entry]
    return []


def _unattached(marks: Sequence[Mark], placed: list[Placed]) -> list[Mark]:
    if placed:
        return []
    return [mark for mark in marks if isinstance(mark.sense, Process) and not mark.sense.is_weak]
