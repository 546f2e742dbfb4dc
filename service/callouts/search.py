"""Names found in spite of typing errors: a trigram index in memory, reranked by edit distance.

Codes are never forgiven: words that hold a digit or have up to four characters must be equal, since
one character there is another alloy.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray
from rapidfuzz import fuzz, process

LONGEST_CODE = 4
_RERANKED = 40
_WORD = re.compile(r"[^\W_]+")


@dataclass(frozen=True, slots=True)
class Hit:
    """A name and how well it fits, 0 to 100."""

    name: str
    score: float


@dataclass(frozen=True, slots=True)
class TrigramIndex:
    """Names with, for each trigram, the positions of the names that hold it."""

    names: tuple[str, ...]
    codes: tuple[tuple[str, ...], ...]
    postings: dict[str, NDArray[np.int32]]
    sizes: NDArray[np.float64]

    @classmethod
    def of(cls, names: Iterable[str]) -> Self:
        """Index normalised names."""
        unique = tuple(dict.fromkeys(names))
        postings: dict[str, list[int]] = defaultdict(list)
        sizes = np.ones(len(unique))
        for position, name in enumerate(unique):
            trigrams = trigrams_of(name)
            sizes[position] = max(len(trigrams), 1)
            for trigram in trigrams:
                postings[trigram].append(position)
        arrays = {trigram: np.array(held, dtype=np.int32) for trigram, held in postings.items()}
        return cls(unique, tuple(codes_of(name) for name in unique), arrays, sizes)

    def nearest(self, text: str, limit: int, *, same_codes: bool) -> list[Hit]:
        """Return the names nearest to a normalised text, best first."""
        positions = self._shortlist(text)
        if same_codes:
            wanted = codes_of(text)
            positions = [position for position in positions if self.codes[position] == wanted]
        chosen = [self.names[position] for position in positions]
        ranked = process.extract(text, chosen, scorer=fuzz.token_sort_ratio, limit=limit)
        return [Hit(name, float(score)) for name, score, _ in ranked]

    def _shortlist(self, text: str) -> Sequence[int]:
        trigrams = trigrams_of(text)
        found = [self.postings[trigram] for trigram in trigrams if trigram in self.postings]
        if not found:
            return []
        counts = np.bincount(np.concatenate(found), minlength=len(self.names))
        shares = 2.0 * counts / (self.sizes + len(trigrams))
        best = np.argsort(-shares, kind="stable")[:_RERANKED]
        return [int(position) for position in best if counts[position]]


def trigrams_of(text: str) -> set[str]:
    """Return the trigrams of the words of a text, each word padded by blanks."""
    padded = (f" {word} " for word in text.split())
    return {word[i : i + 3] for word in padded for i in range(len(word) - 2)}


def codes_of(text: str) -> tuple[str, ...]:
    """Return the words of a text that must not be forgiven any character, in ascending order.

    Examples
    --------
    >>> codes_of("aluminium 6061 t6")
    ('6061', 't6')
    """
    words = _WORD.findall(text)
    return tuple(sorted(word for word in words if len(word) <= LONGEST_CODE or not word.isalpha()))
