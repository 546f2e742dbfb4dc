"""From uploaded files to an assembly: one table of parts, one of joints, or both in a workbook or JSON."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import chain
from typing import Any

from service.assemblies.assembly import Assembly, Fault, Place, Programme
from service.assemblies.errors import InvalidAssemblyError, UnreadableFileError
from service.assemblies.headed import HeadedTable, headed, mapping_of, score
from service.assemblies.joint_rows import read_joints
from service.assemblies.joints import Joint
from service.assemblies.part_rows import read_parts
from service.assemblies.parts import Part
from service.assemblies.records import read_json
from service.assemblies.tables import DEFAULT_LIMITS, Limits, RawTable
from service.assemblies.tabular import read_text
from service.assemblies.xlsx import read_workbook

_ZIP = b"PK\x03\x04"


@dataclass(frozen=True, slots=True)
class File:
    """An uploaded file. What it holds is told from its content, not from its name."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class ReadAssembly:
    """An assembly with how its files were read: what became of each heading, and what was assumed."""

    assembly: Assembly
    mapping: Mapping[str, list[Mapping[str, object]]]
    assumptions: tuple[str, ...]


def read_assembly(files: Iterable[File], limits: Limits = DEFAULT_LIMITS) -> ReadAssembly:
    """Read the files of one assembly: CSV, XLSX, JSON or NDJSON.

    Cells that cannot be used are passed over and listed in ``assembly.faults``.

    Raises
    ------
    UnreadableFileError
        If a file is no table of parts or joints.
    FileTooLargeError
        If one is larger than the limits.
    InvalidAssemblyError
        If zones or programme of a JSON document cannot be used.
    """
    tables: list[HeadedTable] = []
    faults: list[Fault] = []
    rest: dict[str, Any] = {}
    for file in files:
        raws, said = _raw(file, limits)
        rest |= said
        tables += _headed(raws, file, faults)
    parts, joints, assumptions = _read(tables, faults)
    if not parts:
        raise UnreadableFileError(tables[0].name if tables else "no file", "no row names a part")
    assembly = Assembly(
        parts,
        tuple(joints),
        zones=_zones(rest.get("zones", {})),
        name=str(rest.get("name", "")),
        programme=_programme(rest.get("programme", {})),
        faults=tuple(faults),
    )
    return ReadAssembly(assembly, {table.name: mapping_of(table) for table in tables}, tuple(assumptions))


def _raw(file: File, limits: Limits) -> tuple[list[RawTable], dict[str, Any]]:
    if file.data.startswith(_ZIP):
        return read_workbook(file.data, file.name, limits), {}
    if file.data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith((b"{", b"[")):
        return read_json(file.data, file.name, limits)
    return [read_text(file.data, file.name, score, limits)], {}


def _headed(raws: list[RawTable], file: File, faults: list[Fault]) -> list[HeadedTable]:
    """Tables with headings; a sheet without is passed over as long as another one has them."""
    found: list[HeadedTable] = []
    errors: list[UnreadableFileError] = []
    for raw in raws:
        try:
            found.append(headed(raw))
        except UnreadableFileError as error:
            errors.append(error)
    if not found:
        raise errors[0] if errors else UnreadableFileError(file.name, "holds no table")
    faults += [Fault(error.table, None, "", error.reason) for error in errors]
    return found


def _read(tables: list[HeadedTable], faults: list[Fault]) -> tuple[dict[str, Part], list[Joint], list[str]]:
    """Parts first, because joints name them."""
    parts: dict[str, Part] = {}
    joints: list[Joint] = []
    assumptions: list[str] = []
    for table in (table for table in tables if table.kind == "parts"):
        found = read_parts(table)
        repeated = parts.keys() & found.parts.keys()
        faults += [
            Fault(table.name, found.parts[name].line, "", f"part {name!r} stands in an earlier table")
            for name in sorted(repeated)
        ]
        parts |= {name: part for name, part in found.parts.items() if name not in repeated}
        faults += found.faults
        assumptions += [f"{table.name}: {assumption}" for assumption in found.assumptions]
    named = dict(parts)
    for table in (table for table in tables if table.kind == "joints"):
        read = read_joints(table, named)
        joints += read.joints
        faults += read.faults
        parts |= read.parts
        assumptions += [f"{table.name}: {assumption}" for assumption in read.assumptions]
    return parts, joints, assumptions


def _zones(given: object) -> dict[str, Place]:
    if not isinstance(given, dict) or not all(
        isinstance(place, str) for place in chain(given, given.values())
    ):
        raise InvalidAssemblyError("/zones", "zones are names with the identifier of an environment each")
    return dict(given)


_PROGRAMME = {"name", "release", "environment", "design_life_years", "effective_at"}


def _programme(given: object) -> Programme:
    if not isinstance(given, dict):
        raise InvalidAssemblyError("/programme", "a programme is an object")
    for name in given:
        if name not in _PROGRAMME:
            near = tuple(difflib.get_close_matches(name, _PROGRAMME, 1))
            raise InvalidAssemblyError(f"/programme/{name}", "is not known", near)
    life = given.get("design_life_years")
    if life is not None and not (isinstance(life, int | float) and 0 < life < float("inf")):
        raise InvalidAssemblyError("/programme/design_life_years", "is no positive figure")
    texts = {name: str(value) for name, value in given.items() if name != "design_life_years"}
    return Programme(design_life_years=None if life is None else float(life), **texts)
