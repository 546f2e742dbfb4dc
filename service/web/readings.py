"""Readings of texts as the API shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from service.callouts import Candidate, Match, Reading, Resolver
from service.web.representation import canonical
from service.web.schemas.resolve import TextRequest
from service.web.shelf import OpenRelease

Notes = tuple[str, str, str]
"""Text, material note and finish note of one part."""


def read_texts(texts: Sequence[TextRequest], release: OpenRelease) -> bytes:
    """Read texts in order and write the response; what a parts list repeats is read once."""
    resolver = Resolver.of(release.catalogue)
    known: dict[Notes, Reading] = {}
    readings = [_read(text, resolver, known) for text in texts]
    written = {notes: _reading(reading) for notes, reading in known.items()}
    return canonical(
        {
            "release": {"label": release.label, "content_hash": release.content_hash},
            "count": len(readings),
            "unknown": sum(reading.match is Match.UNKNOWN for reading in readings),
            "ambiguous": sum(reading.match is Match.AMBIGUOUS for reading in readings),
            "readings": [{"ref": text.ref, **written[_notes(text)]} for text in texts],
        }
    )


def _notes(text: TextRequest) -> Notes:
    return text.text, text.material, text.finish


def _read(text: TextRequest, resolver: Resolver, known: dict[Notes, Reading]) -> Reading:
    notes = _notes(text)
    if notes not in known:
        is_separate = text.material or text.finish
        known[notes] = (
            resolver.resolve_notes(text.material, text.finish) if is_separate else resolver.resolve(text.text)
        )
    return known[notes]


def _reading(reading: Reading) -> dict[str, Any]:
    return {
        "text": reading.text,
        "match": reading.match,
        "candidates": [_candidate(candidate) for candidate in reading.candidates],
        "question": reading.question or None,
        "suggestions": reading.suggestions,
    }


def _candidate(candidate: Candidate) -> dict[str, Any]:
    return {
        **asdict(candidate.surface),
        "confidence": round(candidate.confidence, 3),
        "assumptions": candidate.assumptions,
        "missing": candidate.missing,
        "spans": candidate.spans,
    }
