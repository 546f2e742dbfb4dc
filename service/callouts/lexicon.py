"""The names of one catalogue, keyed so that spacing, case and punctuation do not matter."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple, Self

from service.callouts.documents import keys_in
from service.callouts.marks import Alloy
from service.callouts.normalise import normalise
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Designation

TOKEN = re.compile(r"(?:[^\W_]|(?<=\d)\.(?=\d))+")
"""A run of letters and digits; a point belongs to it only between digits."""

_ONE_SPELLING = {
    "aluminum": "aluminium",
    "gray": "grey",
    "fiber": "fibre",
    "sulphuric": "sulfuric",
    "galvanised": "galvanized",
    "galvanising": "galvanizing",
    "anodised": "anodized",
    "anodise": "anodize",
    "anodising": "anodizing",
    "colour": "color",
    "coloured": "colored",
    "vapour": "vapor",
    "mould": "mold",
    "nickle": "nickel",
}
"""American and British spellings count as one."""

_LOOSE_GAP = re.compile(r"[^ \-./()\[\]_,%]")
_LONGEST_NAME = 12
"""Words in a name; the longest of the first release has ten."""
_SHORTEST_FREE_KEY = 4
_NEVER_FREE = re.compile(r"\d+|(?:grade|gr)\d{1,2}|[adefhlmnrtwx]\d{1,3}")
"""Numbers, grades and short codes (A2, D2, L168) mean nothing without their surroundings."""

# Words of designations.csv, column note.
_NEAREST = "nearest relative"
_GENERIC = "generic name"
_DEFAULT = re.compile(r"temper not stated: (\S+) is the default reading")
_TEMPER_TAKEN = re.compile(r"temper not stated: taken as \S+")


class Token(NamedTuple):
    """A word of the normalised text."""

    text: str
    start: int
    end: int


def tokens_of(text: str) -> list[Token]:
    """Split normalised text into its words."""
    return [Token(_ONE_SPELLING.get(found[0], found[0]), *found.span()) for found in TOKEN.finditer(text)]


def key_of(text: str) -> str:
    """Return the key of a name: its words run together, digits kept apart.

    Examples
    --------
    >>> key_of("EN AW-6082"), key_of("X5CrNi18-10"), key_of("Al 99,5")
    ('enaw6082', 'x5crni18-10', 'al99.5')
    """
    normalised = normalise(text).text
    return joined(normalised, tokens_of(normalised))


def joined(normalised: str, tokens: Iterable[Token]) -> str:
    """Return the key of normalised text that was split into its words already."""
    key, end = "", 0
    for token in tokens:
        key = _joined(key, token.text, normalised[end : token.start]) if key else token.text
        end = token.end
    return key


def _joined(key: str, token: str, gap: str) -> str:
    if not (key[-1].isdigit() and token[0].isdigit()):
        return key + token
    return f"{key}{'-' if gap.strip() in {'-', '/'} else ' '}{token}"


def is_free_key(key: str) -> bool:
    """Whether a name may be recognised without the context of a grammar."""
    return len(key) >= _SHORTEST_FREE_KEY and not _NEVER_FREE.fullmatch(key)


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Names of the materials and finishes of a catalogue.

    ``exact_*`` map verbatim text, ``alloys`` and ``finishes`` map keys. ``generic`` holds keys that
    name a family rather than a grade. ``prefixes`` are the beginnings of all names that may stand
    free in a text; they end a search early. ``documents`` are the finishes by the specifications that
    the catalogue lists for them.
    """

    catalogue: Catalogue
    exact_materials: Mapping[str, tuple[str, ...]]
    exact_finishes: Mapping[str, tuple[str, ...]]
    alloys: Mapping[str, Alloy]
    finishes: Mapping[str, tuple[str, ...]]
    generic: frozenset[str]
    prefixes: frozenset[str]
    documents: Mapping[str, tuple[str, ...]]

    @classmethod
    def of(cls, catalogue: Catalogue) -> Self:
        """Index the names of a catalogue."""
        rows = list(_material_rows(catalogue))
        finishes_named = [(finish.name, finish.id) for finish in catalogue.finishes.values()]
        alloys = {key: _alloy(key, group, catalogue) for key, group in _by_key(rows).items()}
        finishes = _grouped((key_of(text), finish_id) for text, finish_id in finishes_named)
        free = [key for key in (*alloys, *finishes) if is_free_key(key)]
        return cls(
            catalogue=catalogue,
            exact_materials=_grouped((row.text, row.material_id) for row in rows),
            exact_finishes=_grouped(finishes_named),
            alloys=alloys,
            finishes=finishes,
            generic=frozenset(key_of(row.text) for row in rows if _GENERIC in row.note),
            prefixes=frozenset(key[:length] for key in free for length in range(1, len(key) + 1)),
            documents=_grouped(_documents(catalogue)),
        )

    def alloy(self, *names: str) -> Alloy | None:
        """Return the alloy under the first name that the catalogue knows."""
        for name in names:
            found = self.alloys.get(key_of(name))
            if found is not None:
                return found
        return None

    def held(self, *material_ids: str) -> tuple[str, ...]:
        """Return those identifiers that this catalogue holds, in the order given."""
        return tuple(name for name in material_ids if name in self.catalogue.materials)

    def family(self, material_id: str) -> str:
        """Return the family of a material."""
        return self.catalogue.materials[material_id].family

    def names_in(self, text: str, tokens: list[Token]) -> Iterator[tuple[int, int, str]]:
        """Yield (start, end, key) of the longest names that stand in a text."""
        for index, first in enumerate(tokens):
            longest = self._longest_from(text, tokens, index)
            if longest is not None:
                yield first.start, *longest

    def _longest_from(self, text: str, tokens: list[Token], index: int) -> tuple[int, str] | None:
        key = tokens[index].text
        longest = None
        for following in range(index, min(index + _LONGEST_NAME, len(tokens))):
            if following > index:
                gap = text[tokens[following - 1].end : tokens[following].start]
                if _LOOSE_GAP.search(gap):
                    break
                key = _joined(key, tokens[following].text, gap)
            if key not in self.prefixes:
                break
            if is_free_key(key) and (key in self.alloys or key in self.finishes):
                longest = tokens[following].end, key
        return longest


