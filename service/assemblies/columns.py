"""The columns that are read, and the headings under which records of other programs keep them.

A heading is compared without case, accents, punctuation and the unit behind it. Headings
of the trade are known in English, German, French, Spanish, Italian, Portuguese and Dutch. A heading that
is almost one of them, or that starts with one, counts and is reported; one that is none of them is
passed over and reported, unless its cells tell what it is (``contents``).
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from service.assemblies import figures
from service.assemblies.figures import unit_named
from service.assemblies.joint_headings import JOINT_HEADINGS
from service.assemblies.part_headings import PART_HEADINGS

ALMOST = 0.86
"""Likeness from which a misspelt heading counts. House rule."""

_SHORTEST_TO_GUESS = 5
"""Shorter headings are like too many others."""

_LONGEST_HEADING = 200
_MOST_WORDS = 5
_LANGUAGES = frozenset({"en", "de", "fr", "es", "it", "nl", "pt", "ja", "zh"})
"""Codes behind headings of the same in several languages: description_en."""

_LEADING = frozenset({"part_number", "description", "material", "finish", "quantity"})
"""Columns that are told by the first word of a heading of several: Material name, Qty (used), Réf. pièce."""
_TRAILING = frozenset({"quantity", "material"})
"""Columns that are told by the last word: qty robot, housing material."""
_OF_COMMERCE = """
cost costs price prices unit eur usd gbp weight mass kg density supplier vendor source sourcing link url
currency total kosten preis gewicht lieferant prix masse fournisseur precio peso proveedor prezzo prijs
leverancier distributor manufacturer hersteller fabricant fabricante produttore category group status
"""
_OTHER_FIGURES = frozenset(_OF_COMMERCE.split())
"""Words of headings that tell something of a part or a material which is not read."""


class Kind(StrEnum):
    """How the cells of a column are read."""

    TEXT = "text"
    FIGURE = "figure"
    COUNT = "count"
    YES_NO = "yes or no"
    FUNCTIONS = "functions"
    GEOMETRY = "geometry"
    CONDITION = "condition"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of ours. ``units`` lead to the base unit, ``unit`` is the usual one."""

    name: str
    kind: Kind
    meaning: str
    example: str
    also: tuple[str, ...]
    unit: str = ""
    units: Mapping[str, float] | None = None

    @property
    def heading(self) -> str:
        """Our own heading, with its usual unit."""
        return f"{self.name}_{self.unit}" if self.unit else self.name


@dataclass(frozen=True, slots=True)
class Heading:
    """One heading of a file and what became of it.

    ``column`` is ``None`` where it is passed over; ``also`` then names a column that another heading
    has taken before.
    """

    place: int
    text: str
    column: Column | None
    unit: str = ""
    is_guessed: bool = False
    reason: str = ""
    also: str = ""


def _columns(rows: Iterable[tuple[str, str, str, str, str]]) -> dict[str, Column]:
    units = {
        "area": ("cm2", figures.AREAS_PER_M2),
        "length": ("mm", figures.LENGTHS_PER_M),
        "thickness": ("um", figures.THICKNESSES_PER_UM),
        "current": ("A", figures.CURRENTS_PER_A),
        "force": ("N", figures.FORCES_PER_N),
        "years": ("years", figures.TIMES_PER_YEAR),
        "temperature": ("C", figures.TEMPERATURES),
    }
    columns = {}
    for name, kind, meaning, example, also in rows:
        unit, table = units.get(kind, ("", None))
        shown = Kind.FIGURE if table else Kind(kind)
        spellings = tuple(spelling.strip() for spelling in also.split(";"))
        columns[name] = Column(name, shown, meaning, example, spellings, unit, table)
    return columns


PARTS: Mapping[str, Column] = _columns(PART_HEADINGS)
"""Columns of a table of parts, by name."""

JOINTS: Mapping[str, Column] = _columns(JOINT_HEADINGS)
"""Columns of a table of joints, by name."""


