"""A real server on the loopback address with the release that the service is delivered with."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn

from service.app import create_app
from service.settings import Settings
from tests.factories.http import publish_seed

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
def seed_server_url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a server with the delivered release, under the label that the examples name."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('contract') / 'f.sqlite3')}"
    publish_seed(url, EXAMPLE_LABEL)
    with serving(url) as address:
        yield address
