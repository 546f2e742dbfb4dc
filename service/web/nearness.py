"""Did you mean: the nearest of the words that would have been right."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import fuzz, process

_MOST = 3
_LEAST_LIKENESS = 60.0
_LONGEST = 200


def nearest(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return up to three known words that are spelt like ``word``, the likest first."""
    found = process.extract(
        word[:_LONGEST].lower(),
        {name: name.lower() for name in known},
        scorer=fuzz.ratio,
        limit=_MOST,
        score_cutoff=_LEAST_LIKENESS,
    )
    return tuple(name for _, _, name in found)
