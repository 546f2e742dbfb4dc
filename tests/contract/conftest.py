"""A real server on the loopback address, with the small release."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn

from service.app import create_app
from service.settings import Settings
from tests.factories.http import publish_package

GENEROUS = 1_000_000
"""Requests a minute: these tests are about the contract, not about allowances."""


@pytest.fixture(scope="session")
def server_url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a server that runs as long as the session."""
    file = shutil.copy(sqlite_template, tmp_path_factory.mktemp("contract") / "faying.sqlite3")
    url = f"sqlite:///{file}"
    publish_package(url)
    settings = Settings(database_url=url, requests_per_minute=GENEROUS, request_burst=GENEROUS)
    listening = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(create_app(settings), log_config=None, ws="none", timeout_graceful_shutdown=2)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    server.should_exit = True
    thread.join(timeout=10)
    listening.close()
