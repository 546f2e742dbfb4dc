"""Backup and restore: one way for both databases, and from one to the other.

A backup is a logical copy, read in one transaction that sees one moment, while the service goes on. Unlike
a copy of pages it reads every row, so damage shows when it is taken and not when it is needed; every release
is held against its hash besides. A restore is one transaction: it is there whole or not at all.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from service.storage import migrate, table_rows
from service.storage.backup_file import BackupHead, BackupInfo, tables_of, verified, write
from service.storage.engine import Database, WriteSession
from service.storage.errors import DamagedDatabaseError, DatabaseNotEmptyError, ForeignBackupError
from service.storage.releases import load_export
from service.storage.repositories.releases import ReleasesRepository
from service.storage.tables import utc_now

_MOST_FINDINGS = 3
_MALFORMED = "malformed"
"""How SQLite says that a page of its file is not as it was written."""


def back_up(database: Database, path: Path, *, engine: str) -> BackupInfo:
    """Write everything that a database holds into one file.

    Raises
    ------
    DamagedDatabaseError
        If the database finds damage in its file.
    DamagedReleaseError
        If a release is not what was published.
    """
    try:
        _check(database)
        revision = migrate.current(database.engine.url) or ""
        head = BackupHead(revision, engine, utc_now().isoformat(timespec="seconds"))
        with database.reader.connect() as connection:
            if not database.is_sqlite:
                connection.execution_options(isolation_level="REPEATABLE READ")
            return write(path, head, table_rows.read(connection))
    except DatabaseError as error:
        if _MALFORMED in str(error.orig):
            raise DamagedDatabaseError([str(error.orig)]) from error
        raise


def restore(
    url: str, path: Path, *, replace: bool = False, afterwards: Callable[[WriteSession], None] | None = None
) -> BackupInfo:
    """Fill a database from a backup and bring it to the tables of this version.

    ``afterwards`` runs in the same transaction. Stop every process that uses the database first.

    Raises
    ------
    MalformedBackupError, DamagedBackupError
        If the file cannot be used; nothing is changed then.
    DatabaseNotEmptyError
        If the database holds rows and ``replace`` was not asked for.
    ForeignBackupError
        If this version does not know the tables of the backup.
    """
    info = verified(path)
    revision = info.head.revision
    if not migrate.is_known(revision):
        raise ForeignBackupError(path, revision)
    rows = _rows(url)
    if rows and not replace:
        raise DatabaseNotEmptyError(rows)
    if rows and migrate.current(url) != revision:
        raise ForeignBackupError(path, revision, str(migrate.current(url)))
    if not rows:
        _make_tables(url, revision)
    with closing(Database.open(url)) as database, database.writing() as session:
        table_rows.clear(session.connection())
        table_rows.put_back(session.connection(), tables_of(path))
        if afterwards:
            afterwards(session)
    migrate.upgrade(url)
    return info


def _rows(url: str) -> int:
    """Count what a database holds; one without tables holds nothing."""
    if migrate.current(url) is None:
        return 0
    with closing(Database.open(url)) as database, database.reader.connect() as connection:
        return table_rows.count(connection)


def _make_tables(url: str, revision: str) -> None:
    """Make the tables that the backup was taken from, in place of others that are empty."""
    if migrate.current(url) not in {None, revision}:
        migrate.downgrade(url)
    migrate.upgrade(url, revision)


def _check(database: Database) -> None:
    if database.is_sqlite:
        with database.reader.connect() as connection:
            found = connection.scalars(text(f"PRAGMA integrity_check({_MOST_FINDINGS})")).all()
        if found != ["ok"]:
            raise DamagedDatabaseError(found)
    with database.reading() as session:
        for label in ReleasesRepository(session).labels_like(""):
            load_export(session, label)
