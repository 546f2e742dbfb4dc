"""Units and abbreviations that are spelt like a metal or a colour: 24 hrs, 8 mm OD, 5 gal, Pt100."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Sense
from service.callouts.patterns import Pattern, pattern

_FIGURE = r"\d{1,3}(?:[./]\d{1,4}){0,2}"


def _aside(found: re.Match[str], _: Lexicon) -> Sense:
    return Aside(found.group())


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"{_FIGURE} ?(?:\"|''|mm|cm|in|inch)? ?o\.?d\.?|o\.?d\.? ?[=:]? ?{_FIGURE}",
        "od o.d",
        _aside,
        "outside diameter",
    ),
    pattern(
        rf"{_FIGURE} ?(?:kva|mg|hrs|gal|gals|cu ?(?:ft|in|yd))\.?",
        "kva mg hrs gal cu",
        _aside,
        "quantity",
    ),
    pattern(r"pt ?-?(?:100|500|1000)", "pt", _aside, "resistance thermometer"),
    pattern(r"cr ?-?(?:20|16|12|24)\d{2}", "cr", _aside, "button cell"),
    pattern(rf"sw ?[=:]? ?{_FIGURE}", "sw", _aside, "width across flats"),
    pattern(r"s/?n[ .:#]{0,3}\d{4,12}(?:-\d{1,8})?", "sn s/n", _aside, "serial number"),
)
