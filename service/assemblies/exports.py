"""Reports as CSV and workbooks. Text that a spreadsheet would run as a formula is made harmless."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

_FORMULA = re.compile(r"^[\s\u200b\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20\t\r\n|%]")
"""Starts that spreadsheet programs take for a formula or a command, full-width signs included."""

_NO_XML = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")
_LONGEST_CELL = 32_000

Cell = str | int | float | bool | None

JOINT_COLUMNS = (
    "joint",
    "name",
    "first",
    "second",
    "first_surface",
    "second_surface",
    "environment",
    "verdict",
    "severity",
    "confidence",
    "eaten",
    "why",
    "question",
    "conditions",
    "cautions",
    "loss_um_low",
    "loss_um_median",
    "loss_um_high",
    "allowance_um",
    "design_life_years",
    "is_assumed",
    "basis",
    "stands_for_pairs",
    "depends_on_case",
    "deciding_case",
    "network",
    "line",
)
PART_COLUMNS = (
    "part",
    "number",
    "revision",
    "effectivity",
    "description",
    "parent",
    "quantity",
    "zone",
    "text",
    "match",
    "surface",
    "verdict",
    "severity",
    "joints",
    "network_effect",
    "network_severity",
    "against_couples",
    "line",
)
UNRESOLVED_COLUMNS = ("text", "match", "decides", "question", "candidates", "suggestions", "parts", "joints")
FAULT_COLUMNS = ("table", "line", "column", "reason")


def as_csv(document: Mapping[str, Any]) -> bytes:
    """Write the joints of a report as CSV, worst first, in UTF-8 with the mark that spreadsheets look for."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream)
    writer.writerow(JOINT_COLUMNS)
    for row in joint_rows(document):
        writer.writerow([harmless(cell) for cell in row])
    return stream.getvalue().encode("utf-8-sig", "replace")


def as_xlsx(document: Mapping[str, Any]) -> bytes:
    """Write a report as a workbook with sheets of joints, parts, texts, faults and totals."""
    return workbook_of(
        (
            ("joints", JOINT_COLUMNS, joint_rows(document)),
            ("parts", PART_COLUMNS, _part_rows(document)),
            ("unresolved", UNRESOLVED_COLUMNS, _unresolved_rows(document)),
            ("faults", FAULT_COLUMNS, _fault_rows(document)),
            ("report", ("what", "value"), _about(document)),
        )
    )


def workbook_of(sheets: Iterable[tuple[str, Sequence[str], Iterable[Sequence[Cell]]]]) -> bytes:
    """Write a workbook of sheets, each with its title, headings and rows; text stays text."""
    import openpyxl

    workbook = openpyxl.Workbook(write_only=True)
    for title, columns, rows in sheets:
        _sheet(workbook, title, columns, rows)
    stream = io.BytesIO()
    workbook.save(stream)
    return stream.getvalue()


def harmless(cell: Cell) -> Cell:
    """Put an apostrophe before text that would run as a formula; figures stay figures."""
    if isinstance(cell, str) and _FORMULA.match(cell):
        return f"'{cell}"
    return cell


def joint_rows(document: Mapping[str, Any]) -> Iterable[list[Cell]]:
    """Rows of joints in the order of ``JOINT_COLUMNS``."""
    for joint in document["joints"]:
        loss = (joint["loss"] or {}).get("galvanic_loss_um", {})
        surfaces = joint["surfaces"] or {}
        anode = joint["anode"] or {}
        yield [
            joint["joint"],
            joint["name"],
            joint["first"]["number"],
            joint["second"]["number"],
            surfaces.get("first"),
            surfaces.get("second"),
            joint["environment"]["id"] if joint["environment"] else None,
            joint["verdict"],
            joint["severity"],
            joint["confidence"],
            anode.get("side"),
            joint["why"],
            joint["question"],
            _joined(f"{each['action']} ({each['who']})" for each in joint["conditions"]),
            _joined(joint["cautions"]),
            loss.get("low"),
            loss.get("median"),
            loss.get("high"),
            (joint["loss"] or {}).get("allowance_um"),
            joint["design_life_years"],
            joint["is_assumed"],
            joint["basis"],
            joint["stands_for_pairs"],
            joint["depends_on_case"],
            joint["deciding_case"],
            _network(joint["in_network"]),
            joint["line"],
        ]


def _part_rows(document: Mapping[str, Any]) -> Iterable[list[Cell]]:
    for part in document["parts"]:
        network = part["network"] or {}
        yield [
            *(part[name] for name in PART_COLUMNS[:13]),
            _joined(part["joints"]),
            network.get("effect"),
            network.get("severity"),
            network.get("against_couples"),
            part["line"],
        ]


def _unresolved_rows(document: Mapping[str, Any]) -> Iterable[list[Cell]]:
    for entry in document["unresolved"]:
        yield [
            entry["text"],
            entry["match"],
            entry["decides"],
            entry["question"],
            _joined(candidate["surface"] for candidate in entry["candidates"]),
            _joined(entry["suggestions"]),
            _joined(entry["parts"]),
            entry["joints"],
        ]


def _fault_rows(document: Mapping[str, Any]) -> Iterable[list[Cell]]:
    for fault in document["faults"]:
        yield [fault[name] for name in FAULT_COLUMNS]


def _about(document: Mapping[str, Any]) -> Iterable[list[Cell]]:
    yield ["name", document["name"]]
    yield ["release", document["release"]["label"]]
    yield ["content_hash", document["release"]["content_hash"]]
    yield ["engine", document["engine"]]
    yield ["policy", document["policy"]["name"]]
    yield ["sha256", document["sha256"]]
    for verdict, count in document["totals"]["by_verdict"].items():
        yield [f"joints {verdict}", count]
    for assumption in document["assumptions"]["contacts"]:
        yield ["assumed", assumption]


def _network(ends: Mapping[str, Any] | None) -> str | None:
    if ends is None:
        return None
    return _joined(
        f"{side} {end['effect']}, {end['against_couple']} than its joints alone"
        if end["against_couple"] in {"worse", "milder"}
        else f"{side} {end['effect']}"
        for side, end in ends.items()
        if end
    )


def _joined(texts: Iterable[str]) -> str:
    return "; ".join(texts)


def _sheet(workbook: Any, title: str, columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    from openpyxl.cell import WriteOnlyCell

    sheet = workbook.create_sheet(title)
    sheet.freeze_panes = "A2"
    sheet.append(list(columns))
    for row in rows:
        cells = []
        for value in row:
            shown = harmless(value)
            if isinstance(shown, str):
                shown = _NO_XML.sub("\ufffd", shown)[:_LONGEST_CELL]
            cell = WriteOnlyCell(sheet, value=shown)
            if isinstance(shown, str):
                cell.data_type = "s"  # text stays text, whatever it begins with
            cells.append(cell)
        sheet.append(cells)
