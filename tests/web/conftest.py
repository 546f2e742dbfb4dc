"""An application with the small release, for every test of this room."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator
from pathlib import Path

import httpx
import pytest

from service.settings import Settings
from tests.factories.http import Running, publish_package, publish_seed, running


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
def published_url(sqlite_url: str) -> str:
    publish_package(sqlite_url)
    return sqlite_url


@pytest.fixture(scope="session")
def seed_file(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database that holds the package that the service is delivered with."""
    file = Path(shutil.copy(sqlite_template, tmp_path_factory.mktemp("seed") / "seed.sqlite3"))
    publish_seed(f"sqlite:///{file}")
    return file


@pytest.fixture
def seed_url(seed_file: Path, tmp_path: Path) -> str:
    return f"sqlite:///{shutil.copy(seed_file, tmp_path / 'seed.sqlite3')}"


@pytest.fixture
async def started(published_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=published_url)) as application:
        yield application


@pytest.fixture
def client(started: Running) -> httpx.AsyncClient:
    return started.client
