"""One spelling for all callers: case, dashes, micro signs, umlauts and decimal commas evened out.

Grammars see the normalised text only; ``Normalised.span`` leads every character of it back to the
caller's text, so that an answer can point at the characters that justified it.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

_SPELT_OUT = {
    "ä": "ae",
    "ö": "oe",
    "ü": "ue",
    "ß": "ss",
    "µ": "u",
    "μ": "u",
    "×": "x",
    "⁄": "/",
    "™": " ",
    "®": " ",
    "©": " ",
    "≥": ">=",
    "≤": "<=",
    "″": '"',
    "“": '"',
    "”": '"',
    "„": '"',
    "′": "'",
    "’": "'",
    "‘": "'",
    "´": "'",
    "`": "'",
    "\t": " ",
    "\r": ";",
    "\n": ";",
} | dict.fromkeys("‐‑‒–—―−﹘﹣－", "-")

_DIAERESIS = "\u0308"
_VOWELS = "aou"

# A comma between two digits is a decimal comma unless it stands in a longer run of numbers or
# before three digits, as in a list (M6x10,304). A leading zero decides for the decimal (0,254).
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(?:(\d{1,4}),(?=\d{1,2}(?![\d.]|,\d))|(0),(?=\d{1,6}(?![\d.]|,\d)))")


@dataclass(frozen=True, slots=True)
class Normalised:
    """Text as the grammars read it.

    ``offsets`` holds the index in the caller's text of each character and of the end; ``None`` where
    both texts run alike.
    """

    text: str
    offsets: tuple[int, ...] | None = None

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return the stretch of the caller's text from which ``start`` to ``end`` came."""
        if self.offsets is None:
            return start, end
        last = self.offsets[end - 1] if end > start else self.offsets[start]
        return self.offsets[start], max(last + 1, self.offsets[start])


def normalise(text: str) -> Normalised:
    """Even out the spelling of a drawing text.

    Examples
    --------
    >>> normalise("Brüniert, 0,8 µm").text
    'brueniert, 0.8 um'
    """
    if text.isascii() and not _has_control(text):
        return Normalised(_with_decimal_points(text.lower()))
    pieces: list[str] = []
    offsets: list[int] = []
    for index, character in enumerate(text):
        is_umlaut = character == _DIAERESIS and pieces and pieces[-1] in _VOWELS
        piece = "e" if is_umlaut else _spelt(character)
        pieces.extend(piece)
        offsets.extend([index] * len(piece))
    offsets.append(len(text))
    return Normalised(_with_decimal_points("".join(pieces)), tuple(offsets))


def _has_control(text: str) -> bool:
    return not text.isprintable()


@lru_cache(maxsize=4096)
def _spelt(character: str) -> str:
    known = _SPELT_OUT.get(character) or _SPELT_OUT.get(character.lower())
    if known is not None:
        return known
    composed = unicodedata.normalize("NFKC", character).casefold()
    plain = "".join(c for c in unicodedata.normalize("NFKD", composed) if not unicodedata.combining(c))
    spelt = "".join(_SPELT_OUT.get(c, c) for c in plain)
    return spelt if spelt.isprintable() else " "


def _with_decimal_points(text: str) -> str:
    if "," not in text:
        return text
    return _DECIMAL_COMMA.sub(lambda found: (found[1] or found[2]) + ".", text)
