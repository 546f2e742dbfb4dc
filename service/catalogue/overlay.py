"""A tenant's own rows on top of a release: house materials, finishes, limits and bans.

An overlay never touches the release beneath it. Its hash is part of the identity of every answer
that is given with it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.catalogue.tables import KEYS, TABLES, key_of, record_from_row, row_from_record

BANS = "bans"
OVERLAY_TABLES = ("sources", "materials", "designations", "finishes", "finish_substrates", "limits", BANS)
"""What a house may add or replace: what it uses and what it allows, never what is known of metals."""

_REFERENCES: Mapping[str, Mapping[str, str]] = {
    "materials": {"source_id": "sources", "electrode_id": "electrodes"},
    "designations": {"material_id": "materials"},
    "finishes": {
        "source_id": "sources",
        "outer_electrode_id": "electrodes",
        "underplate_id": "finishes",
    },
    "finish_substrates": {
        "source_id": "sources",
        "finish_id": "finishes",
        "underplate_id": "finishes",
    },
    "limits": {"source_id": "sources", "scale_id": "scales"},
}


@dataclass(frozen=True, slots=True)
class Ban:
    """A finish that the house does not allow."""

    finish_id: str
    reason: str


@dataclass(frozen=True, slots=True)
class Overlay:
    """The private rows of one tenant. ``content_hash`` is empty where there are none."""

    records: Mapping[str, tuple[Any, ...]]
    bans: tuple[Ban, ...]
    content_hash: str


NO_OVERLAY = Overlay(MappingProxyType({}), (), "")


def overlay_from_rows(rows: Mapping[str, Iterable[Mapping[str, Any]]]) -> Overlay:
    """Build an overlay from plain rows by table; ``bans`` has the columns finish_id and reason.

    Raises
    ------
    NotForOverlaysError
        If a table may not be overlaid.
    MalformedRowError
        If a row does not fit its record.
    """
    records: dict[str, tuple[Any, ...]] = {}
    bans: tuple[Ban, ...] = ()
    for table in sorted(rows):
        if table not in OVERLAY_TABLES:
            raise NotForOverlaysError(table)
        if table == BANS:
            bans = tuple(sorted(map(_ban, rows[table]), key=lambda ban: ban.finish_id))
            continue
        keyed = {}
        for row in rows[table]:
            record = record_from_row(table, row)
            keyed[key_of(table, row_from_record(record))] = record
        if keyed:
            records[table] = tuple(keyed[key] for key in sorted(keyed))
    if not records and not bans:
        return NO_OVERLAY
    return Overlay(MappingProxyType(records), bans, _hash(records, bans))


def apply_overlay(catalogue: Catalogue, overlay: Overlay) -> Catalogue:
    """Return the catalogue as this tenant sees it; without an overlay the same object.

    A row with the key of a published one takes its place; all other rows are the release's.

    Raises
    ------
    DanglingOverlayError
        If a row names something that neither the release nor the overlay holds.
    """
    if not overlay.content_hash:
        return catalogue
    records = catalogue.records()
    for table, own in overlay.records.items():
        merged = {_key(table, record): record for record in records[table]}
        merged |= {_key(table, record): record for record in own}
        records[table] = tuple(merged.values())
    together = hashlib.sha256(f"{catalogue.content_hash}:{overlay.content_hash}".encode()).hexdigest()
    seen = Catalogue.from_records(
        catalogue.label,
        together,
        records,
        overlay_hash=overlay.content_hash,
        bans=MappingProxyType({ban.finish_id: ban.reason for ban in overlay.bans}),
    )
    _check_references(seen, overlay)
    return seen


def _check_references(seen: Catalogue, overlay: Overlay) -> None:
    for table, own in overlay.records.items():
        for record in own:
            for field, target in _REFERENCES.get(table, {}).items():
                name = getattr(record, field)
                if name and name not in getattr(seen, target):
                    raise DanglingOverlayError(table, _key(table, record), field, name)
    for ban in overlay.bans:
        if ban.finish_id not in seen.finishes:
            raise DanglingOverlayError(BANS, (ban.finish_id,), "finish_id", ban.finish_id)


def _ban(row: Mapping[str, Any]) -> Ban:
    for name in ("finish_id", "reason"):
        if not isinstance(row.get(name), str) or not row[name].strip():
            raise MalformedRowError(BANS, name, row.get(name), "is missing")
    surplus = set(row) - {"finish_id", "reason"}
    if surplus:
        raise MalformedRowError(BANS, min(surplus), row[min(surplus)], "is not a column of this table")
    return Ban(row["finish_id"], row["reason"])


def _key(table: str, record: Any) -> tuple[str, ...]:
    return tuple(str(getattr(record, name)) for name in KEYS[table])


def _hash(records: Mapping[str, tuple[Any, ...]], bans: tuple[Ban, ...]) -> str:
    plain: dict[str, Any] = {
        table: [row_from_record(record) for record in records[table]] for table in TABLES if table in records
    }
    plain[BANS] = [[ban.finish_id, ban.reason] for ban in bans]
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
