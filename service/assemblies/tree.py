"""Which part hangs below which: from levels, dotted positions, parent numbers, names or indentation."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

_DOTTED = re.compile(r"^\d+(?:[.\-]\d+)+$")
_LEVEL = re.compile(r"\d+")
_INDENT = re.compile(r"^[\s.>\-–—·•*+└├│─]*")

BY_PARENT = "the column of parents"
BY_LEVEL = "the column of levels"
BY_POSITION = "dotted positions"
BY_NAME = "the names of assemblies"
BY_INDENT = "indentation"
FLAT = "none: all parts lie under one parent"


@dataclass(frozen=True, slots=True)
class Place:
    """What a row says about its place in the tree."""

    id: str
    number: str
    position: str = ""
    parent: str = ""
    level: str = ""
    assembly: str = ""
    indent: int = 0


def indent_of(text: str) -> int:
    """Width of the blanks and signs in front of a text."""
    return len(_INDENT.match(text)[0].expandtabs(4))  # type: ignore[index]  # it matches the empty text too


def parents(rows: Sequence[Place]) -> tuple[list[str], str, list[str]]:
    """Parent of every row.

    Returns
    -------
    list of str
        Identifiers of the rows above, empty at the top. Under names of assemblies they are names that
        no row bears, in the form ``assembly:<name>``.
    str
        What the tree was read from.
    list of str
        Parent numbers that no row has.
    """
    if any(row.parent for row in rows):
        return _by_parent(rows)
    if any(_LEVEL.search(row.level) for row in rows):
        return _by_depth(rows, [_depth(row.level) for row in rows]), BY_LEVEL, []
    if sum(bool(_DOTTED.match(row.position)) for row in rows) * 2 > len(rows):
        return _by_position(rows), BY_POSITION, []
    if any(row.assembly for row in rows):
        return [f"assembly:{row.assembly}" if row.assembly else "" for row in rows], BY_NAME, []
    if len({row.indent for row in rows}) > 1:
        return _by_depth(rows, [row.indent for row in rows]), BY_INDENT, []
    return [""] * len(rows), FLAT, []


def _by_parent(rows: Sequence[Place]) -> tuple[list[str], str, list[str]]:
    """A parent that stands at several places is the nearest one above, else the first below."""
    everywhere: dict[str, str] = {}
    for row in rows:
        everywhere.setdefault(row.number or row.id, row.id)
    above: dict[str, str] = {}
    found, missing = [], []
    for row in rows:
        parent = above.get(row.parent) or everywhere.get(row.parent, "")
        if row.parent and not parent:
            missing.append(row.parent)
        found.append("" if parent == row.id else parent)
        above[row.number or row.id] = row.id
    return found, BY_PARENT, list(dict.fromkeys(missing))


def _depth(level: str) -> int:
    """``3``, ``..3`` and ``1.2.3`` all stand three deep."""
    if _DOTTED.match(level.strip()):
        return len(re.findall(r"\d+", level))
    found = _LEVEL.search(level)
    return int(found[0][:3]) if found else 0


def _by_depth(rows: Sequence[Place], depths: Sequence[int]) -> list[str]:
    open_rows: list[tuple[int, str]] = []
    found = []
    for row, depth in zip(rows, depths, strict=True):
        while open_rows and open_rows[-1][0] >= depth:
            open_rows.pop()
        found.append(open_rows[-1][1] if open_rows else "")
        open_rows.append((depth, row.id))
    return found


def _by_position(rows: Sequence[Place]) -> list[str]:
    ids = {tuple(re.findall(r"\d+", row.position)): row.id for row in reversed(rows) if row.position}
    found = []
    for row in rows:
        steps = tuple(re.findall(r"\d+", row.position))
        above = (ids.get(steps[:length], "") for length in range(len(steps) - 1, 0, -1))
        found.append(next(filter(None, above), ""))
    return found
