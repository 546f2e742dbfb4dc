"""Which release a request reads, and how its tenant sees it."""

from __future__ import annotations

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from service.web.replies import MUST_ASK_AGAIN, PINNED, PRIVATE
from service.web.shelf import OpenRelease
from service.web.state import principal, services


async def release_for(request: Request, label: str | None) -> OpenRelease:
    """Return the release of a label, the current one without, with the overlay of the caller's tenant.

    Only a rare one is read from the database.
    """
    tenants, tenant_id = services(request).tenants, principal(request).tenant_id
    if known := tenants.at_hand(label, tenant_id):
        return known
    return await run_in_threadpool(tenants.fetch, label, tenant_id)


async def release_then(request: Request, label: str, overlay_hash: str) -> OpenRelease:
    """Return a release with the overlay that the caller's tenant had once."""
    tenants, tenant_id = services(request).tenants, principal(request).tenant_id
    return await run_in_threadpool(tenants.fetch, label, tenant_id, overlay_hash)


async def published_release(request: Request, label: str) -> OpenRelease:
    """Return a release as it was published, the same for everybody."""
    shelf = services(request).shelf
    if known := shelf.at_hand(label):
        return known
    return await run_in_threadpool(shelf.fetch, label)


def pinned(label: str | None, release: OpenRelease) -> str:
    """Return how long something read from a release may be kept, and by whom."""
    if release.catalogue.overlay_hash:
        return PRIVATE
    return PINNED if label else MUST_ASK_AGAIN
