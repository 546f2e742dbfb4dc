"""Verdicts and figures as people read them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from service.judgement.lane_results import NO_ATTACK_UM_PER_YEAR
from service.judgement.surface_names import capitalised
from service.remedies.measures import LONGEST_YEARS


@dataclass(frozen=True, slots=True)
class Wording:
    """A verdict in a word, in a sentence, and as a shape drawn in a square of 24 units.

    ``outline`` and ``mark`` are SVG path data; the four outlines differ, so that nobody needs to tell
    colours apart.
    """

    word: str
    sentence: str
    outline: str
    mark: str


VERDICTS: Mapping[str, Wording] = MappingProxyType(
    {
        "suitable": Wording(
            "Suitable",
            "These surfaces may touch here.",
            "M12 2a10 10 0 1 0 0 20a10 10 0 1 0 0-20z",
            "M7 12.5l3.5 3.5l6.5-8",
        ),
        "conditional": Wording(
            "Conditional",
            "These surfaces may touch here if every condition below is met.",
            "M12 1l11 11l-11 11l-11-11z",
            "M8 12h8",
        ),
        "unsuitable": Wording(
            "Unsuitable",
            "These surfaces should not touch here.",
            "M3 3h18v18h-18z",
            "M7.5 7.5l9 9M16.5 7.5l-9 9",
        ),
        "undetermined": Wording(
            "Undetermined",
            "What is known does not decide; below is what is missing.",
            "M12 2l11 19h-22z",
            "M12 9v6M12 17.2v1.2",
        ),
    }
)
EATEN: Mapping[str, str] = MappingProxyType(
    {"first": "the first surface", "second": "the second surface", "both": "both surfaces", "none": "neither"}
)
NO_FIGURE = "–"
_GROUPED_FROM = 10_000.0
_LEAST, _MOST = 0.001, 1e7
_UM_PER_MM = 1e3
_LEAST_MM = 0.1
_LEAST_YEARS = 2.0
_LEAST_MONTHS = 2.0
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_MINUS = "\u2212"
_NAME_OF_FACT = re.compile(r"\b[a-z]+\.([a-z]+_\w+)")
_UNIT_AT_END = re.compile(r" (years|um|C|cm2)$")
_SHOWN_UNITS = {
    "1": (1.0, ""),
    "1/K": (1e6, "µm/(m K)"),
    "Pa": (1e-6, "MPa"),
    "kg/m3": (1.0, "kg/m³"),
    "m2": (1e4, "cm²"),
    "ohm m": (1e9, "nΩ m"),
    "um": (1.0, "µm"),
}
_HARM = re.compile(r"\)(?: under conditions)?: (.+)\.$")
_MICROMETRES = re.compile(r"(?<=\d) um\b|(?<=\d )um\b")


def figure(value: float | None, unit: str = "") -> str:
    """Write a number with three significant digits and its unit."""
    if value is None:
        return NO_FIGURE
    is_plain = value == 0.0 or _LEAST <= abs(value) < _MOST
    text = _plain(value) if is_plain else _with_power(value)
    return f"{text}\u00a0{unit}" if unit else text


def ratio(value: float | None) -> str:
    """Write a loss over its allowance; what is too small to matter is not told apart."""
    if value is not None and 0.0 < value < _LEAST:
        return f"less than {_LEAST:g}"
    return figure(value)


def _with_power(value: float) -> str:
    digits, power = f"{value:.2e}".split("e")
    raised = str(int(power)).translate(_RAISED)
    if float(digits) == 1.0:
        return f"10{raised}"
    return f"{_plain(float(digits))}\u00a0×\u00a010{raised}"


def _plain(value: float) -> str:
    text = f"{Decimal(f'{value:.3g}'):f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    elif abs(value) >= _GROUPED_FROM:
        text = f"{int(text):,}".replace(",", "\u202f")
    return text.replace("-", _MINUS)


def spread(quantity: Mapping[str, Any] | None, unit: str = "") -> str:
    """Write a median with its 5 and 95 % bounds, as ``109 µm (36.5 to 327)``.

    Lengths above a millimetre or below a tenth of one change between ``µm`` and ``mm``.
    """
    if not quantity or quantity.get("median") is None:
        return NO_FIGURE
    length, slash, per = unit.partition("/")
    if length == "µm" and quantity["high"] < NO_ATTACK_UM_PER_YEAR:
        return f"less than {figure(NO_ATTACK_UM_PER_YEAR, unit)}" if quantity["high"] else figure(0.0, unit)
    factor, length = handy(quantity["median"], length)
    low, middle, high = (quantity[name] * factor for name in ("low", "median", "high"))
    return f"{figure(middle, f'{length}{slash}{per}')} ({figure(low)} to {figure(high)})"


def handy(value: float, unit: str) -> tuple[float, str]:
    """Return the factor and the unit in which a length is easiest to picture."""
    if unit == "µm" and value >= _UM_PER_MM:
        return 1.0 / _UM_PER_MM, "mm"
    if unit == "mm" and 0.0 < value < _LEAST_MM:
        return _UM_PER_MM, "µm"
    return 1.0, unit


def lifespan(low_years: float, high_years: float) -> str:
    """Write a life; the longest that is told has no upper end, a short one is told in months."""
    if low_years >= LONGEST_YEARS:
        return f"{figure(LONGEST_YEARS, 'years')} or more"
    if high_years < _LEAST_YEARS:
        is_long = high_years >= _LEAST_MONTHS / 12.0
        share, unit = (12.0, "months") if is_long else (365.0, "days")
        low, high = (f"{share * years:.2g}" for years in (low_years, high_years))
        return f"{high}\u00a0{unit}" if low == high else f"{low} to {high}\u00a0{unit}"
    end = (
        f"{figure(high_years, 'years')} or more"
        if high_years >= LONGEST_YEARS
        else figure(high_years, "years")
    )
    return end if low_years == high_years else f"{figure(low_years)} to {end}"


def bounds(value: float | None, low: float | None, high: float | None, unit: str = "") -> str:
    """Write a figure that may come as a value, as a range, or as both."""
    if low is None or high is None:
        return figure(value, unit)
    span = f"{figure(low)} to {figure(high, unit)}"
    return span if value is None else f"{figure(value, unit)} ({figure(low)} to {figure(high)})"


def measured(value: float | None, low: float | None, high: float | None, unit: str = "") -> str:
    """Write a figure of the knowledge base in the unit in which people know it."""
    factor, shown = _SHOWN_UNITS.get(unit, (1.0, unit))
    value, low, high = (None if each is None else each * factor for each in (value, low, high))
    return bounds(value, low, high, shown)


def harm(line: str | None) -> str:
    """Write what a line of an answer says of the harm, where the surfaces and the place stand beside it."""
    text = line or ""
    if found := _HARM.search(text):
        return f"{capitalised(found.group(1))}."
    if text.endswith("under conditions."):
        return "It depends on its conditions."
    return "No attack worth noting." if " may be joined " in text else text


def words(identifier: str | None) -> str:
    """Write a name of code, such as ``joint.design_life_years``, as words without its unit."""
    plain = re.sub(r"[_-]+", " ", (identifier or "").rpartition(".")[2]).strip()
    return _UNIT_AT_END.sub("", plain)


def readable(text: str | None) -> str:
    """Write names of code and the unit ``um`` in an engine's sentence as people write them."""
    plain = _NAME_OF_FACT.sub(lambda found: words(found.group(1)), text or "")
    return _MICROMETRES.sub(lambda found: found.group().replace("um", "µm"), plain)
