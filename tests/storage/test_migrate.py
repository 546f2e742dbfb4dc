from __future__ import annotations

from pathlib import Path

import pytest

from service.storage import migrate
from service.storage.errors import MigrationsMissingError


def test_upgrade_brings_an_empty_database_to_the_newest_revision(empty_database_url: str) -> None:
    assert migrate.current(empty_database_url) is None
    migrate.upgrade(empty_database_url)
    assert migrate.current(empty_database_url) == migrate.newest()


def test_upgrade_makes_the_folder_of_a_new_sqlite_file(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'var' / 'data' / 'faying.sqlite3'}"
    migrate.upgrade(url)
    assert migrate.current(url) == migrate.newest()


def test_an_installation_without_migrations_says_so(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(migrate, "PROJECT", tmp_path)
    with pytest.raises(MigrationsMissingError, match="install from a clone"):
        migrate.upgrade("sqlite://")
