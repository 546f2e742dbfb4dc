"""On PostgreSQL the queue is a transaction's own, and nothing stays with a dead worker."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing

import pytest
from sqlalchemy import text

from service.jobs.postgres import Pace, PostgresQueue, PostgresWorker
from service.jobs.tasks import MOST_ATTEMPTS, Bench
from service.storage import Database
from service.storage.repositories.keys import TenantsRepository
from tests.factories.work import Shouting, in_a_thread, submit, wait_for

PACE = Pace(poll_s=0.05, beat_s=0.1, stale_s=0.4)
ABANDON = """
WITH dead AS (
    INSERT INTO procrastinate_workers (last_heartbeat) VALUES (now() - interval '1 minute') RETURNING id
)
UPDATE procrastinate_jobs SET status = 'doing', worker_id = dead.id, attempts = :attempts FROM dead
"""


@pytest.fixture
def port(postgresql_url: str) -> Iterator[Database]:
    with closing(Database.open(postgresql_url)) as database:
        with database.writing() as session:
            TenantsRepository(session).ensure("port", "Port")
        yield database


def waiting(database: Database) -> int:
    with database.reading() as session:
        return session.scalar(text("SELECT count(*) FROM procrastinate_jobs")) or 0


def worker(database: Database, url: str, kind: Shouting) -> PostgresWorker:
    return PostgresWorker(Bench(database, {"shouting": kind}, beat_s=0.1), url, PACE)


def abandon(database: Database, attempts: int) -> None:
    """Leave all tasks as a killed worker does."""
    with database.writing() as session:
        session.execute(text(ABANDON), {"attempts": attempts})


def test_each_chunk_is_a_task_that_goes_when_it_is_done(port: Database, postgresql_url: str) -> None:
    job = submit(port, PostgresQueue(), "shouting", b"a", b"b", b"c")
    assert waiting(port) == 3
    with in_a_thread(worker(port, postgresql_url, Shouting())):
        wait_for(port, job.id, "done")
    assert waiting(port) == 0


def test_what_a_dead_worker_left_is_put_back(port: Database, postgresql_url: str) -> None:
    kind = Shouting()
    job = submit(port, PostgresQueue(), "shouting", b"a", b"b")
    abandon(port, attempts=0)
    with in_a_thread(worker(port, postgresql_url, kind)):
        wait_for(port, job.id, "done")
    assert kind.runs == {b"a": 1, b"b": 1}


def test_work_that_kills_its_workers_is_given_up(port: Database, postgresql_url: str) -> None:
    kind = Shouting()
    job = submit(port, PostgresQueue(), "shouting", b"a")
    abandon(port, attempts=MOST_ATTEMPTS)
    with in_a_thread(worker(port, postgresql_url, kind)):
        failed = wait_for(port, job.id, "failed")
    assert failed.error is not None
    assert failed.error["code"] == "given-up"
    assert kind.runs == {}


def test_several_workers_share_one_job(port: Database, postgresql_url: str) -> None:
    kinds = [Shouting(), Shouting()]
    for kind in kinds:
        kind.may_go.clear()
    job = submit(port, PostgresQueue(), "shouting", *(b"%d" % number for number in range(20)))
    with (
        in_a_thread(worker(port, postgresql_url, kinds[0])),
        in_a_thread(worker(port, postgresql_url, kinds[1])),
    ):
        for kind in kinds:
            assert kind.is_at_work.wait(20)
            kind.may_go.set()
        wait_for(port, job.id, "done")
    assert sum(kinds[0].runs.values()) + sum(kinds[1].runs.values()) == 20


def test_a_worker_waits_for_a_database_that_is_away(
    port: Database, postgresql_url: str, caplog: pytest.LogCaptureFixture
) -> None:
    away = postgresql_url.replace("/test_", "/nowhere_")
    with in_a_thread(worker(port, away, Shouting())):
        while "the queue does not answer" not in caplog.messages:
            pass


def test_a_job_without_chunks_is_no_task(port: Database) -> None:
    submit(port, PostgresQueue(), "shouting")
    assert waiting(port) == 0
