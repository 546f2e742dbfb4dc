"""Rows of a table to joints."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from service.assemblies.assembly import Fault
from service.assemblies.figures import figure, quantity
from service.assemblies.hardware import is_fastener
from service.assemblies.headed import Cells, HeadedTable
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.values import functions, member, truth
from service.judgement import Contact, Geometry

_TEXTS = ("environment", "name", "compound")


@dataclass(slots=True)
class JointRows:
    """Joints as read, with what was assumed; ``parts`` are those that the joints name by drawing text."""

    joints: list[Joint] = field(default_factory=list)
    parts: dict[str, Part] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)


def read_joints(table: HeadedTable, parts: Mapping[str, Part]) -> JointRows:
    """Read all joints of a table.

    Where there are parts, both ends are their identifiers or numbers. Without any the ends are
    drawing texts, and each text becomes a part.
    """
    read = JointRows()
    known = _Ends(parts)
    used: set[str] = set()
    for line, cells, wrong in table.rows:
        if wrong:
            read.faults.append(Fault(table.name, line, "", wrong))
        ends = [_end(known, cells, name, table.name, line, read) for name in ("first", "second")]
        if not all(ends):
            continue
        first, second = ends
        identifier = cells["joint"][0].strip() if "joint" in cells else f"row {line}"
        while identifier in used:
            identifier += "'"
        used.add(identifier)
        values = dict(_values(cells, table.name, line, read.faults))
        contact = Contact(**{name: values.pop(name) for name in ("current_A", "force_N") if name in values})
        joint = Joint(identifier, first, second, contact=contact, line=line, **values)
        read.joints.append(_with_round_second(joint, parts, read))
    return read


def _with_round_second(joint: Joint, parts: Mapping[str, Part], read: JointRows) -> Joint:
    """Turn a fastener joint round whose first part is the fastener and whose second is none."""
    if joint.geometry is not Geometry.FASTENER or not parts:
        return joint
    if not is_fastener(parts[joint.first].words) or is_fastener(parts[joint.second].words):
        return joint
    read.assumptions.append(f"{joint.id}: the fastener is taken as the second side")
    return replace(
        joint,
        first=joint.second,
        second=joint.first,
        first_area_m2=joint.second_area_m2,
        second_area_m2=joint.first_area_m2,
    )


class _Ends:
    """Parts by everything that a joint may call them; made once for a table."""

    def __init__(self, parts: Mapping[str, Part]) -> None:
        self.by_text = not parts
        self.names: dict[str, str] = {}
        for part in parts.values():
            self.names.setdefault(part.number, part.id)
        self.names |= {part.id: part.id for part in parts.values()}
        self.plain = {name.casefold(): identifier for name, identifier in self.names.items()}

    def find(self, text: str) -> str | None:
        """Identifier of the part that a cell names."""
        return self.names.get(text) or self.plain.get(text.casefold())

    def nearest(self, text: str) -> tuple[str, ...]:
        """Names like one that no part has."""
        return tuple(difflib.get_close_matches(text, self.names, 3))


def _end(known: _Ends, cells: Cells, column: str, table: str, line: int, read: JointRows) -> str:
    text = cells[column][0].strip() if column in cells else ""
    if not text:
        read.faults.append(Fault(table, line, column, "is empty"))
        return ""
    if known.by_text:
        read.parts.setdefault(text, Part(id=text, text=text, line=line))
        return text
    found = known.find(text)
    if found is None:
        near = known.nearest(text)
        hint = f"; did you mean {near[0]!r}?" if near else ""
        read.faults.append(Fault(table, line, column, f"no part {text!r}{hint}", near))
    return found or ""


_Reader = Callable[[str, str, Mapping[str, float]], Any]

_READERS: dict[str, tuple[str, _Reader]] = {
    "functions": ("functions", lambda text, _unit, _units: functions(text)),
    "geometry": ("geometry", lambda text, _unit, _units: member(text, Geometry)),
    "first_area": ("first_area_m2", quantity),
    "second_area": ("second_area_m2", quantity),
    "fastener_radius": ("fastener_radius_m", quantity),
    "bore": ("bore_m", quantity),
    "current": ("current_A", quantity),
    "force": ("force_N", quantity),
    "design_life": ("design_life_years", quantity),
    "section_allowance": ("section_allowance_um", quantity),
    "joint_temperature": ("joint_temperature_C", lambda text, _unit, _units: figure(text)[0]),
    "wear_cycles": ("wear_cycles", lambda text, _unit, _units: figure(re.sub(r"[^\d.,]+$", "", text))[0]),
    "is_isolated": ("is_isolated", lambda text, _unit, _units: truth(text)),
}


def _values(cells: Cells, table: str, line: int, faults: list[Fault]) -> Iterator[tuple[str, Any]]:
    for name in _TEXTS:
        if name in cells:
            yield name, cells[name][0].strip()
    for name, (attribute, read) in _READERS.items():
        if name not in cells:
            continue
        text, heading = cells[name]
        try:
            yield attribute, read(text, heading.unit, heading.column.units or {})  # type: ignore[union-attr]
        except ValueError as error:
            faults.append(Fault(table, line, heading.text.strip(), str(error)))
