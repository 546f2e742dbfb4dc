"""A restored database is the one that was saved, and no restore is half there."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from itertools import compress
from pathlib import Path

import pytest
from sqlalchemy import inspect, make_url, text

from service.catalogue.errors import DamagedReleaseError
from service.storage import Database, migrate, publish, seed, table_rows
from service.storage.backup import back_up, restore
from service.storage.backup_file import BackupHead, TableHead, Values, write
from service.storage.errors import (
    DamagedBackupError,
    DamagedDatabaseError,
    DatabaseNotEmptyError,
    ForeignBackupError,
)
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from tests.factories.knowledge import small_package
from tests.storage.test_table_rows import Lines, everything

OLDER = "append_only"


@pytest.fixture
def filled(database: Database) -> Database:
    with database.writing() as session:
        seed(session, small_package())
        label = publish(session, by="test").label
        AnswersRepository(session).add([StoredAnswer("digest", label, "1", None, "", "", b"q", b"a")])
    return database


@pytest.fixture
def file(filled: Database, tmp_path: Path) -> Path:
    back_up(filled, tmp_path / "saved.gz", engine="1.0")
    return tmp_path / "saved.gz"


def test_either_database_is_restored_from_either(
    filled: Database, tmp_path: Path, empty_database_url: str
) -> None:
    info = back_up(filled, tmp_path / "saved.gz", engine="1.0")
    assert restore(empty_database_url, tmp_path / "saved.gz") == info
    migrate.check(empty_database_url)
    with closing(Database.open(empty_database_url)) as restored:
        assert everything(restored) == everything(filled)


def test_rows_are_replaced_only_when_asked(filled: Database, database_url: str, file: Path) -> None:
    before = everything(filled)
    with filled.writing() as session:
        session.execute(text("DELETE FROM answers"))
    changed = everything(filled)
    with pytest.raises(DatabaseNotEmptyError):
        restore(database_url, file)
    assert everything(filled) == changed
    restore(database_url, file, replace=True)
    assert everything(filled) == before


def test_a_restore_that_fails_changes_nothing(filled: Database, database_url: str, file: Path) -> None:
    before = everything(filled)

    def fail(_session: object) -> None:
        raise ConnectionError

    with pytest.raises(ConnectionError):
        restore(database_url, file, replace=True, afterwards=fail)
    data = file.read_bytes()
    file.write_bytes(data[: len(data) // 2])
    with pytest.raises(DamagedBackupError):
        restore(database_url, file, replace=True)
    assert everything(filled) == before


def test_a_backup_of_older_tables_is_brought_up_to_date(
    filled: Database, tmp_path: Path, empty_database_url: str
) -> None:
    columns = columns_at(OLDER, f"sqlite:///{tmp_path / 'older.sqlite3'}")
    lines = [line for line in everything(filled) if not isinstance(line, TableHead) or line.table in columns]
    write(tmp_path / "older.gz", BackupHead(OLDER, "0.9", "2026-01-01"), as_of(lines, columns))
    restore(empty_database_url, tmp_path / "older.gz")
    assert migrate.current(empty_database_url) == migrate.newest()
    with closing(Database.open(empty_database_url)) as restored:
        assert everything(restored) == everything(filled)


def columns_at(revision: str, url: str) -> dict[str, set[str]]:
    """What the tables of a revision hold."""
    migrate.upgrade(url, revision)
    with closing(Database.open(url)) as database:
        found = inspect(database.engine)
        return {name: {each["name"] for each in found.get_columns(name)} for name in found.get_table_names()}


def as_of(lines: Lines, columns: dict[str, set[str]]) -> list[tuple[TableHead, list[Values]]]:
    """The same rows as older tables would have held them."""
    tables: list[tuple[TableHead, list[Values]]] = []
    for line in lines:
        if isinstance(line, TableHead):
            kept = [name in columns[line.table] for name in line.columns]
            tables.append((TableHead(line.table, dict(compress(line.columns.items(), kept))), []))
        else:
            tables[-1][1].append(tuple(compress(line, kept)))
    return tables


def test_a_backup_of_unknown_tables_is_refused(filled: Database, database_url: str, tmp_path: Path) -> None:
    with filled.writing() as session:
        session.execute(text("UPDATE alembic_version SET version_num = 'of_tomorrow'"))
    back_up(filled, tmp_path / "newer.gz", engine="9.0")
    with pytest.raises(ForeignBackupError, match="newer version"):
        restore(f"sqlite:///{tmp_path / 'new.sqlite3'}", tmp_path / "newer.gz")
    with pytest.raises(ForeignBackupError, match="newer version"):
        restore(database_url, tmp_path / "newer.gz", replace=True)


def test_older_tables_are_not_restored_over_rows(filled: Database, database_url: str, tmp_path: Path) -> None:
    write(tmp_path / "older.gz", BackupHead(OLDER, "0.9", "2026-01-01"), [])
    with pytest.raises(ForeignBackupError, match="into an empty one"):
        restore(database_url, tmp_path / "older.gz", replace=True)


def test_a_release_that_was_tampered_with_is_not_saved(filled: Database, tmp_path: Path) -> None:
    lines: Lines = [
        line if isinstance(line, TableHead) else tuple(map(shortened, line)) for line in everything(filled)
    ]
    with filled.writing() as session:
        table_rows.clear(session.connection())
        table_rows.put_back(session.connection(), lines)
    with pytest.raises(DamagedReleaseError):
        back_up(filled, tmp_path / "saved.gz", engine="1.0")
    assert not (tmp_path / "saved.gz").exists()


def shortened(value: object) -> object:
    """Cut what is compressed, and so the blobs of releases."""
    return value[:-8] if isinstance(value, bytes) and value.startswith(b"\x1f\x8b") else value


def test_a_damaged_page_is_found_when_saving(sqlite_url: str, tmp_path: Path) -> None:
    with closing(Database.open(sqlite_url)) as database, database.writing() as session:
        seed(session, small_package())
        publish(session, by="test")
    name = make_url(sqlite_url).database
    assert name
    whole = Path(shutil.copy(name, tmp_path / "whole.sqlite3"))
    with closing(sqlite3.connect(whole)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'releases'").fetchone()[0]
        size = connection.execute("PRAGMA page_size").fetchone()[0]
    data = bytearray(whole.read_bytes())
    data[(page - 1) * size : (page - 1) * size + 64] = b"\xa5" * 64
    whole.write_bytes(data)
    with closing(Database.open(f"sqlite:///{whole}")) as damaged, pytest.raises(DamagedDatabaseError):
        back_up(damaged, tmp_path / "saved.gz", engine="1.0")
    assert not (tmp_path / "saved.gz").exists()
