"""Rows of a table to parts."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from service.assemblies import tree
from service.assemblies.assembly import Fault
from service.assemblies.columns import plain
from service.assemblies.contents import is_wordy
from service.assemblies.figures import figure, quantity
from service.assemblies.hardware import is_fastener
from service.assemblies.headed import Cells, HeadedTable
from service.assemblies.parts import Part
from service.assemblies.values import member, truth
from service.catalogue.surfaces import Condition

_TOTALS = {
    "total",
    "totals",
    "sum",
    "subtotal",
    "sub total",
    "grand total",
    "summe",
    "gesamt",
    "total general",
}
_TOTAL = re.compile(r"(?:total|summe|gesamt|sous total)(?: \w+){0,2}")
_TOTAL_STARTS = tuple(sorted({word.split()[0] for word in (*_TOTALS, "sous total")}))
_NAMING = ("part_number", "description", "surface", "material", "specification", "designators")
_MOST_LINES = 20
"""Lines that are named before their number alone is."""
_EMPTY = {"", "-", "--", "n/a", "na", "none", "tbd", "?", "n.a.", "nil", "—", "~"}


@dataclass(slots=True)
class PartRows:
    """Parts as read, with what had to be passed over or assumed."""

    parts: dict[str, Part] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)


def read_parts(table: HeadedTable) -> PartRows:
    """Read all parts of a table and hang them into their tree."""
    read = PartRows(assumptions=list(table.assumptions))
    rows: list[tuple[Part, tree.Place]] = []
    used: Counter[str] = Counter()
    passed_over: list[int] = []
    for line, cells, wrong in table.rows:
        texts = {name: text for name, (text, _) in cells.items() if text.strip().lower() not in _EMPTY}
        texts = _with_name(texts)
        if not _is_part(texts):
            passed_over.append(line)
            continue
        if wrong:
            read.faults.append(Fault(table.name, line, "", wrong))
        values = dict(_values(cells, texts, table.name, line, read.faults))
        for assembly in _assemblies(texts.get("assembly", "")):
            number = next(
                (texts[name].strip() for name in ("part_number", "position", "designators") if name in texts),
                "",
            )
            identifier = _unique(number or f"row {line}", used)
            part = Part(id=identifier, number=number, line=line, **values)
            rows.append((part, _place(part, texts, assembly)))
    _hang(rows, read, table.name)
    if passed_over:
        read.assumptions.append(f"{_lines(passed_over)}: totals or no part named, passed over")
    return read


def _lines(lines: list[int]) -> str:
    named = ", ".join(map(str, lines[:_MOST_LINES]))
    return f"{'rows' if len(lines) > 1 else 'row'} {named}" + (
        f" and {len(lines) - _MOST_LINES} more" if len(lines) > _MOST_LINES else ""
    )


def _with_name(texts: dict[str, str]) -> dict[str, str]:
    """A part without a description is described by the number, position or type that is written in words."""
    if "description" in texts:
        return texts
    others = ("part_number", "position", "specification") if "surface" not in texts else ()
    name = next((texts[other] for other in others if is_wordy(texts.get(other, ""))), "")
    return {**texts, "description": name} if name else texts


def _is_part(texts: dict[str, str]) -> bool:
    named = [texts[name] for name in _NAMING if name in texts]
    return bool(named) and not any(map(_is_total, (*named, texts.get("position", ""))))


def _is_total(text: str) -> bool:
    if not text.strip().lower().startswith(_TOTAL_STARTS):
        return False
    words = plain(text)
    return words in _TOTALS or _TOTAL.fullmatch(words) is not None


def _assemblies(text: str) -> list[str]:
    """Names of the assemblies that a row says it is used in; one of them empty for none."""
    names = [name.strip() for name in re.split(r"[,;\n]", text)]
    return list(dict.fromkeys(filter(None, names))) or [""]


def _unique(name: str, used: Counter[str]) -> str:
    """The first place of a number bears it alone, the next ones ``number#2`` and so on."""
    used[name] += 1
    return name if used[name] == 1 else _unique(f"{name}#{used[name]}", used)


def _values(
    cells: Cells, texts: dict[str, str], table: str, line: int, faults: list[Fault]
) -> Iterator[tuple[str, Any]]:
    for name in (
        "description",
        "revision",
        "effectivity",
        "material",
        "finish",
        "zone",
        "net",
        "designators",
    ):
        if name in texts:
            yield name, " ".join(texts[name].strip().lstrip(".>└├│─•").split())
    if "surface" in texts:
        yield "text", " ".join(texts["surface"].split())
    if note := "; ".join(texts[name].strip() for name in ("specification", "note") if name in texts):
        yield "note", " ".join(note.split())
    readers: dict[str, tuple[str, Callable[[str, str, Mapping[str, float]], Any]]] = {
        "quantity": ("quantity", lambda text, _unit, _units: _pieces(text)),
        "wetted_area": ("wetted_area_m2", quantity),
        "thickness": ("thickness_um", quantity),
        "condition": ("condition", lambda text, _unit, _units: member(text, Condition)),
        "is_isolated": ("is_isolated", lambda text, _unit, _units: truth(text)),
    }
    for name, (attribute, read) in readers.items():
        if name not in texts:
            continue
        heading = cells[name][1]
        try:
            yield attribute, read(texts[name], heading.unit, heading.column.units or {})  # type: ignore[union-attr]
        except ValueError as error:
            faults.append(Fault(table, line, heading.text.strip(), str(error)))


def _pieces(text: str) -> float:
    """A count; a unit of counting behind it (pcs, set, m) says nothing to us."""
    found = re.match(r"[\d.,' ]*\d", text.strip())
    if found is None:
        message = f"{text[:40]!r} is no count"
        raise ValueError(message)
    return figure(found[0])[0]


def _place(part: Part, texts: dict[str, str], assembly: str) -> tree.Place:
    led = max((tree.indent_of(texts.get(name, "")) for name in ("part_number", "description")), default=0)
    return tree.Place(
        part.id,
        part.number,
        texts.get("position", ""),
        texts.get("parent", "").strip(),
        texts.get("level", ""),
        assembly,
        led,
    )


def _hang(rows: list[tuple[Part, tree.Place]], read: PartRows, table: str) -> None:
    parents, basis, missing = tree.parents([place for _, place in rows])
    if basis is tree.BY_NAME and _are_categories(rows, parents):
        parents, basis = [""] * len(rows), tree.FLAT
        read.assumptions.append("names of assemblies hold fasteners alone, so they are taken for categories")
    if basis is tree.BY_NAME:
        for name in dict.fromkeys(filter(None, parents)):
            read.parts[name] = Part(id=name, description=name.removeprefix("assembly:"))
    for (part, _), parent in zip(rows, parents, strict=True):
        read.parts[part.id] = replace(part, parent=parent)
    read.assumptions.append(f"the tree was read from {basis}")
    read.faults += [Fault(table, None, "parent", f"no row has the number {name!r}") for name in missing]


def _are_categories(rows: list[tuple[Part, tree.Place]], parents: list[str]) -> bool:
    """Whether some name holds several fasteners and nothing else: a category, not an assembly."""
    members: dict[str, list[bool]] = {}
    for (part, _), parent in zip(rows, parents, strict=True):
        members.setdefault(parent, []).append(is_fastener(part.words))
    return any(len(each) > 1 and all(each) for name, each in members.items() if name)
