"""Rows of the knowledge base as plain values: their identity, their content, their references."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from service.catalogue.tables import KEYS, key_of
from service.storage.tables import KNOWLEDGE

Values = dict[str, Any]


def key_text(table: str, row: Mapping[str, Any]) -> str:
    """Return the identity of a row as one text: the id, or a JSON list of several columns."""
    parts = key_of(table, row)
    return parts[0] if len(parts) == 1 else json.dumps(parts, ensure_ascii=False, separators=(",", ":"))


def key_values(table: str, key: str) -> Values:
    """Return the key columns that ``key_text`` joined.

    Raises
    ------
    ValueError
        If the text is no key of this table.
    """
    names = KEYS[table]
    if len(names) == 1:
        return {names[0]: key}
    parts = json.loads(key)
    if not isinstance(parts, list) or len(parts) != len(names):
        raise ValueError(key)
    return {name: str(part) for name, part in zip(names, parts, strict=True)}


def row_hash(row: Mapping[str, Any]) -> str:
    """SHA-256 of a row's values, whatever their order."""
    text = json.dumps(row, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _references(*, is_optional: bool) -> Mapping[str, Mapping[str, str]]:
    return MappingProxyType(
        {
            table: MappingProxyType(
                {
                    column.name: key.column.table.name
                    for column in model.__table__.columns
                    for key in column.foreign_keys
                    if column.nullable == is_optional
                }
            )
            for table, model in KNOWLEDGE.items()
        }
    )


REQUIRED = _references(is_optional=False)
"""For each table the columns that must name a row elsewhere, and the table in which it lies."""

OPTIONAL = _references(is_optional=True)
"""The same for columns that may be empty."""

SUBJECT_TABLES: Mapping[str, str] = MappingProxyType(
    {
        "material": "materials",
        "electrode": "electrodes",
        "finish": "finishes",
        "compound": "compounds",
        "electrolyte": "electrolytes",
    }
)
"""Where the subject of a measurement lies, by its kind; no foreign key can say this."""


def referred(table: str, row: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """Return (column, table, id) of every row that this one names."""
    columns = {**REQUIRED[table], **OPTIONAL[table]}
    names = [(column, target, row[column]) for column, target in columns.items() if row[column]]
    if table == "measurements":
        names.append(("subject_id", SUBJECT_TABLES.get(row["subject_kind"], ""), row["subject_id"]))
    return names


def columns_naming(table: str, target: str) -> list[str]:
    """Return the columns of ``table`` that name rows of ``target``."""
    columns = {**REQUIRED[table], **OPTIONAL[table]}
    return [column for column, named in columns.items() if named == target]
