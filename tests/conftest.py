"""Fixtures for every room: databases, and an environment without the developer's settings.

``database`` and ``database_url`` run a test twice, on SQLite and on PostgreSQL. Each worker
migrates one template per kind, and each test gets a copy of it with nothing in it.
"""

from __future__ import annotations

import gc
import os
import shutil
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from uuid import uuid4

import pytest

from service.storage import Database, migrate
from tests.postgresql_server import PostgresqlServer, running_server

KINDS = ("sqlite", "postgresql")

# Every collection looks at the releases that tests hold, half a million objects each.
gc.set_threshold(50_000, 20, 50)


@pytest.fixture(scope="session", autouse=True)
def _scrubbed_environment() -> Iterator[None]:
    patch = pytest.MonkeyPatch()
    for name in list(os.environ):
        if name.startswith("FAYING_"):
            patch.delenv(name)
    yield
    patch.undo()


@pytest.fixture(scope="session")
def postgresql_server(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Iterator[PostgresqlServer]:
    folder = tmp_path_factory.getbasetemp()
    with running_server(folder if worker_id == "master" else folder.parent) as server:
        yield server


@pytest.fixture(scope="session")
def _postgresql_template(postgresql_server: PostgresqlServer, worker_id: str) -> str:
    name = postgresql_server.create(f"template_{worker_id}")
    migrate.upgrade(postgresql_server.url(name))
    return name


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("sqlite") / "template.sqlite3"
    migrate.upgrade(f"sqlite:///{file}")
    return file


@pytest.fixture
def sqlite_url(sqlite_template: Path, tmp_path: Path) -> str:
    """A migrated SQLite file of this test's own."""
    return f"sqlite:///{shutil.copy(sqlite_template, tmp_path / 'faying.sqlite3')}"


@pytest.fixture(scope="session")
def _clean_postgresql_databases() -> list[str]:
    """Databases that tests have left as they found them, for the next ones."""
    return []


@pytest.fixture
def postgresql_url(
    postgresql_server: PostgresqlServer, _postgresql_template: str, _clean_postgresql_databases: list[str]
) -> Iterator[str]:
    """A migrated PostgreSQL database of this test's own."""
    clean = _clean_postgresql_databases
    name = clean.pop() if clean else postgresql_server.create(f"test_{uuid4().hex}", _postgresql_template)
    yield postgresql_server.url(name)
    if postgresql_server.wipe(name, _postgresql_template):
        clean.append(name)
    else:
        postgresql_server.drop(name)


@pytest.fixture(params=KINDS)
def database_url(request: pytest.FixtureRequest) -> str:
    """Address of a migrated database: the test runs once on each kind."""
    return str(request.getfixturevalue(f"{request.param}_url"))


@pytest.fixture(params=KINDS)
def empty_database_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Address of a database without any table, on each kind."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'empty.sqlite3'}"
        return
    server: PostgresqlServer = request.getfixturevalue("postgresql_server")
    name = server.create(f"empty_{uuid4().hex}")
    yield server.url(name)
    server.drop(name)


@pytest.fixture
def database(database_url: str) -> Iterator[Database]:
    """A migrated database, open, on each kind."""
    with closing(Database.open(database_url)) as opened:
        yield opened
