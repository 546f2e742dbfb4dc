"""Readings of texts as the API shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from service.callouts import Candidate, Match, Reading, Resolver
from service.web.representation import canonical
from service.web.schemas.resolve import TextRequest
from service.web.shelf import OpenRelease


def read_texts(texts: Sequence[TextRequest], release: OpenRelease) -> bytes:
    """Read texts in order and write the response."""
    resolver = Resolver.of(release.catalogue)
    readings = [_read(text, resolver) for text in texts]
    return canonical(
        {
            "release": {"label": release.label, "content_hash": release.content_hash},
            "count": len(readings),
            "unknown": sum(reading.match is Match.UNKNOWN for reading in readings),
            "ambiguous": sum(reading.match is Match.AMBIGUOUS for reading in readings),
            "readings": [
                {"ref": text.ref, **_reading(reading)} for text, reading in zip(texts, readings, strict=True)
            ],
        }
    )


def _read(text: TextRequest, resolver: Resolver) -> Reading:
    if text.material or text.finish:
        return resolver.resolve_notes(text.material, text.finish)
    return resolver.resolve(text.text)


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
