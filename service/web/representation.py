"""Records as the API shows them: their fields, plus what belongs to them in other tables."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

import orjson

from service.catalogue.catalogue import Catalogue
from service.catalogue.tables import row_from_record

Document = dict[str, Any]


def canonical(value: object) -> bytes:
    """Write JSON in the one form that digests are taken of: sorted keys, no spaces, UTF-8."""
    return orjson.dumps(value, option=orjson.OPT_SORT_KEYS)


def documents(catalogue: Catalogue, table: str) -> dict[str, Document]:
    """Return all records of a table as plain JSON values, in the order of their identifiers."""
    shape = _SHAPES.get(table, _plain)
    rows: Mapping[str, Any] = getattr(catalogue, table)
    parts = _PARTS.get(table, _no_parts)(catalogue)
    return {key: shape(row_from_record(rows[key]), parts.get(key, [])) for key in sorted(rows)}


def _plain(row: Document, _parts: list[Document]) -> Document:
    return row


def _no_parts(_catalogue: Catalogue) -> Mapping[str, list[Document]]:
    return {}


def _material(row: Document, designations: list[Document]) -> Document:
    return {**row, "designations": designations}


def _designations(catalogue: Catalogue) -> Mapping[str, list[Document]]:
    grouped = defaultdict(list)
    for designation in catalogue.designations:
        document = row_from_record(designation)
        grouped[document.pop("material_id")].append(document)
    return grouped


def _finish(row: Document, substrates: list[Document]) -> Document:
    return {**row, "substrates": substrates}


def _substrates(catalogue: Catalogue) -> Mapping[str, list[Document]]:
    grouped = {}
    for finish_id, rows in catalogue.finish_substrates.items():
        grouped[finish_id] = [row_from_record(row) for row in rows]
        for document in grouped[finish_id]:
            del document["finish_id"]
    return grouped


def _rule(row: Document, _parts: list[Document]) -> Document:
    return {**row, "trigger": json.loads(row["trigger"] or "null")}


def _mitigation(row: Document, _parts: list[Document]) -> Document:
    return {**row, "parameters": json.loads(row["parameters"] or "null")}


_SHAPES: Mapping[str, Callable[[Document, list[Document]], Document]] = MappingProxyType(
    {"materials": _material, "finishes": _finish, "rules": _rule, "mitigations": _mitigation}
)
_PARTS: Mapping[str, Callable[[Catalogue], Mapping[str, list[Document]]]] = MappingProxyType(
    {"materials": _designations, "finishes": _substrates}
)
