"""Which characters of the caller's text justified which field."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from service.callouts.coats import Coats
from service.callouts.marks import Alloy, Attribute, Bare, Mark, Spec, Trait, Wear
from service.callouts.materials import MaterialReading
from service.callouts.normalise import Normalised
from service.callouts.reading import Span


def spans_of(
    marks: Iterable[Mark], material: MaterialReading, coats: Coats, normalised: Normalised
) -> tuple[Span, ...]:
    """Return the spans of a reading in the order of the text."""
    found = [*_of_material(material), *_of_coats(coats), *_of_words(marks, coats)]
    spans = []
    for field, mark in dict.fromkeys((field, mark) for field, mark in found):
        start, end = normalised.span(mark.start, mark.end)
        spans.append(Span(field, start, end, mark.reason))
    return tuple(sorted(set(spans), key=lambda span: (span.start, span.end, span.field)))


def _of_material(material: MaterialReading) -> Iterator[tuple[str, Mark]]:
    for mark in material.marks:
        if isinstance(mark.sense, Trait):
            yield "temper", mark
            continue
        yield "material", mark
        if isinstance(mark.sense, Alloy) and mark.sense.temper:
            yield "temper", mark


def _of_coats(coats: Coats) -> Iterator[tuple[str, Mark]]:
    for entry in coats.placed:
        yield "finish", entry.mark
        if entry.amount_mark is not None:
            yield "thickness", entry.amount_mark
        elif entry.coat.amount is not None:
            yield "thickness", entry.mark


def _of_words(marks: Iterable[Mark], coats: Coats) -> Iterator[tuple[str, Mark]]:
    for mark in marks:
        sense = mark.sense
        if isinstance(sense, Wear):
            yield "condition", mark
        elif (isinstance(sense, Bare) and not coats.placed) or (
            coats.placed and (isinstance(sense, (Spec, Attribute)) or _is_finish_trait(sense))
        ):
            yield "finish", mark


def _is_finish_trait(sense: object) -> bool:
    return isinstance(sense, Trait) and sense.name not in {"temper", "form"}
