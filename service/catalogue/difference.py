"""What changed between two releases, in terms of rows and fields."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.tables import TABLES, key_of, row_from_record

GRADING_FIELDS = frozenset({"obtained", "fitness", "plausibility", "quarantine_reason"})
"""Fields that say how far a figure may be trusted and not what it is."""

_Row = Mapping[str, Any]
_Key = tuple[str, ...]


class ChangeKind(StrEnum):
    """What a change means for whoever relied on the row."""

    ADDED = "added"
    REMOVED = "removed"
    CORRECTED = "corrected"
    REGRADED = "regraded"


@dataclass(frozen=True, slots=True)
class Change:
    """One field of one row, or with ``field`` empty a whole row that came or went.

    ``before`` and ``after`` are plain JSON values; of a whole row, the row.
    """

    table: str
    key: tuple[str, ...]
    field: str
    before: Any
    after: Any
    kind: ChangeKind


def diff(before: Catalogue | bytes, after: Catalogue | bytes) -> list[Change]:
    """Return the changes from one release to another, each given as catalogue or as export.

    They come in the order of the tables, then of the keys, then of the fields. Order of rows and
    labels of releases are no changes.
    """
    old, new = _rows(before), _rows(after)
    return [change for table in TABLES for change in _table_changes(table, old[table], new[table])]


def _table_changes(table: str, old: Mapping[_Key, _Row], new: Mapping[_Key, _Row]) -> Iterator[Change]:
    for key in sorted(old.keys() | new.keys()):
        if key not in old:
            yield Change(table, key, "", None, new[key], ChangeKind.ADDED)
        elif key not in new:
            yield Change(table, key, "", old[key], None, ChangeKind.REMOVED)
        else:
            yield from _row_changes(table, key, old[key], new[key])


def _row_changes(table: str, key: _Key, old: _Row, new: _Row) -> Iterator[Change]:
    for field in dict.fromkeys((*old, *new)):
        before, after = old.get(field), new.get(field)
        if before != after:
            kind = ChangeKind.REGRADED if field in GRADING_FIELDS else ChangeKind.CORRECTED
            yield Change(table, key, field, before, after, kind)


def _rows(release: Catalogue | bytes) -> dict[str, dict[_Key, _Row]]:
    if isinstance(release, Catalogue):
        plain = {
            table: [row_from_record(record) for record in records]
            for table, records in release.records().items()
        }
    else:
        plain = json.loads(release)["tables"]
    return {table: {key_of(table, row): row for row in plain.get(table, ())} for table in TABLES}
