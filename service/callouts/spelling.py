"""Typing errors in words: *anodzied*, *stainles*, *Messsing*. Never in numbers or short codes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Self

from rapidfuzz.distance import OSA

from service.callouts.lexicon import Token
from service.callouts.normalise import Normalised
from service.callouts.ordinary_words import NEVER_A_PIECE, WORDS_OF_THEIR_OWN
from service.callouts.phrases import uninflected

SHORTEST_CORRECTED = 6
MOST_CORRECTED = 6
"""More unknown words than this are prose, not a callout with typing errors."""
_LONG_WORD = 9
_SHORTEST_COMPOUND = 7
_LONGEST_COMPOUND = 40
_SHORTEST_PIECE = 3
_FEWEST_PIECES = 2
_MOST_PIECES = 3


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Known words by their first letter."""

    words: frozenset[str]
    by_letter: Mapping[str, tuple[str, ...]]
    pieces: frozenset[str] = frozenset()

    @classmethod
    def of(cls, words: Iterable[str], pieces: Iterable[str] = ()) -> Self:
        """Collect the words that are recognised with an error in them, and those that run together."""
        kept = frozenset(word for word in words if word.isalpha() and len(word) >= SHORTEST_CORRECTED - 1)
        groups: dict[str, list[str]] = defaultdict(list)
        for word in sorted(kept):
            groups[word[0]].append(word)
        joined = frozenset(word for word in pieces if word.isalpha() and len(word) >= _SHORTEST_PIECE)
        return cls(kept, {letter: tuple(group) for letter, group in groups.items()}, joined - NEVER_A_PIECE)

    def split(self, word: str, most: int = _MOST_PIECES) -> str | None:
        """Return the words that a compound or a missing space ran together, blanks between them."""
        if most == _MOST_PIECES and not _SHORTEST_COMPOUND <= len(word) <= _LONGEST_COMPOUND:
            return None
        for length in range(len(word) - _SHORTEST_PIECE, _SHORTEST_PIECE - 1, -1):
            first, rest = word[:length], word[length:]
            if first not in self.pieces:
                continue
            last: str | None = rest if rest in self.pieces else uninflected(rest, self.pieces)
            if last not in self.pieces:
                last = self.split(rest, most - 1) if most > _FEWEST_PIECES else None
            if last is not None:
                return f"{first} {last}"
        return None

    def meant(self, word: str) -> str | None:
        """Return the one known word that is a slip of the pen away; ``None`` if there is none or two."""
        if word in WORDS_OF_THEIR_OWN:
            return None
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


def _meant(word: str, vocabulary: Vocabulary) -> str | None:
    if word in vocabulary.words:
        return None
    return vocabulary.split(word) or vocabulary.meant(word)


def corrected(normalised: Normalised, unread: Sequence[Token], vocabulary: Vocabulary) -> Normalised | None:
    """Return the text with its typing errors put right, or ``None`` if there are none to be sure of."""
    long_words = [t for t in unread if t.text.isalpha() and len(t.text) >= SHORTEST_CORRECTED - 1]
    if not long_words or len(long_words) > MOST_CORRECTED:
        return None
    replacements = [(token, meant) for token in long_words if (meant := _meant(token.text, vocabulary))]
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
