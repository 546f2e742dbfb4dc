"""Numbers of standards and specifications: what they are, and which finish they stand for.

The grammars know the documents whose types and classes they read. Beyond them the catalogue's own
list of specifications answers, product and material standards are understood and set aside, and
whatever remains is reported as not read.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Mapping
from functools import partial

from service.callouts.finishes.families import SPECS
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Callout, Clues, Coat, Option, Sense, Spec, Unread
from service.callouts.normalise import normalise
from service.callouts.patterns import Pattern, pattern
from service.catalogue.catalogue import Catalogue

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


_SHAPES: tuple[tuple[str, str, Callable[[re.Match[str]], str]], ...] = (
    (
        (
            r"(?:astm|sae)[ -]{0,2}(?P<letter>[a-g])[ -]?(?P<number>\d{1,4})m?(?:/[a-g]?\d{1,4}m?)?"
            r"(?:-\d{2}[a-z]?)?"
        ),
        "astm sae",
        _astm,
    ),
    (rf"b ?(?P<number>{_COATED_BY_B_NUMBERS})", "b", _short),
    (
        (
            r"(?:mil|dod)[ -]?(?:spec[ -]?)?(?P<kind>std|hdbk|[a-z]{1,3})?[ -]{0,2}(?P<number>\d{3,6})[a-z]?"
            r"(?:/\d{1,3})?"
        ),
        "mil dod",
        _military,
    ),
    (
        r"(?:ams[ -])?(?P<letters>(?:qq|tt)[ -]?[a-z])[ -]?(?P<number>\d{1,4})[a-z]?(?:/\d{1,2})?",
        "qq tt",
        _federal,
    ),
    (r"(?:sae[ -])?ams[ -]?(?P<kind>[a-z])?[ -]?(?P<number>\d{4,5})[a-z]?(?:/\d{1,3})?", "ams", _aerospace),
    (
        (
            r"(?P<body>ipc|aama|nasm|nas|naf|bac|bms|an|def ?stan|pwa|dps|sspc|(?:ms|as)(?=[ -]{0,2}\d{4}))"
            r"[ -]{0,2}(?P<number>\d{1,5}(?:-\d{1,4})?)[a-z]?"
        ),
        "ipc aama nas naf bac bms an stan pwa dps sspc ms as",
        _society,
    ),
    (
        (
            rf"(?P<bodies>{_BODIES}(?:[ /-]{{1,2}}{_BODIES}){{0,2}})[ /-]{{0,3}}(?P<letter>[a-h] ?)?"
            rf"(?P<number>\d{{1,6}})"
            rf"{_YEAR}(?:-\d{{1,2}})?{_YEAR}"
        ),
        "din en iso bs nf uni jis gost gb ansi asme sfs pn csn",
        _standard,
    ),
)

_PROCESS_DOCUMENT = re.compile(r"(?:bac|dps|pwa|defstan|sspc|ams2[4-7]\d\d|mil(?!std)|tt|qqp|astmb)\w*")
"""Documents of coats and processes: not knowing one means not knowing a finish."""
_MATERIAL_DOCUMENT = re.compile(
    r"qq[abcsw]\d+|astmb(?:16|19|36|103|12[124]|13[489]|140|15[29]|187|19[4567]|20[69]|21[01]|221|24[018]|26|265|"
    r"308|348|381|8[56]|108|453|465|505|584|601|9[346]|6[12]|3|75|88|16[0-8])"
)
"""Documents that order a material (from memory)."""


def _read(key_of: Callable[[re.Match[str]], str], found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    key = key_of(found)
    spec = SPECS.get(key)
    if spec is not None:
        return spec
    listed = finishes_by_spec(lexicon.catalogue).get(key)
    if listed:
        return _listed(found.group(), listed)
    if _PROCESS_DOCUMENT.fullmatch(key) and not _MATERIAL_DOCUMENT.fullmatch(key):
        return Unread(found.group())
    return Aside(found.group())


def _listed(text: str, finish_ids: tuple[str, ...]) -> Spec:
    question = f"Which finish of {text.upper()} is it?" if len(finish_ids) > 1 else ""
    options = tuple(Option(name, 1.0 / (rank + 1)) for rank, name in enumerate(finish_ids))

    def read(clues: Clues) -> Callout | None:
        return None if clues.kinds else Callout((Coat("listed", options=options, question=question),))

    return Spec(text, read)


_BY_SPEC: dict[str, Mapping[str, tuple[str, ...]]] = {}
_KEPT = 8


def finishes_by_spec(catalogue: Catalogue) -> Mapping[str, tuple[str, ...]]:
    """Return the finishes of a catalogue by the documents that they list."""
    if catalogue.content_hash not in _BY_SPEC:
        while len(_BY_SPEC) >= _KEPT:
            _BY_SPEC.pop(next(iter(_BY_SPEC)))
        _BY_SPEC[catalogue.content_hash] = _index(catalogue)
    return _BY_SPEC[catalogue.content_hash]


def _index(catalogue: Catalogue) -> Mapping[str, tuple[str, ...]]:
    grouped: dict[str, dict[str, None]] = defaultdict(dict)
    for finish in catalogue.finishes.values():
        for text in finish.specifications:
            for entry, (_, _, key_of) in zip(PATTERNS, _SHAPES, strict=True):
                for found in entry.expression.finditer(normalise(text).text):
                    grouped[key_of(found)][finish.id] = None
    return {key: tuple(names) for key, names in grouped.items()}


PATTERNS: tuple[Pattern, ...] = tuple(
    pattern(expression, literals, partial(_read, key_of), "standard or specification")
    for expression, literals, key_of in _SHAPES
)
