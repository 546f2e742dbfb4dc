"""Connections to SQLite and PostgreSQL, and the two kinds of session.

A read session cannot commit, and its transaction is read-only in the database as well; a write
session takes the write lock of SQLite when it begins, so that two writers wait for each other
instead of failing half way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Never, Self

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.orm import Session
from sqlalchemy.pool import ConnectionPoolEntry

from service.storage.errors import ReadOnlySessionError

BUSY_TIMEOUT_MS = 10_000
_BEGIN = "faying_begin"
_POSTGRESQL_NAMES = {"postgresql", "postgres"}


class ReadSession(Session):
    """A session that can only look."""

    def commit(self) -> Never:
        """Refuse: whoever reads has nothing to commit.

        Raises
        ------
        ReadOnlySessionError
            Always.
        """
        raise ReadOnlySessionError

    def flush(self, objects: Sequence[object] | None = None) -> None:  # noqa: ARG002 - as in Session
        """Refuse to write what was changed by mistake.

        Raises
        ------
        ReadOnlySessionError
            If any object was added, changed or deleted.
        """
        if self.new or self.deleted or any(self.is_modified(row) for row in self.dirty):
            raise ReadOnlySessionError


class WriteSession(Session):
    """A session whose edge commits; what works inside it never does."""


@dataclass(frozen=True, slots=True)
class Database:
    """One database with its pool of connections. Build it once, in the wiring.

    ``reader`` and ``writer`` share the pool of ``engine`` and differ in how they begin.
    """

    engine: Engine
    reader: Engine
    writer: Engine

    @classmethod
    def open(cls, url: str | URL, *, echo: bool = False, pool_size: int = 5) -> Self:
        """Connect lazily to ``sqlite:///file`` or ``postgresql://user@host/name``."""
        # Parameters hold secrets of webhooks and bodies of requests, and errors would tell them to the log.
        engine = create_engine(
            portable_url(url), echo=echo, pool_size=pool_size, pool_pre_ping=True, hide_parameters=True
        )
        if engine.dialect.name == "sqlite":
            event.listen(engine, "connect", _prepare_sqlite)
            event.listen(engine, "begin", _begin_sqlite)
        return cls(
            engine,
            engine.execution_options(**{_BEGIN: "read", "postgresql_readonly": True}),
            engine.execution_options(**{_BEGIN: "write"}),
        )

    @property
    def is_sqlite(self) -> bool:
        """Whether this is the embedded default."""
        return self.engine.dialect.name == "sqlite"

    @contextmanager
    def reading(self) -> Iterator[ReadSession]:
        """Open a read session and end its transaction afterwards."""
        with ReadSession(self.reader) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[WriteSession]:
        """Open a write session: commit on success, roll back on any exception."""
        with WriteSession(self.writer) as session, session.begin():
            yield session

    def close(self) -> None:
        """Close all idle connections."""
        self.engine.dispose()


def portable_url(url: str | URL) -> URL:
    """Return the URL with the driver that this service is tested with."""
    parsed = make_url(url)
    if parsed.drivername in _POSTGRESQL_NAMES:
        return parsed.set(drivername="postgresql+psycopg")
    return parsed


def _prepare_sqlite(connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
    """Set what SQLite forgets with each connection."""
    connection.isolation_level = None  # the driver shall not begin transactions on its own
    cursor = connection.cursor()
    cursor.execute(f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS}")
    cursor.execute("PRAGMA journal_mode = WAL")
    cursor.execute("PRAGMA synchronous = NORMAL")
    cursor.execute("PRAGMA foreign_keys = ON")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    mode = connection.get_execution_options().get(_BEGIN)
    connection.exec_driver_sql(f"PRAGMA query_only = {int(mode == 'read')}")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if mode == "write" else "BEGIN")
