"""Typing errors in words: *anodzied*, *stainles*, *Messsing*. Never in numbers or short codes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Self

from rapidfuzz.distance import OSA

from service.callouts.lexicon import Token
from service.callouts.normalise import Normalised

SHORTEST_CORRECTED = 6
MOST_CORRECTED = 6
"""More unknown words than this are prose, not a callout with typing errors."""
_LONG_WORD = 9


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Known words by their first letter."""

    words: frozenset[str]
    by_letter: Mapping[str, tuple[str, ...]]

    @classmethod
    def of(cls, words: Iterable[str]) -> Self:
        """Collect the words that are long enough to be recognised with an error in them."""
        kept = frozenset(word for word in words if word.isalpha() and len(word) >= SHORTEST_CORRECTED - 1)
        groups: dict[str, list[str]] = defaultdict(list)
        for word in sorted(kept):
            groups[word[0]].append(word)
        return cls(kept, {letter: tuple(group) for letter, group in groups.items()})

    def meant(self, word: str) -> str | None:
        """Return the one known word that is a slip of the pen away; ``None`` if there is none or two."""
        allowed = 2 if len(word) >= _LONG_WORD else 1
        near: list[tuple[int, str]] = []
        for known in self.by_letter.get(word[0], ()):
            if abs(len(known) - len(word)) <= allowed and max(len(known), len(word)) >= SHORTEST_CORRECTED:
                distance = OSA.distance(word, known, score_cutoff=allowed)
                if distance <= allowed:
                    near.append((distance, known))
        near.sort()
        if not near or (len(near) > 1 and near[0][0] == near[1][0]):
            return None
        return near[0][1]


def corrected(normalised: Normalised, unread: Sequence[Token], vocabulary: Vocabulary) -> Normalised | None:
    """Return the text with its typing errors put right, or ``None`` if there are none to be sure of."""
    long_words = [t for t in unread if t.text.isalpha() and len(t.text) >= SHORTEST_CORRECTED - 1]
    if not long_words or len(long_words) > MOST_CORRECTED:
        return None
    replacements = [(token, meant) for token in long_words if (meant := vocabulary.meant(token.text))]
    if not replacements:
        return None
    pieces: list[str] = []
    offsets: list[int] = []
    position = 0
    source = normalised.offsets or range(len(normalised.text) + 1)
    for token, meant in replacements:
        pieces.append(normalised.text[position : token.start])
        offsets.extend(source[position : token.start])
        pieces.append(meant)
        within = [min(token.start + i, token.end - 1) for i in range(len(meant))]
        within[-1] = token.end - 1
        offsets.extend(source[index] for index in within)
        position = token.end
    pieces.append(normalised.text[position:])
    offsets.extend(source[position:])
    return Normalised("".join(pieces), tuple(offsets))
