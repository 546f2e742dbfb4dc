"""Designations whose shape tells the family although the catalogue does not hold them.

An alloy number is never moved to a neighbour: 6060 is not 6061. Saying the family and naming the
gap is the honest reading.
"""

from __future__ import annotations

import re

from service.callouts.designations.aluminium import CAST, WROUGHT
from service.callouts.designations.copper import (
    BERYLLIUM_COPPER,
    BRASS,
    BRONZE,
    COPPER,
    COPPER_NICKEL,
    NICKEL_SILVER,
)
from service.callouts.designations.steel import CARBON, LOW_ALLOY, STAINLESS
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Sense
from service.callouts.patterns import Pattern, pattern

_TABLE: tuple[tuple[str, str], ...] = (
    # German and European material numbers (EN 10027-2, DIN 17007; ranges from memory).
    (r"1\.4\d{3}", STAINLESS),
    (r"1\.[01]\d{3}", CARBON),
    (r"1\.[235678]\d{3}", LOW_ALLOY),
    (r"0\.[678]\d{3}|5\.[1-5]\d{3}", "cast iron"),
    (r"2\.[01]\d{3}(?:\.\d{2})?", COPPER),
    (r"2\.2\d{3}", "zinc die cast"),
    (r"2\.3\d{3}", "lead"),
    (r"2\.4\d{3}", "nickel"),
    (r"3\.[0134]\d{3}", WROUGHT),
    (r"3\.2\d{3}", CAST),
    (r"3\.5\d{3}", "magnesium"),
    (r"3\.7\d{3}", "titanium"),
    # Unified numbering (ASTM E527; letters from memory).
    (r"a9[1-8]\d{3}", WROUGHT),
    (r"a0[2-8]\d{3}|a[1-3][2-8]\d{3}", CAST),
    (r"c[12]\d{4}|c7[05]\d{3}", COPPER),
    (r"c[234]\d{4}", BRASS),
    (r"c[569]\d{4}", BRONZE),
    (r"f\d{5}", "cast iron"),
    (r"[gh]\d{5}|k\d{5}", CARBON),
    (r"t[1-7]\d{4}", LOW_ALLOY),
    (r"s[1-6]\d{4}|j9\d{4}", STAINLESS),
    (r"n\d{5}", "nickel"),
    (r"r5\d{4}", "titanium"),
    (r"m1\d{4}", "magnesium"),
    (r"z[1-5]\d{4}", "zinc die cast"),
    # European copper numbers (EN 1412; letters from memory).
    (r"cw\d{3}[ab]|cr\d{3}[ab]", COPPER),
    (r"cw\d{3}[cd]|cc\d{3}[cd]", COPPER),
    (r"c[wc]\d{3}[g]", BRONZE),
    (r"c[wc]\d{3}h", COPPER_NICKEL),
    (r"c[wc]\d{3}j", NICKEL_SILVER),
    (r"c[wc]\d{3}k", BRONZE),
    (r"c[wc]\d{3}[lmnprs]", BRASS),
    # Names by composition.
    (r"en ?-?ac ?-?\d{5}|en ?-?ac ?-?al[a-z]{2}[a-z0-9.()]{0,16}", CAST),
    (r"g[dks]?-?al(?:si|mg|cu|zn|mn|ni|ti)[a-z0-9.()]{0,16}", CAST),
    (r"al(?:si[4-9]|si1\d)[a-z0-9.()]{0,14}", CAST),
    (r"(?:e-?)?al(?:mg|mn|zn|cu|si|fe|li)[a-z0-9.()]{0,16}", WROUGHT),
    (r"al ?9\d\.\d{1,2}", WROUGHT),
    (r"cuzn\d[a-z0-9.]{0,14}(?:-c)?", BRASS),
    (r"cu(?:sn|al|si)\d[a-z0-9.]{0,14}(?:-c)?", BRONZE),
    (r"cube\d[a-z0-9.]{0,8}", BERYLLIUM_COPPER),
    (r"cuni\d{1,2}zn\d[a-z0-9.]{0,8}", NICKEL_SILVER),
    (r"cuni\d{2}[a-z0-9.]{0,8}", COPPER_NICKEL),
    (r"cu(?:cr|co|fe|ag|te|mg|zr|s|pb|nisi|ni\dsi)[a-z0-9.]{0,10}", COPPER),
    (r"(?:g-?)?x\d{1,3}[a-z]{2,10}\d[0-9-]{0,10}", STAINLESS),
    (r"\d{2,3}(?:cr|mn|ni|mo|si|crmo|crni|nicr|mncr|mnb)[a-z]{0,6}\d{1,2}(?:-\d){0,3}", LOW_ALLOY),
    (r"ni(?:cr|mo|cu|fe)\d{1,2}[a-z0-9.]{0,12}", "nickel"),
    (r"ti(?:al|mo|v|sn|zr)\d[a-z0-9.]{0,10}|ti-?\d{1,2}al-?[a-z0-9.-]{1,14}", "titanium"),
    (r"(?:mc)?mg(?:al|zn|y|mn)\d[a-z0-9.]{0,10}|(?:az|am|as|ae|ez|qe|zk|zm|ze|we)\d{2}[a-d]?", "magnesium"),
    (r"en-?gj[lsmnv][a-z]?-[a-z0-9-]{2,12}", "cast iron"),
    (r"s-?(?:sn|pb)\d{1,2}[a-z0-9.]{1,12}|sn\d{2}(?:\.\d)?(?:pb|ag|cu|bi|zn|sb)[a-z0-9.]{0,10}", "solder"),
    # Japanese grades (JIS; letters from memory).
    (r"sus\d{3}[a-z0-9]{0,4}|suh\d{3}[a-z]?|scs\d{1,2}[a-z]?", STAINLESS),
    (r"ac\d[a-d](?:h)?|adc\d{1,2}z?", CAST),
    (r"ncf\d{3}[a-z]?", "nickel"),
)

_ROWS = tuple((re.compile(expression), family) for expression, family in _TABLE)


def _read(found: re.Match[str], _: Lexicon) -> Sense:
    text = found.group()
    return Alloy((), next(family for shape, family in _ROWS if shape.fullmatch(text)))


def _with_delivery_number(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """DIN 17007 adds two digits for the state of delivery: 3.3206.72."""
    return lexicon.alloy(found["number"])


PATTERNS: tuple[Pattern, ...] = (
    pattern(r"(?P<number>[0-35]\.\d{4})\.\d{2}", ".", _with_delivery_number, "material number with state"),
    pattern("|".join(expression for expression, _ in _TABLE), "", _read, "designation of a known family"),
)
PHRASES: dict[str, Sense] = {}
