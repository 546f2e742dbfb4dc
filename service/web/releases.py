"""Which release a request reads."""

from __future__ import annotations

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from service.web.replies import MUST_ASK_AGAIN, PINNED
from service.web.shelf import OpenRelease
from service.web.state import services


async def release_for(request: Request, label: str | None) -> OpenRelease:
    """Return the release of a label, the current one without; only a rare one is read from the database."""
    shelf = services(request).shelf
    if known := shelf.at_hand(label):
        return known
    return await run_in_threadpool(shelf.fetch, label or "")


def pinned(label: str | None) -> str:
    """Return how long something read from the release of a label may be kept."""
    return PINNED if label else MUST_ASK_AGAIN
