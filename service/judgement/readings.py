"""From a side as asked to the surfaces it may mean."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from service.callouts.reading import Candidate, Match, Reading
from service.callouts.resolver import Resolver
from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement.errors import InvalidInquiryError
from service.judgement.inquiry import Side

MOST_READINGS = 4
"""Readings of one ambiguous text that are judged; the rest are listed only."""

LONGEST_KEPT = 200
"""Characters of a text whose reading is kept for the next time; drawings repeat the short ones."""

_STRICTNESS = (Match.EXACT, Match.NORMALISED, Match.FUZZY, Match.AMBIGUOUS, Match.UNKNOWN)


def reading_of(side: Side, pointer: str, catalogue: Catalogue) -> Reading:
    """Read a side.

    Parameters
    ----------
    side : Side
    pointer : str
        JSON pointer to the side, for errors.
    catalogue : Catalogue

    Returns
    -------
    Reading

    Raises
    ------
    InvalidInquiryError
        If the side names nothing, names too much, or a structure names records that do not exist.
    """
    given = sum(
        bool(part) for part in (side.text.strip(), side.material.strip() or side.finish.strip(), side.surface)
    )
    if given == 0:
        raise InvalidInquiryError(pointer, "name a surface by text, by material and finish, or by structure")
    if given > 1:
        raise InvalidInquiryError(pointer, "name a surface in one way only: text, notes or structure")
    if side.surface is not None:
        _check(side.surface, pointer, catalogue)
        reading = Reading(side.text, Match.EXACT, (Candidate(side.surface, 1.0),))
    else:
        is_short = len(side.text) + len(side.material) + len(side.finish) <= LONGEST_KEPT
        reading = (_kept if is_short else _read)(side.text, side.material, side.finish, catalogue)
    return _overridden(reading, side)


def is_refused(reading: Reading, strictest: Match | None) -> bool:
    """Whether a reading is looser than the caller accepts.

    Parameters
    ----------
    reading : Reading
    strictest : Match or None
        The loosest level that is accepted, ``None`` for any.

    Returns
    -------
    bool
    """
    return strictest is not None and _STRICTNESS.index(reading.match) > _STRICTNESS.index(strictest)


def surfaces_of(reading: Reading) -> tuple[Surface, ...]:
    """Surfaces to judge for a reading, best first.

    Parameters
    ----------
    reading : Reading

    Returns
    -------
    tuple of Surface
    """
    return tuple(candidate.surface for candidate in reading.candidates[:MOST_READINGS])


def _read(text: str, material: str, finish: str, catalogue: Catalogue) -> Reading:
    resolver = Resolver.of(catalogue)
    return resolver.resolve(text) if text.strip() else resolver.resolve_notes(material, finish)


_kept = lru_cache(maxsize=2048)(_read)


def _overridden(reading: Reading, side: Side) -> Reading:
    if side.thickness_um is None and side.condition is None:
        return reading
    candidates = tuple(
        replace(candidate, surface=_with(candidate.surface, side.thickness_um, side.condition))
        for candidate in reading.candidates
    )
    return replace(reading, candidates=candidates)


def _with(surface: Surface, thickness_um: float | None, condition: Condition | None) -> Surface:
    layers = surface.layers
    if thickness_um is not None and layers:
        layers = (Layer(layers[0].finish_id, thickness_um), *layers[1:])
    return replace(surface, layers=layers, condition=condition or surface.condition)


def _check(surface: Surface, pointer: str, catalogue: Catalogue) -> None:
    if surface.material_id is not None and surface.material_id not in catalogue.materials:
        raise InvalidInquiryError(
            f"{pointer}/material_id",
            f"no material with id {surface.material_id!r}",
            nearest_ids(surface.material_id, catalogue.materials),
        )
    for place, layer in enumerate(surface.layers):
        if layer.finish_id not in catalogue.finishes:
            raise InvalidInquiryError(
                f"{pointer}/layers/{place}/finish_id",
                f"no finish with id {layer.finish_id!r}",
                nearest_ids(layer.finish_id, catalogue.finishes),
            )
