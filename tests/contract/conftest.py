"""Real servers on the loopback address: one with a small release, one with the delivered one."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn

from service.app import create_app
from service.settings import Settings
from tests.factories.http import publish_package, publish_seed

GENEROUS = 1_000_000
"""Requests a minute: these tests are about the contract, not about allowances."""
EXAMPLE_LABEL = "2026.11.25-1"


@contextmanager
def serving(url: str) -> Iterator[str]:
    """Run a server and give its address."""
    settings = Settings(
        database_url=url,
        requests_per_minute=GENEROUS,
        request_burst=GENEROUS,
        refusals_per_minute=GENEROUS,
        log_level="WARNING",
    )
    with socket.create_server(("127.0.0.1", 0)) as listening:
        app = create_app(settings)
        server = uvicorn.Server(uvicorn.Config(app, log_config=None, ws="none", timeout_graceful_shutdown=2))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.01)
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        server.should_exit = True
        thread.join(timeout=10)


@pytest.fixture(scope="session")
def fresh_url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[[], str]:
    """Make migrated databases that live as long as the session."""

    def make() -> str:
        return f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('contract') / 'f.sqlite3')}"

    return make


@pytest.fixture(scope="session")
def server_url(fresh_url: Callable[[], str]) -> Iterator[str]:
    """Address of a server with the small release."""
    url = fresh_url()
    publish_package(url)
    with serving(url) as address:
        yield address


@pytest.fixture(scope="session")
def seed_server_url(fresh_url: Callable[[], str]) -> Iterator[str]:
    """Address of a server with the delivered release, under the label that the examples name."""
    url = fresh_url()
    publish_seed(url, EXAMPLE_LABEL)
    with serving(url) as address:
        yield address
