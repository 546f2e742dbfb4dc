"""One application with the delivered release for all tests of a module: pages change nothing in it."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from service.settings import Settings
from tests.factories.http import Running, running

COUPLE = {
    "first": "EN AW-6082-T6, anodized 15 µm",
    "second": "A4-80",
    "environment": "marine-atmosphere-0-100-m",
}


@pytest.fixture(scope="session")
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture(scope="module")
async def opened(
    seed_file: Path, tmp_path_factory: pytest.TempPathFactory, anyio_backend: str
) -> AsyncIterator[Running]:
    file = shutil.copy(seed_file, tmp_path_factory.mktemp("pages") / "pages.sqlite3")
    async with running(Settings(database_url=f"sqlite:///{file}"), key=None) as application:
        yield application


@pytest.fixture
def pages(opened: Running) -> httpx.AsyncClient:
    opened.client.cookies.clear()
    return opened.client


@pytest.fixture
def couple() -> dict[str, Any]:
    return dict(COUPLE)


@pytest.fixture(scope="session")
def document() -> dict[str, Any]:
    """The answer that most pictures are drawn from."""
    from service.judgement import Inquiry, Side, answer
    from tests.seed_catalogue import seed_catalogue

    inquiry = Inquiry(Side(text=COUPLE["first"]), Side(text=COUPLE["second"]), COUPLE["environment"])
    return answer([inquiry], seed_catalogue())[0].document()
