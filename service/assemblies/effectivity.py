"""For which units or dates a part is built in, as a record writes it.

Read are serial numbers (``SN 101-120``, ``101..120``, ``from 101``, ``121 and on``) and ISO dates
(``2026-01-01/2026-06-30``, ``until 2026-06``). A text that is neither holds for every unit: an
effectivity must never hide a part.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_DATE = r"(?:19|20)\d{2}-(?:0[1-9]|1[0-2])(?:-\d{2})?"
_SERIAL = r"\d{1,9}"
_BETWEEN = r"\s*(?:\.\.+|/|–|—|-|to|bis|thru|through|à|jusqu'à)\s*"
_OPEN_START = re.compile(rf"(?:until|up to|through|thru|bis|jusqu'(?:à|au)|<=?)\s*({_DATE}|{_SERIAL})$")
_OPEN_END = re.compile(
    rf"(?:from|since|as of|ab|seit|dès|à partir de|>=?)?\s*({_DATE}|{_SERIAL})"
    rf"(?:\s*(?:\+|and on|and up|onwards?|\.\.+|/|-|ff\.?))?$"
)
_RANGE = re.compile(rf"({_DATE}|{_SERIAL}){_BETWEEN}({_DATE}|{_SERIAL})$")
_LABEL = re.compile(r"^(?:s/?n|msn|serials?|serial n(?:o|umber)s?\.?|units?|eff(?:ectivity)?\.?)[\s:#.]*")
_EXACT = re.compile(rf"({_DATE}|{_SERIAL})$")
_LAST = "~"
"""Sorts behind every digit."""


@dataclass(frozen=True, slots=True)
class _Span:
    """From ``start`` to ``end`` inclusive, as keys that sort like what they stand for."""

    is_date: bool
    start: str
    end: str


def is_effective(text: str, at: str) -> bool:
    """Whether a part is built into the unit or on the date ``at``; true where a text cannot be read."""
    span, moment = _span(text), _span(at)
    if span is None or moment is None or span.is_date is not moment.is_date:
        return True
    return span.start <= moment.end and moment.start <= span.end


def is_together(first: str, second: str) -> bool:
    """Whether two effectivities ever meet; true where one of them cannot be read."""
    return is_effective(first, second)


def _span(text: str) -> _Span | None:
    plain = _LABEL.sub("", text.strip().lower())
    if found := _EXACT.match(plain):  # before the ranges, or a month would be one
        return _between(found[1], found[1])
    if found := _RANGE.match(plain):
        return _between(found[1], found[2])
    if found := _OPEN_START.match(plain):
        return _between("", found[1])
    if found := _OPEN_END.match(plain):
        return _between(found[1], "")
    return None


def _between(start: str, end: str) -> _Span | None:
    is_date = "-" in (start or end)
    if start and end and ("-" in start) is not ("-" in end):
        return None
    return _Span(is_date, _key(start), f"{_key(end)}{_LAST if is_date else ''}" if end else _LAST)


def _key(value: str) -> str:
    """A date sorts as it is (a month before its days); a serial number by its figure."""
    return value if "-" in value or not value else value.zfill(9)
