"""An application with the small release, for every test of this room."""

from __future__ import annotations

from collections.abc import AsyncIterator

import httpx
import pytest

from service.settings import Settings
from tests.factories.http import Running, publish_package, running


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
def published_url(sqlite_url: str) -> str:
    publish_package(sqlite_url)
    return sqlite_url


@pytest.fixture
async def started(published_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=published_url)) as application:
        yield application


@pytest.fixture
def client(started: Running) -> httpx.AsyncClient:
    return started.client
