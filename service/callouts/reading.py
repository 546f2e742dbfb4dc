"""The result of reading a drawing text: one or more candidate surfaces with their reasons."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from service.catalogue.surfaces import Surface


class Match(StrEnum):
    """How a text was read, from the firmest to none at all."""

    EXACT = "exact"
    NORMALISED = "normalised"
    FUZZY = "fuzzy"
    AMBIGUOUS = "ambiguous"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Span:
    """Characters ``start`` to ``end`` of the text that justified ``field``.

    Fields are ``material``, ``finish``, ``thickness``, ``temper`` and ``condition``.
    """

    field: str
    start: int
    end: int
    reason: str


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to read the text. ``missing`` names what the text leaves open."""

    surface: Surface
    confidence: float
    spans: tuple[Span, ...] = ()
    assumptions: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """A text with its candidates, best first.

    ``question`` is the one question whose reply would settle an ambiguous text; ``suggestions`` are
    near names for an unknown one. ``reason`` says why an unknown text is unknown; ``is_insulator``
    that it names a plastic, rubber, glass or wood and nothing that conducts.
    """

    text: str
    match: Match
    candidates: tuple[Candidate, ...] = ()
    question: str = ""
    suggestions: tuple[str, ...] = ()
    reason: str = ""
    is_insulator: bool = False
