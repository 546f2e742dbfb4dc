"""A tenant's own rows on top of a release: house materials, finishes, limits and bans.

An overlay never touches the release beneath it. Its hash is part of the identity of every answer
that is given with it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, Self

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.catalogue.tables import KEYS, TABLES, key_of, record_from_row, row_from_record

BANS = "bans"
PREFERENCES = "preferences"
OVERLAY_TABLES = (
    "sources",
    "materials",
    "designations",
    "finishes",
    "finish_substrates",
    "limits",
    BANS,
    PREFERENCES,
)
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
class HouseWord:
    """What the house says of a finish: that it does not allow it, or prefers it."""

    finish_id: str
    reason: str


@dataclass(frozen=True, slots=True)
class Overlay:
    """The private rows of one tenant. ``content_hash`` is empty where there are none."""

    records: Mapping[str, tuple[Any, ...]]
    bans: tuple[HouseWord, ...]
    preferences: tuple[HouseWord, ...]
    content_hash: str

    def owned_by(self, tenant_id: str) -> Self:
        """Return the overlay under a hash that no other tenant's has, even if it holds the same rows."""
        if not self.content_hash:
            return self
        own = hashlib.sha256(f"{tenant_id}\n{self.content_hash}".encode()).hexdigest()
        return replace(self, content_hash=own)


NO_OVERLAY = Overlay(MappingProxyType({}), (), (), "")


def overlay_from_rows(rows: Mapping[str, Iterable[Mapping[str, Any]]]) -> Overlay:
    """Build an overlay from plain rows by table.

    ``bans`` and ``preferences`` have the columns finish_id and reason.

    Raises
    ------
    NotForOverlaysError
        If a table may not be overlaid.
    MalformedRowError
        If a row does not fit its record.
    """
    records: dict[str, tuple[Any, ...]] = {}
    words: dict[str, tuple[HouseWord, ...]] = {BANS: (), PREFERENCES: ()}
    for table in sorted(rows):
        if table not in OVERLAY_TABLES:
            raise NotForOverlaysError(table)
        if table in words:
            said = (house_word(table, row) for row in rows[table])
            words[table] = tuple(sorted(said, key=lambda word: word.finish_id))
            continue
        keyed = {}
        for row in rows[table]:
            record = record_from_row(table, row)
            keyed[key_of(table, row_from_record(record))] = record
        if keyed:
            records[table] = tuple(keyed[key] for key in sorted(keyed))
    if not records and not any(words.values()):
        return NO_OVERLAY
    content_hash = _hash(records, words)
    return Overlay(MappingProxyType(records), words[BANS], words[PREFERENCES], content_hash)


def hash_of_both(release_hash: str, overlay_hash: str) -> str:
    """Name the content of a release with an overlay on top, without bringing them together."""
    if not overlay_hash:
        return release_hash
    return hashlib.sha256(f"{release_hash}:{overlay_hash}".encode()).hexdigest()


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
    for error in dangling(catalogue, overlay):
        raise error
    records = catalogue.records()
    for table, own in overlay.records.items():
        merged = {_key(table, record): record for record in records[table]}
        merged |= {_key(table, record): record for record in own}
        records[table] = tuple(merged.values())
    return Catalogue.from_records(
        catalogue.label,
        hash_of_both(catalogue.content_hash, overlay.content_hash),
        records,
        overlay_hash=overlay.content_hash,
        bans=MappingProxyType({word.finish_id: word.reason for word in overlay.bans}),
        preferences=MappingProxyType({word.finish_id: word.reason for word in overlay.preferences}),
    )


def dangling(catalogue: Catalogue, overlay: Overlay) -> Iterator[DanglingOverlayError]:
    """Give an error for every reference of an overlay to what neither it nor the release holds."""

    def is_there(target: str, name: str) -> bool:
        own = overlay.records.get(target, ())
        return name in getattr(catalogue, target) or any(record.id == name for record in own)

    for table, records in overlay.records.items():
        for record in records:
            for field, target in _REFERENCES.get(table, {}).items():
                name = getattr(record, field)
                if name and not is_there(target, name):
                    yield DanglingOverlayError(table, _key(table, record), field, name)
    for table, words in ((BANS, overlay.bans), (PREFERENCES, overlay.preferences)):
        for word in words:
            if not is_there("finishes", word.finish_id):
                yield DanglingOverlayError(table, (word.finish_id,), "finish_id", word.finish_id)


def house_word(table: str, row: Mapping[str, Any]) -> HouseWord:
    """Read a ban or a preference.

    Raises
    ------
    MalformedRowError
        If it lacks a column or has one too many.
    """
    for name in ("finish_id", "reason"):
        if not isinstance(row.get(name), str) or not row[name].strip():
            raise MalformedRowError(table, name, row.get(name), "is missing")
    surplus = set(row) - {"finish_id", "reason"}
    if surplus:
        raise MalformedRowError(table, min(surplus), row[min(surplus)], "is not a column of this table")
    return HouseWord(row["finish_id"], row["reason"])


def _key(table: str, record: Any) -> tuple[str, ...]:
    return tuple(str(getattr(record, name)) for name in KEYS[table])


def _hash(records: Mapping[str, tuple[Any, ...]], words: Mapping[str, tuple[HouseWord, ...]]) -> str:
    plain: dict[str, Any] = {
        table: [row_from_record(record) for record in records[table]] for table in TABLES if table in records
    }
    plain |= {table: [[word.finish_id, word.reason] for word in said] for table, said in words.items()}
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
