"""Columns told by their cells, where headings leave open what they hold.

A column under a strange heading that lists materials is the column of materials; the column of names
is the one that holds words, whatever it is called; a column of states that knows none of ours is no
column of conditions.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from service.assemblies.columns import PARTS, Heading, is_of_commerce, plain
from service.assemblies.values import member
from service.catalogue.surfaces import Condition

BY_CELLS = "told by its cells"

_LETTERS = re.compile(r"[^\W\d_]{3,}|[^\W\d_a-zA-Z]{2,}")
_CODE = re.compile(r"[^\W_]*\d[^\W_]*")
_ENOUGH = 0.6
"""Share of filled cells that has to look alike. House rule."""
_FEWEST = 2
_LONGEST_MATERIAL = 60
"""A longer cell tells more than a material."""

_MATERIAL = re.compile(
    r"(?:(?:en[ -]?aw|aa|aisi|sae|din|en|iso) ?-?\d{3,5}|[1-8]\d{3}[ -]?[tho]\d|(?:aisi|ss|sus|inox|v)[ -]?"
    r"(?:2a|4a|30[1-5]|31[06]|430)|1\.[0-9]{4}|a[24](?:-[5-8]0)?\b|s(?:235|275|355)|pa ?(?:6|11|12|66)|"
    r"(?:pla|petg?|abs|asa|tpu|pom|peek|ptfe|hdpe|pe-?hd|pvc|pmma|pc|pp|fr-?4|nylon|acryl|plexi|delrin|"
    r"polycarbonat|polyamid|silicon|rubber|viton|wood|ply|"
    r"(?:\w+ "
    r")?(?:steel|stahl|acier|acero|acciaio|staal|aço|inox|stainless|edelstahl|rvs|alumin\w*|alu|allumin\w*|"
    r"alumín\w*|brass|messing|laiton|lat[oó]n|latão|ottone|copper|kupfer|cuivre|cobre|rame|koper|bronze?|"
    r"bronce|titan\w*|zinc|zamak|cast iron|fonte|grauguss|ghisa))\b)",
    re.IGNORECASE,
)


def are_words(cells: Sequence[str]) -> bool:
    """Whether most cells are names in words, and no numbers, codes or positions."""
    return _mostly(cells, is_wordy)


def are_materials(cells: Sequence[str]) -> bool:
    """Whether most cells start with the name of a material."""
    return _mostly(cells, lambda cell: len(cell) <= _LONGEST_MATERIAL and bool(_MATERIAL.match(cell)))


def is_wordy(cell: str) -> bool:
    """Whether a cell is a name in words: two words or more, or one without figures."""
    words = _LETTERS.findall(cell)
    if not words or cell.startswith(("http://", "https://")):
        return False
    return " " in cell.strip() or not _CODE.search(cell)


def _mostly(cells: Iterable[str], test: Callable[[str], bool]) -> bool:
    filled = _filled(cells)
    return len(filled) >= _FEWEST and sum(map(test, filled)) >= _ENOUGH * len(filled)


def _filled(cells: Iterable[str]) -> list[str]:
    return [cell.strip() for cell in cells if cell.strip(" -—–?")]


def told_by_cells(
    headings: Sequence[Heading], texts: Sequence[str], rows: Sequence[Sequence[str]]
) -> list[Heading]:
    """Say what the columns of parts are that their headings leave open.

    Parameters
    ----------
    headings : sequence of Heading
        As read from the headings alone; a column without a heading is not among them.
    texts : sequence of str
        The row of headings.
    rows : sequence of sequences of str
        The first rows below it.
    """
    columns = _Columns(headings, texts, rows)
    columns.tell_designators()
    columns.tell_states()
    columns.tell_materials()
    columns.tell_names()
    return [columns.found[place] for place in sorted(columns.found)]


class _Columns:
    """Headings by their places, with the cells below each."""

    def __init__(
        self, headings: Sequence[Heading], texts: Sequence[str], rows: Sequence[Sequence[str]]
    ) -> None:
        self.found = {heading.place: heading for heading in headings}
        self._dropped: set[int] = set()
        self._texts = texts
        self._rows = [row for row in rows if sum(bool(cell.strip()) for cell in row) >= _FEWEST]

    def _cells(self, place: int) -> list[str]:
        return [row[place] for row in self._rows if place < len(row)]

    def _holder(self, name: str) -> Heading | None:
        return next((each for each in self.found.values() if each.column and each.column.name == name), None)

    def _holds_words(self, name: str) -> bool:
        holder = self._holder(name)
        return holder is not None and are_words(self._cells(holder.place))

    def _tell(self, place: int, name: str) -> None:
        text = self._texts[place]
        self.found[place] = Heading(place, text, PARTS[name], is_guessed=True, reason=BY_CELLS)

    def _drop(self, heading: Heading, reason: str) -> None:
        self._dropped.add(heading.place)
        self.found[heading.place] = Heading(heading.place, heading.text, None, reason=reason)

    def tell_designators(self) -> None:
        """Numbers like *C1, C2* are designators; then a second column of numbers holds the numbers."""
        numbers = self._holder("part_number")
        if numbers is None or self._holder("designators"):
            return
        if _mostly(self._cells(numbers.place), lambda cell: bool(_DESIGNATORS.fullmatch(cell))):
            self._tell(numbers.place, "designators")
            for spare in self.found.values():
                if spare.column is None and spare.also == "part_number":
                    self._tell(spare.place, "part_number")
                    return

    def tell_states(self) -> None:
        """A column of states that are none of a finish is none of conditions."""
        state = self._holder("condition")
        if state is None or "condition" in plain(state.text):
            return
        if not any(map(_is_condition, self._cells(state.place))):
            self._drop(state, "holds no condition of a finish")

    def tell_materials(self) -> None:
        """Where no heading names materials, the first column that lists them holds them."""
        if self._holder("material") or self._holder("surface"):
            return
        for heading in self.found.values():
            is_free = heading.column is None and not heading.also and not is_of_commerce(heading.text)
            if is_free and are_materials(self._cells(heading.place)):
                self._tell(heading.place, "material")
                return

    def tell_names(self) -> None:
        """Where no column describes the parts, the first one of words does."""
        named = self._holder("description")
        if named and self._rows and not _filled(self._cells(named.place)):
            self._drop(named, "is empty")
            named = None
        if named or any(map(self._holds_words, ("part_number", "position"))):
            return
        for place, text in enumerate(self._texts):
            taken = self.found.get(place)
            is_free = taken is None or (taken.column is None and taken.also in _NAMING)
            is_free &= place not in self._dropped
            cells = _filled(self._cells(place))
            are_names = are_words(cells) and len(set(cells)) >= _ENOUGH * len(cells)
            if is_free and are_names and not is_of_commerce(text):
                self._tell(place, "description")
                return


_NAMING = frozenset({"", "part_number", "position"})
_DESIGNATORS = re.compile(r"[A-Z]{1,3}\d{1,4}(?:[ ,;-]+[A-Z]{1,3}\d{1,4})*")


def _is_condition(cell: str) -> bool:
    try:
        member(cell, Condition)
    except ValueError:
        return False
    return True
