"""JSON and NDJSON as tables: one object for each part or joint, its members under the same headings."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from service.assemblies.errors import FileTooLargeError, MalformedTableError, UnreadableFileError
from service.assemblies.tables import Limits, RawTable, Row, checked
from service.assemblies.tabular import decoded

_ENDS = (("first", "second"), ("part_a", "part_b"))
"""Members by which an object is a joint."""

Record = tuple[int, Mapping[str, Any]]


def read_json(data: bytes, table: str, limits: Limits) -> tuple[list[RawTable], dict[str, Any]]:
    """Read a JSON document, or one object in each line, into tables of parts and joints.

    Returns
    -------
    list of RawTable
        Parts and joints, those that there are.
    dict
        What else the document says: ``name``, ``zones``, ``programme``.

    Raises
    ------
    UnreadableFileError
        If it is no JSON of this shape.
    FileTooLargeError
        If it is larger than the limits.
    """
    if len(data) > limits.file_bytes:
        raise FileTooLargeError(table, "bytes", limits.file_bytes)
    text, _ = decoded(data.lstrip(), table)
    document = _whole(text)
    if document is None:
        parts, joints, rest = _sorted(_lines(text, table), table)
    elif isinstance(document, list):
        parts, joints, rest = _sorted(_listed(document, table), table)
    else:
        parts = list(_listed(document.get("parts", []), f"{table}, parts"))
        joints = list(_listed(document.get("joints", []), f"{table}, joints"))
        rest = {name: value for name, value in document.items() if name not in {"parts", "joints"}}
    tables = [
        RawTable(f"{table}, {kind}", checked(f"{table}, {kind}", _rows(records, f"{table}, {kind}"), limits))
        for kind, records in (("parts", parts), ("joints", joints))
        if records
    ]
    return tables, rest


def _whole(text: str) -> dict[str, Any] | list[Any] | None:
    """The document if the text is one, ``None`` if it may be lines."""
    try:
        document = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if isinstance(document, dict) and "parts" not in document and "joints" not in document:
        return [document]
    return document if isinstance(document, dict | list) else None


def _lines(text: str, table: str) -> Iterator[Record]:
    for line, content in enumerate(text.splitlines(), 1):
        if not content.strip():
            continue
        try:
            record = json.loads(content)
        except (ValueError, RecursionError) as error:
            raise MalformedTableError(table, line, "", "is no JSON object") from error
        yield line, _object(record, table, line)


def _listed(records: object, table: str) -> Iterator[Record]:
    if not isinstance(records, list):
        raise UnreadableFileError(table, "is no list of objects")
    for place, record in enumerate(records, 1):
        yield place, _object(record, table, place)


def _object(record: object, table: str, line: int) -> Mapping[str, Any]:
    if not isinstance(record, dict):
        raise MalformedTableError(table, line, "", "is no JSON object")
    return record


def _sorted(records: Iterable[Record], table: str) -> tuple[list[Record], list[Record], dict[str, Any]]:
    """Tell parts, joints and the header of a stream apart."""
    parts: list[Record] = []
    joints: list[Record] = []
    rest: dict[str, Any] = {}
    for line, record in records:
        if any(all(end in record for end in ends) for ends in _ENDS):
            joints.append((line, record))
        elif "zones" in record or "programme" in record:
            rest |= record
        else:
            parts.append((line, record))
    if not (parts or joints):
        raise UnreadableFileError(table, "holds neither parts nor joints")
    return parts, joints, rest


def _rows(records: Iterable[Record], table: str) -> Iterator[Row]:
    """Headings first, then the records in their order."""
    records = list(records)
    names = list(dict.fromkeys(name for _, record in records for name in record))
    yield 0, names
    for line, record in records:
        yield line, [_text(record.get(name), table, line, name) for name in names]


def _text(value: object, table: str, line: int, name: str) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list) and all(isinstance(entry, str) for entry in value):
        return "; ".join(value)
    if isinstance(value, dict | list):
        raise MalformedTableError(table, line, name, "holds an object where text or a figure is read")
    return str(value)
