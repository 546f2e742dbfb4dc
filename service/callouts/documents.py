"""Numbers of standards and specifications, each under one key whatever its spelling and revision."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

_YEAR = r"(?:[:/-](?:19|20)\d{2}(?:-\d{2})?)?"
_BODIES = r"(?:din|en|iso|bs|nf ?[a-z]?|uni|jis|gost|gb/?t?|ansi|asme|sfs|pn|csn)"
_BODY_ORDER = ("iso", "en", "din", "jis", "bs", "nf")
_COATED_BY_B_NUMBERS = (
    "117|177|200|253|298|449|488|545|579|580|604|605|633|634|650|679|689|695|700|733|734|766|841|842|867|"
    "893|912"
)
"""ASTM B numbers that are so well known that drawings leave the body out (*per B633*)."""


def _astm(found: re.Match[str]) -> str:
    return f"astm{found['letter']}{found['number']}"


def _short(found: re.Match[str]) -> str:
    return f"astmb{found['number']}"


def _military(found: re.Match[str]) -> str:
    kind = found["kind"] or ""
    is_old_film = kind == "c" and found["number"] == "5541"
    return f"mil{kind if kind == 'std' or is_old_film else ''}{found['number']}"


def _federal(found: re.Match[str]) -> str:
    return f"{re.sub('[ -]', '', found['letters'])}{found['number']}"


def _aerospace(found: re.Match[str]) -> str:
    """SAE took military documents over under their old letter and number (AMS-C-26074)."""
    return f"mil{found['number']}" if found["kind"] else f"ams{found['number']}"


def _society(found: re.Match[str]) -> str:
    return f"{re.sub('[ -]', '', found['body'])}{found['number']}"


def _standard(found: re.Match[str]) -> str:
    bodies = re.findall(r"[a-z]{2,4}", found["bodies"])
    body = next((name for name in _BODY_ORDER if name in bodies), "std")
    letter = (found["letter"] or "").strip() if body == "jis" else ""
    return f"{body}{letter}{found['number']}"


@dataclass(frozen=True, slots=True)
class Shape:
    """How one issuing body writes its numbers; ``key_of`` leaves out revision and year."""

    expression: str
    literals: str
    key_of: Callable[[re.Match[str]], str]


SHAPES: tuple[Shape, ...] = (
    Shape(
        (
            r"(?:astm|sae)[ -]{0,2}(?P<letter>[a-g])[ -]?(?P<number>\d{1,4})m?(?:/[a-g]?\d{1,4}m?)?"
            r"(?:-\d{2}[a-z]?)?"
        ),
        "astm sae",
        _astm,
    ),
    Shape(rf"b ?(?P<number>{_COATED_BY_B_NUMBERS})", "b", _short),
    Shape(
        (
            r"(?:mil|dod)[ -]?(?:spec[ -]?)?(?P<kind>std|hdbk|[a-z]{1,3})?[ -]{0,2}(?P<number>\d{3,6})[a-z]?"
            r"(?:/\d{1,3})?"
        ),
        "mil dod",
        _military,
    ),
    Shape(
        r"(?:ams[ -])?(?P<letters>(?:qq|tt)[ -]?[a-z])[ -]?(?P<number>\d{1,4})[a-z]?(?:/\d{1,2})?",
        "qq tt",
        _federal,
    ),
    Shape(
        r"(?:sae[ -])?ams[ -]?(?P<kind>[a-z])?[ -]?(?P<number>\d{4,5})[a-z]?(?:/\d{1,3})?", "ams", _aerospace
    ),
    Shape(
        (
            r"(?P<body>ipc|aama|nasm|nas|naf|bac|bms|an|def ?stan|pwa|dps|sspc|(?:ms|as)(?=[ -]{0,2}\d{4}))"
            r"[ -]{0,2}(?P<number>\d{1,5}(?:-\d{1,4})?)[a-z]?"
        ),
        "ipc aama nas naf bac bms an stan pwa dps sspc ms as",
        _society,
    ),
    Shape(
        (
            rf"(?P<bodies>{_BODIES}(?:[ /-]{{1,2}}{_BODIES}){{0,2}})[ /-]{{0,3}}(?P<letter>[a-h] ?)?"
            rf"(?P<number>\d{{1,6}})"
            rf"{_YEAR}(?:-\d{{1,2}})?{_YEAR}"
        ),
        "din en iso bs nf uni jis gost gb ansi asme sfs pn csn",
        _standard,
    ),
)

_COMPILED = tuple((re.compile(rf"(?<![a-z0-9]){shape.expression}"), shape.key_of) for shape in SHAPES)


def keys_in(text: str) -> Iterator[str]:
    """Yield the keys of all documents that a normalised text names."""
    for expression, key_of in _COMPILED:
        for found in expression.finditer(text):
            yield key_of(found)
