"""Fixed words and phrases, looked up token by token.

A phrase is matched across spaces, hyphens, points and apostrophes, so ``hot dip``, ``hot-dip``
and ``HOT-DIP`` are one phrase. The longest phrase at a place wins.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Self

from service.callouts.lexicon import Token, tokens_of
from service.callouts.marks import Mark, Sense
from service.callouts.normalise import normalise


def spelt(sense: Sense, phrases: str) -> dict[str, Sense]:
    """Give one meaning to several phrases, separated by commas."""
    return {phrase.strip(): sense for phrase in phrases.split(",") if phrase.strip()}


_TIGHT_GAP = re.compile(r"[ \-.'_]*")


@dataclass(frozen=True, slots=True)
class PhraseBook:
    """Phrases by their first word, longest first."""

    entries: Mapping[str, tuple[tuple[tuple[str, ...], Sense], ...]]
    words: frozenset[str]

    @classmethod
    def of(cls, tables: Iterable[Mapping[str, Sense]]) -> Self:
        """Compile tables of phrases; a later table may not redefine an earlier phrase."""
        grouped: dict[str, dict[tuple[str, ...], Sense]] = defaultdict(dict)
        for table in tables:
            for phrase, sense in table.items():
                words = tuple(token.text for token in tokens_of(normalise(phrase).text))
                grouped[words[0]].setdefault(words, sense)
        entries = {
            first: tuple(sorted(group.items(), key=lambda entry: -len(entry[0])))
            for first, group in grouped.items()
        }
        words_used = frozenset(word for group in grouped.values() for words in group for word in words)
        return cls(entries=entries, words=words_used)

    def marks_in(self, text: str, tokens: list[Token]) -> Iterator[Mark]:
        """Yield a mark for the longest phrase at each place, left to right."""
        index = 0
        while index < len(tokens):
            length, sense = self._longest_at(text, tokens, index)
            if length and sense is not None:
                first, last = tokens[index], tokens[index + length - 1]
                yield Mark(first.start, last.end, sense, "word")
            index += max(length, 1)

    def _longest_at(self, text: str, tokens: list[Token], index: int) -> tuple[int, Sense | None]:
        first = tokens[index].text
        for words, sense in self.entries.get(first) or self.entries.get(uninflected(first, self.entries), ()):
            if len(words) == 1 or _follow(text, tokens, index, words):
                return len(words), sense
        return 0, None


_ENDINGS = {"t": ("e", "er", "es", "en", "em"), "e": ("es", "e", "s")}
"""Endings of German and French participles by their last letter: verzinkter, zinguées."""
_LAST_LETTERS = frozenset("ersnm")
_SHORTEST_PARTICIPLE = 5


def uninflected(word: str, known: Container[str]) -> str:
    """Return a participle without the ending of its gender, number or case, if that word is known."""
    if word[-1] not in _LAST_LETTERS or len(word) <= _SHORTEST_PARTICIPLE:
        return word
    for last, endings in _ENDINGS.items():
        for ending in endings:
            base = word.removesuffix(ending)
            if _SHORTEST_PARTICIPLE <= len(base) < len(word) and base[-1] == last and base in known:
                return base
    return word


def _follow(text: str, tokens: list[Token], index: int, words: tuple[str, ...]) -> bool:
    if index + len(words) > len(tokens):
        return False
    for offset in range(1, len(words)):
        before, here = tokens[index + offset - 1], tokens[index + offset]
        if here.text != words[offset] or not _TIGHT_GAP.fullmatch(text, before.end, here.start):
            return False
    return True
