"""Numbers of standards and specifications: what they are, and which finish they stand for.

The grammars know the documents whose types and classes they read. Beyond them the catalogue's own
list of specifications answers, product and material standards are understood and set aside, and
whatever remains is reported as not read.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial

from service.callouts.documents import SHAPES
from service.callouts.finishes.families import SPECS
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Callout, Clues, Coat, Option, Sense, Spec, Unread
from service.callouts.patterns import Pattern, pattern

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
    listed = lexicon.documents.get(key)
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


_HOUSE_STANDARDS = (
    r"gmw? ?-?\d{4,5}[a-z]?|vw ?-?\d{5}|tl ?-?\d{3}|dbl ?-?\d{4}(?:\.\d{2})?|ws[sdb]-?m\d[a-z]\d+-?[a-z]?\d?|"
    r"ford s4\d\d|gs ?9\d{4}|mbn ?\d{5}|psa ?b15 ?\d{4}|b15 \d{4}|tsh\d{4}g|hes ?d ?\d{4}|nes ?m ?\d{4}|"
    r"ofl-?[a-z]\d{3}[a-z]?|zns[1-9]|mf(?:zn|ni|cr|cd|sn)[a-z0-9]{0,4}|"
    r"stanag ?\d{4}|volvo std ?\d{3,4}"
)
"""Finish documents of vehicle makers and old codes: finishes for certain, but not which."""

PATTERNS: tuple[Pattern, ...] = (
    *(
        pattern(shape.expression, shape.literals, partial(_read, shape.key_of), "standard or specification")
        for shape in SHAPES
    ),
    pattern(
        _HOUSE_STANDARDS,
        "gm vw tl db ws ford gs mb psa b15 tsh hes nes ofl zns mf sta vol std",
        lambda found, _: Unread(found.group()),
        "finish document of a maker",
    ),
)
