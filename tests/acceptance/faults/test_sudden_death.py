"""SIGKILL in the middle of what changes the database: it is done, or it was never begun."""

from __future__ import annotations

import signal
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text

from service.storage import Database, migrate, publish, table_rows
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.acceptance.processes import PROJECT, environment, faying
from tests.factories.http import LABEL, publish_package

DYING = [sys.executable, "-m", "tests.acceptance.faults.dying"]


def die(words: str, *command: str, url: str) -> None:
    """Run a command and have it killed once a statement with these words is done."""
    env = environment(url, PYTHONPATH=str(PROJECT))
    done = subprocess.run([*DYING, words, *command], cwd=PROJECT, env=env, timeout=60, check=False)
    assert done.returncode == -signal.SIGKILL


def rows(url: str) -> dict[str, list[tuple[object, ...]]]:
    with closing(Database.open(url)) as database, database.reader.connect() as connection:
        return {head.table: list(found) for head, found in table_rows.read(connection)}


def move_a_figure(url: str) -> None:
    with closing(Database.open(url)) as database, database.writing() as session:
        knowledge = KnowledgeRepository(session)
        (limit, *_) = knowledge.all_rows()["limits"]
        knowledge.update("limits", [limit | {"limit_V": 0.123}])


def test_a_migration_that_is_killed_can_be_begun_again(empty_database_url: str) -> None:
    die("CREATE TABLE job_inputs", "migrate", url=empty_database_url)
    assert migrate.current(empty_database_url) in {None, "answers_stay"}
    migrate.upgrade(empty_database_url)
    migrate.check(empty_database_url)


def test_a_publication_that_is_killed_has_not_happened(database_url: str) -> None:
    publish_package(database_url)
    move_a_figure(database_url)
    before = rows(database_url)
    die("INSERT INTO changes", "release", "publish", url=database_url)
    assert rows(database_url) == before
    with closing(Database.open(database_url)) as database:
        with database.writing() as session:
            label = publish(session, by="test").label
        with database.reading() as session:
            told = session.scalars(text("SELECT subject FROM changes ORDER BY serial")).all()
    assert told == [LABEL, label]


def test_a_write_that_is_killed_has_not_happened(database_url: str) -> None:
    publish_package(database_url)
    before = rows(database_url)
    die("INSERT INTO audit", "key", "create", "somebody", url=database_url)
    assert rows(database_url) == before


@pytest.fixture
def saved(database_url: str, tmp_path: Path) -> Path:
    publish_package(database_url)
    file = tmp_path / "saved.gz"
    assert faying("backup", str(file), env=environment(database_url)).status == 0
    return file


def test_a_restore_that_is_killed_changes_nothing(database_url: str, saved: Path) -> None:
    move_a_figure(database_url)
    before = rows(database_url)
    die("INSERT INTO audit", "restore", "--replace", str(saved), url=database_url)
    assert rows(database_url) == before


def test_a_backup_that_is_killed_leaves_no_file_that_looks_like_one(
    database_url: str, saved: Path, tmp_path: Path
) -> None:
    die("FROM webhooks", "backup", str(tmp_path / "second.gz"), url=database_url)
    assert not (tmp_path / "second.gz").exists()
    assert faying("backup", str(tmp_path / "second.gz"), env=environment(database_url)).status == 0
