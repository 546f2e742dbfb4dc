"""Figures as tables write them: decimal commas, grouped thousands, units in the cell or the heading."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

_UNIT = r"[a-zµμ°²³^0-9/\" ]*"
_FIGURE = re.compile(rf"^[~≈ca. ]*([-+]?[\d.,'\u00a0\u202f ]*\d(?:e[-+]?\d+)?)\s*({_UNIT})$", re.IGNORECASE)
_SPACES = re.compile(r"['\u00a0\u202f ]")
_THOUSANDS = re.compile(r"[-+]?\d{1,3}([.,])\d{3}(?:\1\d{3})+$")

AREAS_PER_M2 = {
    "m2": 1.0,
    "dm2": 1e2,
    "cm2": 1e4,
    "mm2": 1e6,
    "in2": 1.0 / 6.4516e-4,
    "ft2": 1.0 / 0.09290304,
}
"""Units of area in one square metre; the inch is 25.4 mm exactly."""

LENGTHS_PER_M = {"m": 1.0, "cm": 1e2, "mm": 1e3, "um": 1e6, "in": 1.0 / 0.0254, "mil": 1e3 / 0.0254}
"""Units of length in one metre."""

THICKNESSES_PER_UM = {"um": 1.0, "mm": 1e-3, "mil": 1.0 / 25.4, "in": 1.0 / 25400.0}
"""Units of thickness in one micrometre, in which thicknesses are kept."""

CURRENTS_PER_A = {"a": 1.0, "ma": 1e3, "ka": 1e-3}
FORCES_PER_N = {"n": 1.0, "kn": 1e-3}
TIMES_PER_YEAR = {"years": 1.0, "months": 12.0}
TEMPERATURES = {"c": 1.0}

_SPELLINGS = {
    "sqm": "m2",
    "qm": "m2",
    "sqcm": "cm2",
    "qcm": "cm2",
    "sqmm": "mm2",
    "qmm": "mm2",
    "sqin": "in2",
    "sqinch": "in2",
    "sqinches": "in2",
    "inch2": "in2",
    "sqft": "ft2",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "µm": "um",
    "μm": "um",
    "micron": "um",
    "microns": "um",
    "mils": "mil",
    "amp": "a",
    "amps": "a",
    "ampere": "a",
    "year": "years",
    "yr": "years",
    "yrs": "years",
    "y": "years",
    "jahre": "years",
    "ans": "years",
    "month": "months",
    "monate": "months",
    "mois": "months",
    "degc": "c",
    "°c": "c",
}


def unit_named(text: str) -> str:
    """Return a unit in the one spelling that the tables above use, empty for none."""
    plain = text.strip().lower().replace("²", "2").replace("^", "").replace("**", "")
    plain = plain.replace(" ", "").replace("_", "").strip("[]()./")
    return _SPELLINGS.get(plain, plain)


def figure(text: str) -> tuple[float, str]:
    """Read a cell into a finite figure and the unit written behind it, empty for none.

    Raises
    ------
    ValueError
        If the cell holds no figure, or one that can be read in two ways.
    """
    found = _FIGURE.match(text.strip())
    if found is None:
        message = f"{text[:40]!r} is no figure"
        raise ValueError(message)
    value = float(_plain(found[1]))
    if not math.isfinite(value):
        message = f"{text[:40]!r} is no finite figure"
        raise ValueError(message)
    return value, unit_named(found[2])


def quantity(text: str, heading_unit: str, units: Mapping[str, float]) -> float:
    """Read a cell into the base unit of ``units``; a unit in the cell goes before that of the heading.

    The figure is divided, so that 15 cm2 here and 15 cm2 in a request are the same number to the last bit.

    Raises
    ------
    ValueError
        If the cell holds no positive figure in one of these units.
    """
    value, own_unit = figure(text)
    unit = own_unit or heading_unit
    if unit not in units:
        message = f"{unit!r} is none of the units {', '.join(filter(None, units))}"
        raise ValueError(message)
    result = value / units[unit]
    if not (math.isfinite(result) and result > 0.0):
        message = f"{text[:40]!r} is no positive figure"
        raise ValueError(message)
    return result


def _plain(text: str) -> str:
    """Write a figure with a point and without grouping.

    ``1.234,5`` and ``1,234.5`` say themselves which is the decimal sign. A single comma is a decimal
    comma; two or more equal signs group thousands.
    """
    text = _SPACES.sub("", text)
    if _THOUSANDS.match(text):
        return text.replace(",", "").replace(".", "")
    if "," in text and "." in text:
        decimal = max(text.rfind(","), text.rfind("."))
        grouping = "." if text[decimal] == "," else ","
        text = text.replace(grouping, "")
    return text.replace(",", ".")
