"""A release: the knowledge base of one day, frozen, hashed and read back.

The export is canonical JSON (sorted keys, rows sorted by key, no spaces), so two servers that
publish the same rows hold the same bytes and the same hash.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DamagedReleaseError
from service.catalogue.tables import TABLES, key_of, record_from_row, row_from_record

FORMAT = 1


def freeze(label: str, rows: Mapping[str, Iterable[Mapping[str, Any]]]) -> bytes:
    """Return the canonical export of a release.

    Every row passes through its record, so that a release cannot hold what a catalogue cannot read.
    """
    tables = {}
    for table in TABLES:
        plain = [row_from_record(record_from_row(table, row)) for row in rows.get(table, ())]
        tables[table] = sorted(plain, key=lambda row: key_of(table, row))
    export = {"format": FORMAT, "label": label, "tables": tables}
    return json.dumps(export, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def content_hash(export: bytes) -> str:
    """SHA-256 of an export, in hexadecimal."""
    return hashlib.sha256(export).hexdigest()


def thaw(export: bytes, expected_hash: str | None = None) -> Catalogue:
    """Read an export back into a catalogue.

    Raises
    ------
    DamagedReleaseError
        If ``expected_hash`` is given and the bytes do not match it.
    """
    found = content_hash(export)
    if expected_hash is not None and found != expected_hash:
        raise DamagedReleaseError(expected_hash, found)
    data = json.loads(export)
    records = {
        table: tuple(record_from_row(table, row) for row in data["tables"].get(table, ())) for table in TABLES
    }
    return Catalogue.from_records(data["label"], found, records)
