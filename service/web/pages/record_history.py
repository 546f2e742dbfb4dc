"""How a record came to be what it is: what each release changed about it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from service.catalogue.tables import key_of
from service.storage.repositories.releases import ReleaseInfo
from service.web.pages.record_fields import text_of
from service.web.pages.wording import words

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Step:
    """What a release did to a record. ``changes`` holds the field, its value before and its value after."""

    label: str
    published_at: datetime
    published_by: str
    what: str
    changes: tuple[tuple[str, str, str], ...] = ()


def row_in(export: bytes, table: str, record_id: str) -> Row | None:
    """Return a record as an export holds it."""
    rows: Iterable[Row] = json.loads(export)["tables"].get(table, ())
    return next((row for row in rows if key_of(table, row) == (record_id,)), None)


def steps(rows: Iterable[tuple[ReleaseInfo, Row | None]]) -> list[Step]:
    """Compare a record from release to release, given oldest first; the newest step comes first."""
    return list(_steps(rows))[::-1]


def _steps(rows: Iterable[tuple[ReleaseInfo, Row | None]]) -> Iterator[Step]:
    before: Row | None = None
    is_first = True
    for info, row in rows:
        known = (info.label, info.published_at, info.published_by)
        if row is None and before is not None:
            yield Step(*known, "removed")
        elif row is not None and before is None:
            yield Step(*known, "already there" if is_first else "added")
        elif row is not None and before is not None and row != before:
            changed = (name for name in dict.fromkeys((*before, *row)) if before.get(name) != row.get(name))
            told = tuple((words(name), _told(before.get(name)), _told(row.get(name))) for name in changed)
            yield Step(*known, "changed", told)
        before, is_first = row, False


def _told(value: Any) -> str:
    return "–" if value in (None, "", []) else text_of(value)
