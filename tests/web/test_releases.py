"""Which release a request reads, and how long that may be kept."""

from __future__ import annotations

from dataclasses import replace

import pytest
from fastapi import Request

from service.access.keys import DEVELOPMENT
from service.storage.errors import UnknownReleaseError
from service.web.releases import pinned, published_release, release_for, release_then
from service.web.replies import MUST_ASK_AGAIN, PINNED, PRIVATE
from service.web.shelf import OpenRelease
from tests.factories.http import LABEL, Running
from tests.factories.knowledge import catalogue_of, small_package

pytestmark = pytest.mark.anyio


def request_of(started: Running) -> Request:
    state = {"services": started.services, "principal": DEVELOPMENT}
    return Request({"type": "http", "headers": [], "state": state})


async def test_the_current_release_serves_unless_another_is_named(started: Running) -> None:
    request = request_of(started)
    current = await release_for(request, None)
    assert current is await release_for(request, LABEL) is started.services.shelf.current
    with pytest.raises(UnknownReleaseError):
        await release_for(request, "1999.01.01-1")


async def test_a_release_as_it_was_published_has_no_overlay(started: Running) -> None:
    request = request_of(started)
    assert await published_release(request, LABEL) is started.services.shelf.current
    assert await release_then(request, LABEL, "") is started.services.shelf.current
    with pytest.raises(UnknownReleaseError):
        await published_release(request, "1999.01.01-1")


def test_only_a_named_release_may_be_kept() -> None:
    release = OpenRelease(catalogue_of(small_package()), {})
    own = OpenRelease(replace(release.catalogue, overlay_hash="abc"), {})
    assert (pinned(LABEL, release), pinned(None, release)) == (PINNED, MUST_ASK_AGAIN)
    assert pinned(LABEL, own) == pinned(None, own) == PRIVATE
