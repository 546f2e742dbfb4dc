"""Did you mean: identifiers of records whose identifier or name is like what was asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from rapidfuzz import fuzz

_MOST = 3
_LEAST_LIKENESS = 60.0
_LONGEST = 200
_PART = 0.95
"""What likeness to a part weighs beside likeness to the whole."""


class Named(Protocol):
    """A record with a name for people."""

    @property
    def name(self) -> str:
        """What people call it."""


def nearest_ids(word: str, records: Mapping[str, Named]) -> tuple[str, ...]:
    """Return up to three identifiers of records like ``word``, the likest first."""
    return nearest_keys(word, {key: record.name for key, record in records.items()})


def nearest_keys(word: str, names: Mapping[str, str]) -> tuple[str, ...]:
    """Return up to three keys like ``word``, the likest first; ``names`` are for people.

    A word of the key or of the name is enough: callers who do not know the keys ask for ``copper`` or
    ``sea-water``.
    """
    asked = word[:_LONGEST].lower()
    likeness = {key: _likeness(asked, key, name.lower()) for key, name in names.items()}
    near = [key for key, value in likeness.items() if value >= _LEAST_LIKENESS]
    return tuple(sorted(near, key=lambda key: (-likeness[key], len(key), key))[:_MOST])


def _likeness(asked: str, key: str, name: str) -> float:
    whole = fuzz.ratio(asked, key)
    in_name = _PART * fuzz.token_set_ratio(asked.replace("-", " "), name)
    in_key = _PART * fuzz.partial_ratio(asked, key) if len(asked) <= len(key) else 0.0
    return max(whole, in_name, in_key)
