"""The service for its client: called without a network, and as a process on a port."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import httpx
import pytest

from service.client import AsyncClient, Client
from service.settings import LOCAL_DEVELOPMENT_KEY, Settings
from tests.acceptance.processes import environment, serving
from tests.factories.http import publish_seed, running


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture(scope="session")
def _seed_file(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = Path(shutil.copy(sqlite_template, tmp_path_factory.mktemp("client") / "seed.sqlite3"))
    publish_seed(f"sqlite:///{file}")
    return file


@pytest.fixture(scope="session")
def service_address(_seed_file: Path) -> Iterator[str]:
    """Address of a service in a process of its own."""
    file = Path(shutil.copy(_seed_file, _seed_file.with_name("process.sqlite3")))
    generous = {"FAYING_REQUESTS_PER_MINUTE": "100000", "FAYING_REQUEST_BURST": "100000"}
    with serving(environment(file, **generous), log=file.with_suffix(".log")) as server:
        yield server.address


@pytest.fixture
def client(service_address: str) -> Iterator[Client]:
    """A blocking client of that process."""
    with httpx.Client(trust_env=False) as http:
        yield Client(service_address, LOCAL_DEVELOPMENT_KEY, http=http)


@pytest.fixture
async def async_client(_seed_file: Path, tmp_path: Path, anyio_backend: str) -> AsyncIterator[AsyncClient]:
    """An asynchronous client of an application of this test's own."""
    file = shutil.copy(_seed_file, tmp_path / "seed.sqlite3")
    async with running(Settings(database_url=f"sqlite:///{file}"), key=None) as application:
        yield AsyncClient("http://faying.test", LOCAL_DEVELOPMENT_KEY, http=application.client)
