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
from service.storage import read_package
from tests.factories.http import SEED_DATA, publish_package, publish_seed
from tests.factories.knowledge import Values

FEW_FINISHES = {"none-bare", "zn-passivated-clear", "ni-electro", "sn-bright", "anod-iii-hard", "pu-topcoat"}
"""A search over these judges dozens of couples instead of thousands, by the same rules."""

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
def narrow_server_url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a server whose release has few finishes."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('narrow') / 'f.sqlite3')}"
    publish_package(url, narrowed(read_package(SEED_DATA)), EXAMPLE_LABEL)
    with serving(url) as address:
        yield address


def narrowed(package: dict[str, list[Values]]) -> dict[str, list[Values]]:
    """Leave few finishes, and nothing that names another."""

    def stays(row: Values) -> bool:
        names = (row.get("finish_id"), row.get("underplate_id"))
        return all(name in FEW_FINISHES for name in names if name)

    finishes = [row for row in package["finishes"] if row["id"] in FEW_FINISHES]
    assert len(finishes) == len(FEW_FINISHES)
    substrates = [row for row in package["finish_substrates"] if stays(row)]
    bare = [row | {"underplate_id": row["underplate_id"] if stays(row) else ""} for row in finishes]
    return package | {"finishes": bare, "finish_substrates": substrates}


@pytest.fixture(scope="session")
def seed_server_url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Address of a server with the delivered release, under the label that the examples name."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('contract') / 'f.sqlite3')}"
    publish_seed(url, EXAMPLE_LABEL)
    with serving(url) as address:
        yield address
