"""A tenant's private rows: kept apart, checked against a release, audited without their content."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import NotForOverlaysError
from service.catalogue.overlay import (
    BANS,
    OVERLAY_TABLES,
    PREFERENCES,
    Overlay,
    apply_overlay,
    house_word,
    overlay_from_rows,
)
from service.curation.errors import UnknownRowError
from service.curation.rows import checked_row
from service.storage.engine import Database, WriteSession
from service.storage.repositories.audit import OVERLAY, AuditRepository
from service.storage.repositories.overlays import OverlaysRepository, PrivateRow, Rows
from service.storage.rows import Values, key_text

PutRow = tuple[str, Mapping[str, Any]]
"""A table and a row to lie in it."""

RowName = tuple[str, str]
"""A table and the text of a key."""


def read_overlay(session: Session, tenant_id: str) -> Overlay:
    """Return what a tenant lays on top of every release."""
    return overlay_of(overlay_rows(session, tenant_id), tenant_id)


def overlay_rows(session: Session, tenant_id: str) -> Rows:
    """Return the private rows of a tenant by table."""
    return _by_table(OverlaysRepository(session).rows(tenant_id))


def overlays_in_force(database: Database) -> Mapping[str, str]:
    """Return the hashes of all present overlays by tenant."""
    with database.reading() as session:
        return OverlaysRepository(session).all_in_force()


def overlay_of(rows: Rows, tenant_id: str) -> Overlay:
    """Make an overlay of a tenant's rows."""
    return overlay_from_rows(rows).owned_by(tenant_id)


def checked_private_row(table: str, row: Mapping[str, Any]) -> Values:
    """Return a private row as it is kept.

    Raises
    ------
    NotForOverlaysError
        If the table may not be overlaid.
    MalformedRowError
        If the row does not fit its record.
    """
    if table not in OVERLAY_TABLES:
        raise NotForOverlaysError(table)
    if table in {BANS, PREFERENCES}:
        house_word(table, row)
        return dict(row)
    return checked_row(table, row)


def private_key(table: str, row: Mapping[str, Any]) -> str:
    """Return the text of a private row's key."""
    return str(row["finish_id"]) if table in {BANS, PREFERENCES} else key_text(table, row)


def change_overlay(
    session: WriteSession,
    tenant_id: str,
    *,
    put: Sequence[PutRow] = (),
    remove: Sequence[RowName] = (),
    on: Catalogue,
    by: str,
) -> Overlay:
    """Remove and put rows, and check that the outcome fits the release ``on``.

    Raises
    ------
    NotForOverlaysError, MalformedRowError
        If a row to be put does not fit its table.
    UnknownRowError
        If this tenant has no such row to remove.
    DanglingOverlayError
        If a row names something that neither the release nor the overlay holds.
    """
    overlays, audit = OverlaysRepository(session), AuditRepository(session)
    overlays.lock(tenant_id)
    for table, key in remove:
        if not overlays.remove(tenant_id, table, key):
            raise UnknownRowError(table, key)
    kept = [(table, checked_private_row(table, row)) for table, row in put]
    for table, row in kept:
        overlays.put(tenant_id, table, private_key(table, row), row, by)
    rows = _by_table(overlays.rows(tenant_id))
    overlay = overlay_of(rows, tenant_id)
    apply_overlay(on, overlay)
    steps = [("overlay.removed", *name) for name in remove]
    steps += [("overlay.put", table, private_key(table, row)) for table, row in kept]
    for action, table, key in steps:
        facts = {"table": table, "key": key, "overlay_hash": overlay.content_hash}
        audit.append(by, action, OVERLAY, tenant_id, **facts)
    overlays.keep_version(tenant_id, overlay.content_hash, rows, by)
    return overlay


def _by_table(rows: Iterable[PrivateRow]) -> Rows:
    tables: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        tables.setdefault(row.table_name, []).append(row.body)
    return tables
