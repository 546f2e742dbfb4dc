"""Layer stacks in chemical symbols: Cu5Ni8Cr, 0.8 Au over 1.3 Ni, Ni/Au, Sn8."""

from __future__ import annotations

import re

from service.callouts.finishes.deciders import RANK
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Amount, Callout, Coat, Riddle, Sense
from service.callouts.patterns import Pattern, pattern
from service.callouts.thickness import NUMBER, UNIT, amount_of

_SYMBOL = r"pdni|znni|snpb|nip(?!d)|au|ag|pd|rh|sn|ni|cu|cr|zn|cd"
_ITEM = re.compile(
    rf"(?P<symbol>{_SYMBOL}) ?(?P<um>\d{{1,2}}(?:\.\d{{1,2}})?)?(?:[bmdf]|s(?!n)|p(?!d)|r(?!h))?"
)

_THICKEST_UNLABELLED_UM = 60.0
"""A symbol with a larger number and no unit names an alloy (Ni200, Sn63) rather than a coat."""
_THICKEST_GOLD_UM = 5.0
"""More gold than this in micrometres is not bought: the figure must be in microinches."""

_PER_CENT = 100.0
"""What the shares of a solder add up to (Sn96.5Ag3.5); a stack of coats hardly ever does."""
_PROPERTY_CLASSES = frozenset({"8.8", "10.9", "12.9"})
"""Strength of a fastener (ISO 898-1), not a thickness: *10.9 ZnNi*."""


def _run(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Several symbols run together, each with its micrometres: inner coat first."""
    coats = [_coat(item["symbol"], item["um"]) for item in _ITEM.finditer(found["run"])]
    kinds = [coat.kind for coat in coats]
    whole = sum(coat.amount.low_um for coat in coats if coat.amount)
    if len(set(kinds)) < len(kinds) or whole == _PER_CENT:
        return None
    callout = Callout(tuple(sorted(coats, key=lambda coat: -RANK[coat.kind])))
    nichrome = lexicon.held("nichrome-80")
    if found.string.strip() == "nicr" and nichrome:
        question = "Is NiCr the resistance alloy or chromium over nickel?"
        return Riddle((Alloy(nichrome, lexicon.family(nichrome[0])), callout), question)
    return callout


def _coat(symbol: str, number: str | None) -> Coat:
    kind = "en" if symbol == "nip" else symbol
    return Coat(kind, amount=Amount(float(number)) if number and float(number) > 0.0 else None)


def _before(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """A bare number before a symbol: micrometres, for much gold microinches."""
    if found["low"] in _PROPERTY_CLASSES or _is_alloy(found.group(), lexicon):
        return None
    if found["symbol"] == "cd" and " " in found.group():
        return None  # cold-drawn, or a stud for capacitor discharge
    return _labelled(found["symbol"], found["low"], found["high"])


def _glued(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """A number right after a symbol, with or without unit."""
    unit = next((name for name in ("micron", "microinch", "mil", "mm", "inch") if found[name]), "")
    if unit:
        amount = amount_of(found["low"], found["high"], unit)
        return Coat(_kind(found["symbol"]), amount=amount) if amount else None
    if _is_alloy(found.group(), lexicon):
        return None
    return _labelled(found["symbol"], found["low"], found["high"])


def _is_alloy(text: str, lexicon: Lexicon) -> bool:
    """Whether symbol and number in one word are the name of an alloy (Ni42, 9Ni) and no thickness."""
    return " " not in text and lexicon.alloy(text) is not None


def _labelled(symbol: str, low: str, high: str | None) -> Sense | None:
    value = float(low)
    is_chemistry = symbol == "cr" and value in {3.0, 6.0}
    if value <= 0.0 or value > _THICKEST_UNLABELLED_UM or is_chemistry:
        return None
    unit = "microinch" if symbol in {"au", "pd", "pdni"} and value > _THICKEST_GOLD_UM else "micron"
    return Coat(_kind(symbol), amount=amount_of(low, high, unit))


def _kind(symbol: str) -> str:
    return "en" if symbol == "nip" else symbol


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?P<run>(?:cu ?\d{0,2}(?:\.\d)?[ /+-]{0,3})?ni ?\d{0,2}(?:\.\d)?[bsd]?[ /+-]{0,3}cr(?: ?\d(?"
        r":\.\d{1,2})?)?)(?: ?(?:mc|mp|r))?",
        "ni",
        _run,
        "copper-nickel-chromium stack",
    ),
    pattern(
        r"(?P<run>(?:(?:au|ag|pd|sn|ni|cu|rh)\d{1,2}(?:\.\d{1,2})?[bmsdf]?[ /+-]{0,3}){2,4})",
        "au ag pd sn ni cu rh",
        _run,
        "stack of symbols",
    ),
    pattern(
        r"(?P<run>ni[/+-]?pd[/+-]?au|ni[/+-]au|niau|ni[/+-]sn|nisn|ni[/+-]ag|cu[/+-]ni[/+-](?:sn|au|ag)|"
        r"cunisn|cuniau|sn[/+-]ni|au[/+-]ni|ag[/+-]ni|au[/+-]pd[/+-]ni|cu[/+-]sn|ni[/+]cu(?![/+-]ni)|cu[/+]ni)",
        "ni cu",
        _run,
        "stack of symbols",
    ),
    pattern(
        rf"(?<![\w./])(?P<low>{NUMBER})(?: ?- ?(?P<high>{NUMBER}))? ?(?P<symbol>{_SYMBOL})(?![^\W_]|-[a-z])",
        "au ag pd rh sn ni cu cr zn cd",
        _before,
        "thickness and symbol",
        is_bounded=False,
    ),
    pattern(
        rf"(?P<symbol>{_SYMBOL})(?P<low>\d{{1,2}}(?:\.\d{{1,2}})?|\.\d{{1,2}}|\d{{3}}(?= ?u))(?:-(?"
        rf"P<high>{NUMBER}))?(?: ?{UNIT})?[bmsdf]?",
        "au ag pd rh sn ni cu cr zn cd",
        _glued,
        "symbol and thickness",
    ),
    pattern(
        r"(?P<symbol>au|ag|pd|rh|ni|sn) (?P<low>\d{1,2}\.\d{1,2}|\d{1,2}(?=-))"
        r"(?:-(?P<high>\d{1,2}(?:\.\d{1,2})?))?(?= ?(?:[,;/+)]|$))",
        "au ag pd rh ni sn",
        lambda found, _: _labelled(found["symbol"], found["low"], found["high"]),
        "symbol and thickness",
    ),
)
