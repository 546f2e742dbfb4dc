"""Which release a request reads, and how long that may be kept."""

from __future__ import annotations

import pytest
from fastapi import Request

from service.storage.errors import UnknownReleaseError
from service.web.releases import pinned, release_for
from service.web.replies import MUST_ASK_AGAIN, PINNED
from tests.factories.http import LABEL, Running

pytestmark = pytest.mark.anyio


async def test_the_current_release_serves_unless_another_is_named(started: Running) -> None:
    request = Request({"type": "http", "headers": [], "state": {"services": started.services}})
    current = await release_for(request, None)
    assert current is await release_for(request, LABEL) is started.services.shelf.current
    with pytest.raises(UnknownReleaseError):
        await release_for(request, "1999.01.01-1")


def test_only_a_named_release_may_be_kept() -> None:
    assert (pinned(LABEL), pinned(None)) == (PINNED, MUST_ASK_AGAIN)
