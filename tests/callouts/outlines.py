"""Readings in one short line, so that a table of texts can be compared at a glance."""

from __future__ import annotations

from service.callouts.reading import Candidate, Match, Reading

RESOLVED = frozenset({Match.EXACT, Match.NORMALISED, Match.FUZZY})


def outline(candidate: Candidate) -> str:
    """``material | finish:um / finish:um``; the family in brackets where no material is named."""
    surface = candidate.surface
    layers = " / ".join(
        layer.finish_id + ("" if layer.thickness_um is None else f":{layer.thickness_um:g}")
        for layer in surface.layers
    )
    return f"{surface.material_id or f'({surface.basis_family})'} | {layers or 'bare'}"


def firm(reading: Reading) -> str:
    """The one reading of a text that must be resolved."""
    assert reading.match in RESOLVED, (reading.match, reading.question, reading.reason)
    assert len(reading.candidates) == 1
    return outline(reading.candidates[0])


def torn(reading: Reading) -> list[str]:
    """The readings of a text that must be ambiguous."""
    assert reading.match is Match.AMBIGUOUS, (reading.match, reading.reason)
    assert reading.question
    return [outline(candidate) for candidate in reading.candidates]


def thickness_agrees(found: float | None, wanted: float) -> bool:
    """Whether a thickness is the wanted one to two per cent."""
    return found is not None and abs(found - wanted) <= 0.02 * wanted
