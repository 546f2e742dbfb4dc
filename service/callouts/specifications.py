"""Numbers of standards and specifications: what they are, and which finish they stand for.

The grammars know the documents whose types and classes they read. Beyond them the catalogue's own
list of specifications answers, product and material standards are understood and set aside, and
whatever remains is reported as not read.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping

from service.callouts.finishes import (
    aluminium_films,
    boards,
    cadmium,
    chromium,
    flake,
    gold,
    hot_dip,
    nickel,
    organic,
    silver,
    steel_films,
    tin,
    zinc,
)
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Callout, Clues, Coat, Option, Sense, Spec, Unread
from service.callouts.normalise import normalise
from service.callouts.patterns import Pattern, pattern
from service.catalogue.catalogue import Catalogue

_MODULES = (
    zinc, hot_dip, flake, cadmium, nickel, chromium, tin, silver, gold, aluminium_films, steel_films, organic, boards,
)  # fmt: skip
SPECS: Mapping[str, Spec] = {key: spec for module in _MODULES for key, spec in module.SPECS.items()}

_YEAR = r"(?:[:/-](?:19|20)\d{2}(?:-\d{2})?)?"
_BODIES = r"(?:din|en|iso|bs|nf ?[a-z]?|uni|jis|gost|gb/?t?|ansi|asme|is|sfs|ss|pn|csn|as)"
_SHAPES = (
    r"(?P<astm>(?:astm|sae)[ -]{0,2}(?P<astm_letter>[a-g])[ -]?(?P<astm_number>\d{1,4})m?(?:/[a-g]?\d{1,4}m?)?(?:-\d{2}[a-z]?)?)",
    r"(?P<short>b ?(?P<short_number>117|177|200|253|298|449|488|545|579|580|604|605|633|634|650|679|689|695|700|733|734|766|841|842|867|893|912))",
    r"(?P<mil>(?:mil|dod|us)[ -]?(?:spec[ -]?)?(?P<mil_kind>std|hdbk|[a-z]{1,3})?[ -]{0,2}(?P<mil_number>\d{3,6})[a-z]?(?:/\d{1,3})?)",
    r"(?P<fed>(?:ams[ -])?(?P<fed_letters>qq[ -]?[a-z]|tt[ -]?[a-z])[ -]?(?P<fed_number>\d{1,4})[a-z]?(?:/\d{1,2})?)",
    r"(?P<ams>(?:sae[ -])?ams[ -]?(?P<ams_kind>std|[a-z])?[ -]?(?P<ams_number>\d{4,5})[a-z]?(?:/\d{1,3})?)",
    r"(?P<ipc>(?:ipc|aama|nas|naf|bac|bms|nasm|naswr|an|def ?stan|pwa|dps|hp|sspc|(?:ms|as)(?=[ -]{0,2}\d{4}))[ -]{0,2}(?P<ipc_number>\d{1,5}(?:-\d{1,4})?)[a-z]?)",
    rf"(?P<iso>{_BODIES}(?:[ /-]{{1,2}}{_BODIES}){{0,2}}[ /-]{{0,3}}(?P<iso_letter>[a-h] ?)?(?P<iso_number>\d{{1,6}}){_YEAR}(?:-\d{{1,2}})?{_YEAR})",
)


def key_of_spec(found: re.Match[str]) -> str:
    """Return a short key of a document: issuing body, letter and number without revision."""
    if found["astm"]:
        return f"astm{found['astm_letter']}{found['astm_number']}"
    if found["short"]:
        return f"astmb{found['short_number']}"
    if found["mil"]:
        return f"mil{'std' if found['mil_kind'] == 'std' else ''}{found['mil_number']}"
    if found["fed"]:
        letters = found["fed_letters"].replace(" ", "").replace("-", "")
        return f"{letters}{found['fed_number']}"
    if found["ams"]:
        kind = found["ams_kind"] or ""
        return f"ams{kind}{found['ams_number']}"
    if found["ipc"]:
        body = re.match(r"[a-z ]+", found["ipc"])
        return f"{(body[0] if body else '').replace(' ', '')}{found['ipc_number']}"
    bodies = re.findall(r"din|en|iso|jis|bs|nf", found["iso"])
    body = next((name for name in ("iso", "en", "din", "jis", "bs", "nf") if name in bodies), "std")
    letter = (found["iso_letter"] or "").strip() if body == "jis" else ""
    return f"{body}{letter}{found['iso_number']}"


_FINISH_AMS = re.compile(r"ams(?:24|25|26|27)\d{2}")
_MATERIAL = re.compile(
    r"astm[adf]\d+|ams[4-7]\d{3}|amsqqa\d+|qqa\d+|qqs\d+|qqb\d+|qqc\d+|qqw\d+|astmb(?:16|19|36|103|121|122|124|134|138|139|140|152|159|187|194|196|197|206|209|210|211|221|240|241|248|265|308|348|381|26|85|86|108|453|465|505|584|601|96|61|62|3|8|75|88|93|94|160|161|162|164|166|168)"
)
"""Documents that order a material, not a finish (from memory)."""


def _read(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    key = key_of_spec(found)
    spec = SPECS.get(_same_document(key, found)) or SPECS.get(key)
    if spec is not None:
        return spec
    listed = finishes_by_spec(lexicon.catalogue).get(key)
    if listed:
        return _listed(found.group(), listed)
    if found["short"]:
        return None
    is_product = found["iso"] or (
        found["ipc"] and not found["ipc"].startswith(("bac", "dps", "pwa", "hp", "def"))
    )
    if (is_product or _MATERIAL.match(key)) and not _FINISH_AMS.match(key):
        return Aside(found.group())
    return Unread(found.group())


def _same_document(key: str, found: re.Match[str]) -> str:
    """SAE took many military documents over under their old number (AMS-C-26074, AMS-QQ-P-416)."""
    if found["ams"] and found["ams_kind"]:
        return f"mil{found['ams_number']}"
    if key == "mil5541" and "mil-c" in found["mil"]:
        return "milc5541"
    return key


def _listed(text: str, finish_ids: tuple[str, ...]) -> Spec:
    question = f"Which finish of {text.upper()} is it?" if len(finish_ids) > 1 else ""
    options = tuple(Option(name, 1.0 / (rank + 1)) for rank, name in enumerate(finish_ids))

    def read(clues: Clues) -> Callout | None:
        return None if clues.kinds else Callout((Coat("listed", options=options, question=question),))

    return Spec(text, read)


_BY_SPEC: dict[str, Mapping[str, tuple[str, ...]]] = {}


def finishes_by_spec(catalogue: Catalogue) -> Mapping[str, tuple[str, ...]]:
    """Return the finishes of a catalogue by the documents that they list."""
    if catalogue.content_hash not in _BY_SPEC:
        _BY_SPEC[catalogue.content_hash] = _index(
            (text, finish.id) for finish in catalogue.finishes.values() for text in finish.specifications
        )
    return _BY_SPEC[catalogue.content_hash]


def _index(pairs: Iterable[tuple[str, str]]) -> Mapping[str, tuple[str, ...]]:
    grouped: dict[str, dict[str, None]] = defaultdict(dict)
    for text, finish_id in pairs:
        for found in PATTERNS[0].expression.finditer(normalise(text).text):
            grouped[key_of_spec(found)][finish_id] = None
    return {key: tuple(names) for key, names in grouped.items()}


PATTERNS: tuple[Pattern, ...] = (pattern("|".join(_SHAPES), "", _read, "standard or specification"),)
