"""From marks to a reading: materials and finishes combined, doubts kept, every character accounted for."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import product

from service.callouts.choices import is_metal_word, place_of_choice
from service.callouts.coats import Coats, read_coats
from service.callouts.finishes.implied_basis import IMPLIED_BASIS
from service.callouts.layering import FinishReading, Stack, read_finish
from service.callouts.leftovers import hidden_finishes, trailing_codes
from service.callouts.lexicon import Lexicon, Token
from service.callouts.marks import (
    Alloy,
    Bare,
    Coat,
    Foreign,
    Mark,
    MetalClass,
    Riddle,
    Trait,
    Wear,
)
from service.callouts.materials import MaterialReading, material_of_coat, read_materials, without_stainless
from service.callouts.neighbours import told_apart
from service.callouts.normalise import Normalised
from service.callouts.reading import Candidate, Match, Reading, Span
from service.callouts.spans import spans_of
from service.catalogue.records import FinishRole
from service.catalogue.surfaces import Condition, Surface

MOST_CANDIDATES = 12
"""Readings of one text that are worth judging."""

_MOST_RIDDLES = 2
"""Riddles of one text that are each read in every meaning; others take their likeliest one."""

NO_FINISH_NAMED = "no finish named: taken as bare"
BASIS_OPEN = "basis material"

_CERTAIN = 0.95
_PER_ASSUMPTION = 0.93
_CORRECTED = 0.8
_BASIS_NAMES = {"wrought aluminium": "aluminium", "cast aluminium": "aluminium"}


@dataclass(frozen=True, slots=True)
class Text:
    """A text with its marks and the words that nothing explains.

    ``finish_from`` is where the finish note starts, if material and finish came apart.
    """

    original: str
    normalised: Normalised
    marks: tuple[Mark, ...]
    unread: tuple[Token, ...]
    is_corrected: bool = False
    finish_from: int | None = None


@dataclass(frozen=True, slots=True)
class _Parts:
    text: Text
    material: MaterialReading
    coats: Coats
    finish: FinishReading
    hidden: tuple[str, ...]
    is_lone: bool = False


def compose(text: Text, lexicon: Lexicon) -> Reading:
    """Combine the marks of a text into candidates, best first."""
    choice = place_of_choice(text.marks, text.normalised.text)
    if choice is not None:
        return _both(text, choice, lexicon)
    riddles = tuple(dict.fromkeys(mark.sense for mark in text.marks if isinstance(mark.sense, Riddle)))
    return _each_meaning(text, riddles, lexicon) if riddles else _composed(text, lexicon)


def _both(text: Text, place: int, lexicon: Lexicon) -> Reading:
    """Read what stands on either side of an *or* by itself."""
    sides = (text.marks[:place], text.marks[place + 1 :])
    readings = [compose(replace(text, marks=marks), lexicon) for marks in sides]
    candidates = [
        replace(candidate, confidence=_rounded(candidate.confidence / len(sides)))
        for reading in readings
        for candidate in reading.candidates
    ]
    question = "Which of the alternatives is the part made as?"
    ranked = sorted(candidates, key=lambda candidate: -candidate.confidence)[:MOST_CANDIDATES]
    return Reading(text.original, Match.AMBIGUOUS, tuple(ranked), question) if ranked else readings[0]


def _composed(text: Text, lexicon: Lexicon) -> Reading:
    parts = _parts(text, lexicon)
    if not parts.material.options and (not parts.finish.stacks or _is_painted_plastic(parts, lexicon)):
        return _unknown(parts)
    candidates = _candidates(parts)
    question = _question(parts, lexicon) if len(candidates) > 1 or _asks(parts) else ""
    match = Match.FUZZY if text.is_corrected else Match.NORMALISED
    return Reading(text.original, Match.AMBIGUOUS if question else match, tuple(candidates), question)


def _each_meaning(text: Text, riddles: tuple[Riddle, ...], lexicon: Lexicon) -> Reading:
    """Read a text with each meaning of its first riddles; a riddle means the same wherever it stands."""
    asked = riddles[:_MOST_RIDDLES]
    readings: list[Reading] = []
    for meanings in product(*(riddle.senses for riddle in asked)):
        meant = {riddle: riddle.senses[0] for riddle in riddles} | dict(zip(asked, meanings, strict=True))
        marks = tuple(
            mark._replace(sense=meant[mark.sense]) if isinstance(mark.sense, Riddle) else mark
            for mark in text.marks
        )
        readings.append(_composed(replace(text, marks=marks), lexicon))
    candidates = [candidate for reading in readings for candidate in reading.candidates][:MOST_CANDIDATES]
    shared = tuple(replace(c, confidence=_rounded(c.confidence / len(readings))) for c in candidates)
    return Reading(text.original, Match.AMBIGUOUS, shared, riddles[0].question) if shared else readings[0]


def _parts(text: Text, lexicon: Lexicon) -> _Parts:
    marks = told_apart(text.marks, text.normalised, text.original)
    text = _with_roles(replace(text, marks=marks))
    body = text.normalised.text
    material = read_materials(text.marks, body, lexicon)
    coats = read_coats(text.marks, material, body)
    material = without_stainless(material, text.marks, coats.kinds, lexicon)
    is_lone = False
    promoted = coats.promoted or _lone_metal(text, material, coats)
    if promoted:
        is_bare = any(isinstance(mark.sense, Bare) for mark in text.marks)
        is_lone = not (coats.promoted or is_bare) and text.finish_from is None
        if is_bare and not coats.promoted:
            coats = replace(coats, placed=tuple(e for e in coats.placed if e.mark not in promoted))
        material = _named_by_metal(text, promoted, lexicon)
        if text.finish_from is not None:
            coats = replace(coats, placed=tuple(e for e in coats.placed if e.mark not in promoted))
    finish = read_finish(coats, material, lexicon.catalogue)
    return _Parts(text, material, coats, finish, _hidden(text, material, coats, finish), is_lone)


def _with_roles(text: Text) -> Text:
    """In a finish note a metal word is a coat, and an alloy counts only if the material note has none."""
    if text.finish_from is None:
        return text
    start = text.finish_from
    is_material = (Alloy, MetalClass)
    has_material = any(
        m.start < start and (isinstance(m.sense, is_material) or is_metal_word(m)) for m in text.marks
    )
    dropped = is_material if has_material else ()
    marks = tuple(
        _as_coat(mark) if mark.start >= start else mark
        for mark in text.marks
        if mark.start < start or not isinstance(mark.sense, dropped)
    )
    return replace(text, marks=marks)


def _as_coat(mark: Mark) -> Mark:
    if isinstance(mark.sense, Coat) and is_metal_word(mark):
        return mark._replace(sense=replace(mark.sense, is_bare_word=False))
    return mark


_TRAITS_OF_COATS = frozenset(
    {"gloss", "tin", "hardness", "tarnish", "colour", "seal", "chemistry", "treatment"}
)
"""What only a coat has: beside one of these a lone metal word is no part."""


def _lone_metal(text: Text, material: MaterialReading, coats: Coats) -> tuple[Mark, ...]:
    """A metal word that stands alone may name the part as well as a coat."""
    if material.is_named or coats.basis_family or any(name in _TRAITS_OF_COATS for name, _ in coats.traits):
        return ()
    end = text.finish_from
    bare = [e for e in coats.placed if e.coat.is_bare_word and (end is None or e.mark.start < end)]
    if end is not None:
        return tuple(entry.mark for entry in bare[:1])
    is_one = len(coats.kinds) == 1 and len(bare) == len(coats.placed)
    return (bare[0].mark,) if is_one and material_of_coat(bare[0].coat) else ()


def _named_by_metal(text: Text, promoted: tuple[Mark, ...], lexicon: Lexicon) -> MaterialReading:
    marks = [
        mark._replace(sense=metal)
        for mark in promoted
        if isinstance(mark.sense, Coat)
        and (metal := material_of_coat(replace(mark.sense, is_bare_word=True)))
    ]
    others = [mark for mark in text.marks if isinstance(mark.sense, (Alloy, MetalClass, Trait))]
    every = sorted([*others, *marks], key=lambda mark: mark.start)
    return read_materials(every, text.normalised.text, lexicon)


def _hidden(text: Text, material: MaterialReading, coats: Coats, finish: FinishReading) -> tuple[str, ...]:
    """Words that may name a finish which was not understood."""
    hidden = hidden_finishes(text.unread, text.marks, text.normalised, text.original)
    unlisted = [entry.mark for entry in finish.unlisted]
    hidden.extend(_written(text, mark) for mark in (*coats.unattached, *unlisted))
    is_bare = any(isinstance(mark.sense, Bare) for mark in text.marks)
    if not is_bare and not finish.stacks:
        hidden.extend(_written(text, mark) for mark in text.marks if _is_unread_trait(mark))
    if not hidden and material.is_named and not finish.stacks and not is_bare:
        end = max((mark.end for mark in material.marks), default=0)
        hidden = trailing_codes(text.unread, end, text.normalised, text.original)
    return tuple(dict.fromkeys(hidden))


def _foreign(parts: _Parts) -> list[str]:
    """Plastics and the like; PTFE in a coat is not the base material."""
    in_coats = (
        {(m.start, m.end) for m in parts.text.marks if isinstance(m.sense, Trait)}
        if parts.coats.placed
        else set()
    )
    return [
        mark.sense.name
        for mark in parts.text.marks
        if isinstance(mark.sense, Foreign) and (mark.start, mark.end) not in in_coats
    ]


def _is_painted_plastic(parts: _Parts, lexicon: Lexicon) -> bool:
    """A plastic under paint conducts no more than a bare one; under metal its coat is what is seen."""
    finishes = lexicon.catalogue.finishes
    layers = [layer for stack in parts.finish.stacks for layer in stack.layers]
    return (
        not parts.material.is_named
        and bool(_foreign(parts))
        and all(finishes[layer.finish_id].role is FinishRole.ORGANIC for layer in layers)
        and not any(finishes[layer.finish_id].is_conductive for layer in layers)
    )


def _written(text: Text, mark: Mark) -> str:
    start, end = text.normalised.span(mark.start, mark.end)
    return text.original[start:end]


def _is_unread_trait(mark: Mark) -> bool:
    """Colour and valence tell of a finish; only the colours of wires and knobs are let pass."""
    sense = mark.sense
    if not isinstance(sense, Trait):
        return False
    is_colour = sense.name == "colour" and sense.value not in {"natural", "dyed"}
    return is_colour or mark.reason in {"trivalent chromium", "hexavalent chromium"}


def _unknown(parts: _Parts) -> Reading:
    foreign = _foreign(parts)
    is_insulator = False
    if parts.material.missing:
        reason = "; ".join(parts.material.missing)
    elif foreign:
        reason = f"{foreign[0]}: not a metal or another conductor"
        is_insulator = not _MADE_TO_CONDUCT.search(parts.text.original)
    elif parts.hidden:
        reason = f"not understood: {', '.join(parts.hidden)}"
    else:
        reason = "no material or finish recognised"
    return Reading(parts.text.original, Match.UNKNOWN, reason=reason, is_insulator=is_insulator)


_MADE_TO_CONDUCT = re.compile(
    r"(?<!poly)(?<!poli)carbon|kohle|carbone|graphit|conduct|leitf|metalli|métalli|antistat|esd(?!\w)|shield",
    re.IGNORECASE,
)
"""Words that make a plastic conduct, or leave open whether it does."""


def _asks(parts: _Parts) -> bool:
    return bool(parts.hidden or parts.material.question or parts.finish.question)


def _question(parts: _Parts, lexicon: Lexicon) -> str:
    """Choose the one question that matters most: an unread finish, then what the electrolyte sees."""
    if parts.hidden:
        return f"What does {parts.hidden[0]!r} stand for: a finish, or nothing that matters here?"
    finishes = lexicon.catalogue.finishes
    outer = {
        finishes[stack.layers[0].finish_id].outer_electrode_id
        for stack in parts.finish.stacks
        if stack.layers
    }
    if parts.finish.question and (len(outer) > 1 or not parts.material.question):
        return parts.finish.question
    if parts.material.question:
        return parts.material.question
    names = " or ".join(lexicon.catalogue.materials[name].name for name in parts.material.options)
    return f"Which material is it: {names}?"


def _candidates(parts: _Parts) -> list[Candidate]:
    stacks = parts.finish.stacks or (Stack((), 1.0),)
    options = parts.material.options
    weighted: list[tuple[float, str | None, Stack]] = []
    for rank, name in enumerate(options):
        own = (Stack((), 1.0),) if parts.is_lone else stacks
        weighted.extend((stack.weight / (rank + 1.5), name, stack) for stack in own)
    if parts.is_lone or not options:
        weighted.extend((stack.weight / (len(options) + 1.5), None, stack) for stack in stacks)
    total = sum(weight for weight, _, _ in weighted)
    ranked = sorted(weighted, key=lambda entry: -entry[0])[:MOST_CANDIDATES]
    spans = spans_of(parts.text.marks, parts.material, parts.coats, parts.text.normalised)
    return [_candidate(parts, name, stack, weight / total, spans) for weight, name, stack in ranked]


def _candidate(
    parts: _Parts, material_id: str | None, stack: Stack, share: float, spans: tuple[Span, ...]
) -> Candidate:
    is_unsaid = not any(isinstance(mark.sense, Bare) for mark in parts.text.marks)
    assumptions = (
        *(parts.material.assumptions if material_id else ()),
        *parts.coats.assumptions,
        *stack.assumptions,
        *((NO_FINISH_NAMED,) if not stack.layers and is_unsaid and not parts.hidden else ()),
    )
    confidence = share * _CERTAIN * _PER_ASSUMPTION ** len(assumptions)
    if parts.text.is_corrected:
        confidence *= _CORRECTED
    surface = Surface(
        material_id=material_id,
        layers=stack.layers,
        condition=_condition(parts.text),
        basis_family="" if material_id else _basis_family(parts, stack),
        temper=parts.material.temper,
        strength_class=parts.material.strength_class,
    )
    return Candidate(
        surface,
        _rounded(confidence),
        spans,
        tuple(dict.fromkeys(assumptions)),
        _missing(parts, material_id),
    )


def _missing(parts: _Parts, material_id: str | None) -> tuple[str, ...]:
    missing = list(parts.material.missing)
    if material_id is None and not missing:
        foreign = _foreign(parts)
        missing.append(f"{BASIS_OPEN}: {foreign[0]} is not a metal" if foreign else BASIS_OPEN)
    word = "not read" if parts.finish.stacks else "finish"
    missing.extend(f"{word}: {text}" for text in parts.hidden)
    return tuple(missing)


def _basis_family(parts: _Parts, stack: Stack) -> str:
    families = {_BASIS_NAMES.get(name, name) for name in parts.material.families}
    if len(families) == 1 and not parts.is_lone:
        return families.pop()
    implied = [IMPLIED_BASIS[layer.finish_id] for layer in stack.layers if layer.finish_id in IMPLIED_BASIS]
    return parts.coats.basis_family or (implied[-1] if implied else "")


def _condition(text: Text) -> Condition:
    worn = [mark.sense.condition for mark in text.marks if isinstance(mark.sense, Wear)]
    return Condition(min(worn)) if worn else Condition.INTACT


def _rounded(confidence: float) -> float:
    return float(f"{confidence:.2g}")
