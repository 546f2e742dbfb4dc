"""Words that no grammar explains, and which of them may hide a finish.

A finish that was not understood must never be dropped: the part would be judged bare.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.callouts.lexicon import Token
from service.callouts.marks import Amount, Mark, Process, Unread
from service.callouts.normalise import Normalised

_SYMBOL = re.compile(r"Zn|Ni|Cr|Sn|Ag|Au|Cd|Pd")
_STEM = re.compile(
    r"plat(?:ed|ing|iert)|coat|galv|anod|chrom|phosph|passiv|oxid|zin[ck]|nickel|beschicht|lack|verzin|"
    r"versilb|"
    r"vergold|vernick|plattier|lacquer|enamel|platt|eloxi|bruni|chromat|paint"
)
_TREATED = re.compile(r"i[sz](?:ed|ing)$|iert$|ierung$")
"""Endings of words for what was done to a part, in words of some length."""
_SHORTEST_TREATED_WORD = 8
_SHORTEST_STEMMED_WORD = 5
_GAP = re.compile(r"[ .:=-]{0,3}")
_CODE_LENGTHS = range(2, 6)


def hidden_finishes(
    unread: Sequence[Token], marks: Sequence[Mark], normalised: Normalised, original: str
) -> list[str]:
    """Return what looks like a finish or a specification and was not understood, as written."""
    found = [
        (mark.start, _written(mark.start, mark.end, normalised, original))
        for mark in marks
        if isinstance(mark.sense, Unread)
    ]
    measured = {mark.start for mark in marks if _expects_a_coat(mark)}
    for token in unread:
        written = _written(token.start, token.end, normalised, original)
        if _is_finish_like(token.text, written) or _is_measured(token, measured, normalised.text):
            found.append((token.start, written))
    return [text for _, text in sorted(found)]


def trailing_codes(
    unread: Sequence[Token], material_end: int, normalised: Normalised, original: str
) -> list[str]:
    """Return short capital codes behind the material, where a parts list writes the finish."""
    return [
        written
        for token in unread
        if token.start >= material_end
        and (written := _written(token.start, token.end, normalised, original)).isupper()
        and written.isalpha()
        and len(written) in _CODE_LENGTHS
    ]


def _expects_a_coat(mark: Mark) -> bool:
    """A thickness, or a word such as *coating* that means nothing but a coat."""
    return isinstance(mark.sense, Amount) or (isinstance(mark.sense, Process) and not mark.sense.is_weak)


def _is_measured(token: Token, measured: set[int], text: str) -> bool:
    """Whether a word that is not understood stands right before a thickness or a word such as coating."""
    gap = _GAP.match(text, token.end)
    return token.text.isalpha() and len(token.text) > 1 and gap is not None and gap.end() in measured


def _is_finish_like(word: str, written: str) -> bool:
    if not word.isascii():
        return True  # another script, whose words for coats are not known here
    if len(word) >= _SHORTEST_STEMMED_WORD and word.isalpha() and _STEM.search(word):
        return True
    if len(word) >= _SHORTEST_TREATED_WORD and _TREATED.search(word):
        return True
    symbol = _SYMBOL.search(written)
    if symbol is None:
        return False
    rest = written[: symbol.start()] + written[symbol.end() :]
    return any(character.isupper() for character in rest)


def _written(start: int, end: int, normalised: Normalised, original: str) -> str:
    first, last = normalised.span(start, end)
    return original[first:last]
