from __future__ import annotations

from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text

from service.jobs.postgres import PostgresQueue
from service.jobs.queue import Queue
from service.storage import Database
from service.storage.repositories.jobs import JobsRepository
from service.storage.repositories.keys import TenantsRepository
from tests.commands.conftest import Faying
from tests.factories.http import publish_package
from tests.factories.work import submit

TASKS = "SELECT args->>'chunk' FROM procrastinate_jobs WHERE status = 'todo' ORDER BY id"


class NoQueue:
    """SQLite finds its jobs in their table."""

    def enqueue(self, session: object, job: object) -> None:
        del session, job


@pytest.fixture
def with_work(database_url: str) -> str:
    publish_package(database_url)
    queue: Queue = NoQueue() if database_url.startswith("sqlite") else PostgresQueue()
    with closing(Database.open(database_url)) as database:
        with database.writing() as session:
            TenantsRepository(session).ensure("port", "Port")
        job = submit(database, queue, "shouting", b"a", b"b", b"c")
        with database.writing() as session:
            JobsRepository(session).join(job.id)
            JobsRepository(session).finish_chunk(job.id, 0, b"A")
    return job.id


def test_a_backup_says_what_it_holds_and_overwrites_nothing(
    faying: Faying, with_work: str, tmp_path: Path
) -> None:
    file = tmp_path / "saved.gz"
    saved = faying("backup", str(file))
    assert saved.exit_code == 0, saved.stderr
    assert "rows of" in saved.stdout
    before = file.read_bytes()
    again = faying("backup", str(file))
    assert (again.exit_code, file.read_bytes()) == (1, before)
    assert "exists already" in again.stderr
    nowhere = faying("backup", str(tmp_path / "no" / "folder.gz"))
    assert nowhere.exit_code == 1
    assert "cannot write" in nowhere.stderr


def test_unfinished_jobs_wait_in_the_queue_after_a_restore(
    faying: Faying, with_work: str, database_url: str, tmp_path: Path
) -> None:
    file = str(tmp_path / "saved.gz")
    assert faying("backup", file).exit_code == 0
    refused = faying("restore", file)
    assert refused.exit_code == 1
    assert "--replace" in refused.stderr
    restored = faying("restore", file, "--replace")
    assert restored.exit_code == 0, restored.stderr
    with closing(Database.open(database_url)) as database, database.reading() as session:
        assert JobsRepository(session).waiting_chunks(with_work) == [1, 2]
        if not database.is_sqlite:
            assert session.scalars(text(TASKS)).all() == ["1", "2"]


def test_what_is_no_backup_is_one_line(faying: Faying, tmp_path: Path) -> None:
    file = tmp_path / "some.gz"
    file.write_text("text")
    result = faying("restore", str(file))
    assert result.exit_code == 1
    assert "is not a backup" in result.stderr