def recognised(texts: Sequence[str], columns: Mapping[str, Column]) -> list[Heading]:
    """Say for each heading which column it is.

    Exact headings go before guessed ones, and the first of two equal ones counts.
    """
    found: dict[int, Heading] = {}
    taken: dict[str, int] = {}
    for is_guess in (False, True):
        for place, text in enumerate(texts):
            if place in found or not text.strip():
                continue
            name, unit = _lookup(text[:_LONGEST_HEADING], columns, is_guess=is_guess)
            if not name:
                continue
            column = columns[name]
            if name in taken:
                first = texts[taken[name]]
                reason = f"{name} is read from {first.strip()!r}"
                found[place] = Heading(place, text, None, reason=reason, also=name)
                continue
            taken[name] = place
            found[place] = Heading(place, text, column, unit or column.unit.lower(), is_guess)
    return [
        found.get(place, Heading(place, text, None, reason="not a column that is read"))
        for place, text in enumerate(texts)
        if text.strip()
    ]


def count_recognised(texts: Sequence[str], columns: Mapping[str, Column]) -> int:
    """How many columns a row names exactly, if it is a row of headings."""
    names = {_lookup(text, columns, is_guess=False)[0] for text in texts if 0 < len(text) <= _LONGEST_HEADING}
    return len(names - {""})


def _lookup(text: str, columns: Mapping[str, Column], *, is_guess: bool) -> tuple[str, str]:
    known = _known(tuple(columns))
    for words, unit in _readings(text):
        if not is_guess and words in known:
            name = known[words]
            if not unit or _takes(columns[name], unit):
                return name, unit
        if is_guess and len(words) >= _SHORTEST_TO_GUESS:
            near = difflib.get_close_matches(words, known, 1, ALMOST)
            if near and (not unit or _takes(columns[known[near[0]]], unit)):
                return known[near[0]], unit
    return (_by_one_word(plain(text).split(), known), "") if is_guess else ("", "")


def is_of_commerce(text: str) -> bool:
    """Whether a heading is one of prices, weights or suppliers, whatever its cells look like."""
    return not _OTHER_FIGURES.isdisjoint(plain(text).split())


def _by_one_word(words: Sequence[str], known: Mapping[str, str]) -> str:
    """The column that the first or the last word of a longer heading names, empty if it names none."""
    if len(words) > _MOST_WORDS or _OTHER_FIGURES.intersection(words):
        return ""
    for word, allowed in ((words[0], _LEADING), (words[-1], _TRAILING)) if len(words) > 1 else ():
        if known.get(word) in allowed:
            return known[word]
    return ""


def _takes(column: Column, unit: str) -> bool:
    return column.units is not None and unit in column.units


def _readings(text: str) -> list[tuple[str, str]]:
    """A heading as it stands, and with its last word or bracket taken for a unit."""
    whole = plain(text)
    readings = [(whole, "")]
    if (language := whole.rpartition(" "))[2] in _LANGUAGES:
        readings.append((language[0], ""))
    if bracket := re.search(r"[\[(]([^\])]*)[\])]\s*$", text):
        readings.append((plain(text[: bracket.start()]), unit_named(bracket[1])))
    lowered = text.replace("²", "2").replace("^", "").strip()
    if tail := re.search(r"(?:[\s_,/-]|\bin\s)+((?:sq\.?\s?)?[A-Za-zµμ°Ω\"]+2?)\.?$", lowered):
        readings.append((plain(lowered[: tail.start()].removesuffix(" in")), unit_named(tail[1])))
    return readings


@cache
def _known(names: tuple[str, ...]) -> dict[str, str]:
    table = PARTS if names == tuple(PARTS) else JOINTS
    spellings: dict[str, str] = {}
    for column in table.values():
        for spelling in (column.name, column.heading, *column.also):
            for written in (plain(spelling), plain(_umlauts_spelt_out(spelling))):
                spellings.setdefault(written, column.name)
    return spellings


def _umlauts_spelt_out(text: str) -> str:
    return text.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue").replace("ß", "ss")


def plain(text: str) -> str:
    """Write a heading without case, accents and punctuation; a number sign is a word."""
    text = text.replace("#", " number ").replace("№", " number ").replace("ß", "ss")
    text = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    decomposed = unicodedata.normalize("NFKD", text.lower())
    letters = "".join(sign for sign in decomposed if not unicodedata.combining(sign))
    return " ".join(re.findall(r"[a-z0-9]+", letters))
