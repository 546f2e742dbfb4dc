"""Thickness of a coat: micrometres, mils, microinches, and inches or millimetres where thin."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Amount
from service.callouts.patterns import END, Pattern, mentions, pattern

MICROMETRES_PER_MICROINCH = 0.0254
"""1 in = 25.4 mm exactly (international inch)."""
MICROMETRES_PER_MIL = 25.4
MICROMETRES_PER_INCH = 25_400.0
MICROMETRES_PER_MILLIMETRE = 1_000.0

THICKEST_COAT_UM = 1_000.0
"""A figure above one millimetre is a dimension of the part, not of a coat."""
THICKEST_IN_INCHES_UM = 130.0
"""Inches and millimetres are taken for a coat only below some 5 mil."""

NUMBER = r"(?:\d{1,5}(?:\.\d{1,7})?|\.\d{1,7})"
_MICRON = r"um|u(?=[ ,;)/]|$)|microns?|micromet(?:er|re)s?|mikrometer|mikron|mue|my"
_MICROINCH = r"u ?-?in(?:ch(?:es)?)?|u ?\"|u ?''|micro ?-?in(?:ch(?:es)?)?|mi?c-?in"
_MIL = r"mils?|thou"
_INCH = r"in(?:ch(?:es)?)?|\"|''|thk|thick"
_MOST_MICRONS_CUT_SHORT = 12.0
"""A lone prefix (*3µ*) means micrometres; in a larger figure it may mean microinches and is left open."""
_NEVER_IN_MICROINCHES = re.compile(
    r"anod|elox|harteloxal|powder|pulver|poudre|thermolaq|paint|peint|lack|hard ?coat|verzinkt|galvan|zingu"
)
"""Coats beside which the lone prefix stands for micrometres whatever the figure."""
_TEN_THOUSANDTHS = r"0?\.00\d{1,2}"
"""Four decimals and no unit are inches: nobody else writes ten-thousandths beside a coat."""
_TEN_THOUSANDTHS_LENGTH = len(".0015")
_THICK_FILM = re.compile(r"anodi[sz]|hard ?coat|powder|paint")
"""Films so thick that thousandths of an inch are written."""
_TOLERANCE = re.compile(r"(?<![^\W_])(?:tol|flat|true|paral|perp|run ?out|cham|radius|edge|chanfrein)")
UNIT = rf"(?:(?P<micron>{_MICRON})|(?P<microinch>{_MICROINCH})|(?P<mil>{_MIL})|(?P<mm>mm)|(?P<inch>{_INCH}))"

_FACTOR = {
    "micron": 1.0,
    "microinch": MICROMETRES_PER_MICROINCH,
    "mil": MICROMETRES_PER_MIL,
    "mm": MICROMETRES_PER_MILLIMETRE,
    "inch": MICROMETRES_PER_INCH,
}


def amount_of(low: str, high: str | None, unit: str) -> Amount | None:
    """Return a thickness in micrometres; ``None`` for what cannot be a coat.

    Examples
    --------
    >>> amount_of("30", None, "microinch")
    Amount(low_um=0.762, high_um=None)
    """
    factor = _FACTOR[unit]
    least = _micrometres(low, factor)
    most = _micrometres(high, factor) if high else None
    limit = THICKEST_IN_INCHES_UM if unit in {"mm", "inch"} else THICKEST_COAT_UM
    if least <= 0.0 or max(least, most or 0.0) > limit or (most is not None and most < least):
        return None
    return Amount(least, most)


def _micrometres(number: str, factor: float) -> float:
    return float(f"{float(number) * factor:.4g}")


def _read(found: re.Match[str], _: Lexicon) -> Amount | None:
    is_doubtful = found["micron"] == "u" and float(found["low"]) > _MOST_MICRONS_CUT_SHORT
    if is_doubtful and not mentions(_NEVER_IN_MICROINCHES, found.string):
        return None
    return amount_of(found["low"], found["high"], found.lastgroup or "")


def _read_inches(found: re.Match[str], _: Lexicon) -> Amount | None:
    is_short = len(found["low"].lstrip("0")) < _TEN_THOUSANDTHS_LENGTH
    if is_short and (not mentions(_THICK_FILM, found.string) or mentions(_TOLERANCE, found.string)):
        return None
    return amount_of(found["low"], found["high"], "inch")


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?<![\w.])(?P<low>{NUMBER}) ?(?:(?:[-~]|\.\.\.?|to|bis) ?(?P<high>{NUMBER}) ?)?\(?{UNIT}\)?{END}",
        "",
        _read,
        "thickness",
        is_bounded=False,
    ),
    pattern(
        rf"(?<![\w.±+-])(?P<low>{_TEN_THOUSANDTHS})(?: ?(?:[-~/]|to) ?(?P<high>{_TEN_THOUSANDTHS}))?"
        rf"(?! ?(?:{UNIT}|[-+/]|\d))",
        ".00",
        _read_inches,
        "thickness in inches",
        is_bounded=False,
    ),
)