def _material_rows(catalogue: Catalogue) -> Iterator[Designation]:
    for material in catalogue.materials.values():
        yield Designation(material.id, "name", material.name, "")
    yield from catalogue.designations


def _documents(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for finish in catalogue.finishes.values():
        for text in finish.specifications:
            for key in keys_in(normalise(text).text):
                yield key, finish.id


def _by_key(rows: Iterable[Designation]) -> dict[str, list[Designation]]:
    groups: dict[str, list[Designation]] = defaultdict(list)
    for row in rows:
        key = key_of(row.text)
        if key:
            groups[key].append(row)
    return groups


def _alloy(key: str, rows: list[Designation], catalogue: Catalogue) -> Alloy:
    """One name, with relatives dropped where the name has an owner."""
    own = [row for row in rows if _NEAREST not in row.note]
    chosen = own or rows
    defaults = {found[1] for row in chosen if (found := _DEFAULT.search(row.note))}
    ids = list(dict.fromkeys(row.material_id for row in chosen))
    ids.sort(key=lambda name: name not in defaults)
    taken = [found[0] for row in chosen if (found := _TEMPER_TAKEN.search(row.note))]
    nearest = "" if own else f"{rows[0].text} is not listed: may {_name(catalogue, ids[0])} stand for it?"
    return Alloy(
        options=tuple(ids),
        family=catalogue.materials[ids[0]].family,
        key=key,
        assumptions=tuple(dict.fromkeys(taken)) if len(ids) == 1 else (),
        question=nearest,
    )


def _name(catalogue: Catalogue, material_id: str) -> str:
    return catalogue.materials[material_id].name


def _grouped(pairs: Iterable[tuple[str, str]]) -> dict[str, tuple[str, ...]]:
    groups: dict[str, dict[str, None]] = defaultdict(dict)
    for key, value in pairs:
        groups[key][value] = None
    return {key: tuple(values) for key, values in groups.items() if key}
