"""A tenant's private rows: kept apart, checked against a release, audited without their content."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import NotForOverlaysError
from service.catalogue.overlay import (
    BANS,
    OVERLAY_TABLES,
    Overlay,
    apply_overlay,
    overlay_from_rows,
)
from service.curation.errors import UnknownRowError
from service.curation.rows import checked_row
from service.storage.engine import WriteSession
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.overlays import OverlaysRepository, PrivateRow
from service.storage.rows import key_text


def read_overlay(session: Session, tenant_id: str) -> Overlay:
    """Return what a tenant lays on top of every release."""
    return _overlay(OverlaysRepository(session).rows(tenant_id))


def put_row(
    session: WriteSession,
    tenant_id: str,
    table: str,
    row: Mapping[str, Any],
    *,
    on: Catalogue,
    by: str,
) -> PrivateRow:
    """Add or replace one private row and check that the overlay fits the release ``on``.

    Raises
    ------
    NotForOverlaysError
        If the table may not be overlaid.
    MalformedRowError
        If the row does not fit its record.
    DanglingOverlayError
        If it names something that neither the release nor the overlay holds.
    """
    if table not in OVERLAY_TABLES:
        raise NotForOverlaysError(table)
    body = dict(row) if table == BANS else checked_row(table, row)
    overlay_from_rows({table: [body]})
    key = str(body["finish_id"]) if table == BANS else key_text(table, body)
    overlays = OverlaysRepository(session)
    stored = overlays.put(tenant_id, table, key, body, by)
    overlay = _overlay(overlays.rows(tenant_id))
    apply_overlay(on, overlay)
    _audit(session, by, "overlay.put", tenant_id, table, key, overlay)
    return stored


def remove_row(
    session: WriteSession, tenant_id: str, table: str, key: str, *, on: Catalogue, by: str
) -> None:
    """Take a private row away and check that the rest still fits.

    Raises
    ------
    UnknownRowError
        If this tenant has no such row.
    DanglingOverlayError
        If another private row names it.
    """
    overlays = OverlaysRepository(session)
    if not overlays.remove(tenant_id, table, key):
        raise UnknownRowError(table, key)
    overlay = _overlay(overlays.rows(tenant_id))
    apply_overlay(on, overlay)
    _audit(session, by, "overlay.removed", tenant_id, table, key, overlay)


def _overlay(rows: Iterable[PrivateRow]) -> Overlay:
    tables: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        tables.setdefault(row.table_name, []).append(row.body)
    return overlay_from_rows(tables)


def _audit(
    session: WriteSession, by: str, action: str, tenant_id: str, table: str, key: str, overlay: Overlay
) -> None:
    facts = {"table": table, "key": key, "overlay_hash": overlay.content_hash}
    AuditRepository(session).append(by, action, "overlay", tenant_id, **facts)
