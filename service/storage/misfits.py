"""Tenants whose overlay names what a release does not hold, and the line of the feed that tells them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from sqlalchemy.orm import Session

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError
from service.catalogue.overlay import dangling, overlay_from_rows
from service.storage.engine import WriteSession
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.overlays import OverlaysRepository, Rows

MISFIT = "overlay.misfit"
MOST_LISTED = 200
"""Rows that one line of the feed lists."""

Wrong = DanglingOverlayError | MalformedRowError


def misfits(session: Session, read: Callable[[], Catalogue]) -> Mapping[str, Sequence[Wrong]]:
    """Return by tenant what is wrong with its overlay on a release; those that fit are left out.

    The release is read only if there is an overlay to hold against it.
    """
    overlays = OverlaysRepository(session)
    in_force = overlays.all_in_force()
    if not in_force:
        return {}
    release = read()
    found = {
        tenant_id: _wrong(release, overlays.version(tenant_id, overlay_hash) or {})
        for tenant_id, overlay_hash in in_force.items()
    }
    return {tenant_id: wrong for tenant_id, wrong in found.items() if wrong}


def tell_misfits(session: WriteSession, label: str, read: Callable[[], Catalogue]) -> None:
    """Write a line for each tenant that cannot ask this release anything, for that tenant alone."""
    feed = ChangesRepository(session)
    for tenant_id, wrong in misfits(session, read).items():
        rows = [_named(each) for each in wrong[:MOST_LISTED]]
        facts = {"reason": str(wrong[0]), "rows": rows, "more_rows": len(wrong) - len(rows)}
        feed.append(MISFIT, label, tenant_id, **facts)


def _wrong(release: Catalogue, rows: Rows) -> tuple[Wrong, ...]:
    try:
        return tuple(dangling(release, overlay_from_rows(rows)))
    except MalformedRowError as error:  # stored by a version that knew another shape of the table
        return (error,)


def _named(each: Wrong) -> dict[str, object]:
    key = list(each.key) if isinstance(each, DanglingOverlayError) else []
    return {"table": each.table, "key": key, "field": each.field, "value": each.value}
