"""Workers of the embedded default take over what a dead process has left."""

from __future__ import annotations

from contextlib import closing
from datetime import timedelta

from sqlalchemy import update

from service.jobs.inline import InlineWorkers
from service.jobs.tasks import MOST_ATTEMPTS, Bench
from service.storage import Database
from service.storage.repositories.jobs import Job, JobsRepository
from service.storage.tables import JobRow, utc_now
from tests.factories.work import Shouting, submit, wait_for


def abandoned(database: Database, workers: InlineWorkers, attempts: int, silent_s: float) -> Job:
    """A job as a killed process leaves it: running, one chunk done, no sign of life."""
    job = submit(database, workers, "shouting", b"a", b"b")
    with database.writing() as session:
        jobs = JobsRepository(session)
        jobs.join(job.id)
        jobs.finish_chunk(job.id, 0, b"A")
        heard = utc_now() - timedelta(seconds=silent_s)
        session.execute(update(JobRow).values(attempts=attempts, heartbeat_at=heard))
    return job


def workers_of(database: Database, kind: Shouting) -> InlineWorkers:
    return InlineWorkers(Bench(database, {"shouting": kind}), stale_s=5, poll_s=0.02)


def test_what_a_dead_process_left_is_taken_over(tenants: Database) -> None:
    kind = Shouting()
    workers = workers_of(tenants, kind)
    job = abandoned(tenants, workers, 1, silent_s=6)
    with closing(workers.start()):
        wait_for(tenants, job.id, "done")
    assert kind.runs == {b"b": 1}


def test_a_job_whose_worker_is_alive_is_left_alone(tenants: Database) -> None:
    kind = Shouting()
    workers = workers_of(tenants, kind)
    alive = abandoned(tenants, workers, 1, silent_s=0)
    other = submit(tenants, workers, "shouting", b"c")
    with closing(workers.start()):
        wait_for(tenants, other.id, "done")
        assert wait_for(tenants, alive.id, "running").done == 1
    assert kind.runs == {b"c": 1}


def test_work_that_kills_its_workers_is_given_up(tenants: Database) -> None:
    kind = Shouting()
    workers = workers_of(tenants, kind)
    job = abandoned(tenants, workers, MOST_ATTEMPTS, silent_s=6)
    with closing(workers.start()):
        failed = wait_for(tenants, job.id, "failed")
    assert failed.error is not None
    assert failed.error["code"] == "given-up"
    assert kind.runs == {}


def test_a_chunk_that_always_fails_is_given_up(tenants: Database) -> None:
    kind = Shouting()
    kind.failures[b"a"] = 100
    with closing(workers_of(tenants, kind).start()) as workers:
        failed = wait_for(tenants, submit(tenants, workers, "shouting", b"a").id, "failed")
    assert failed.error is not None
    assert failed.error["code"] == "given-up"
    assert kind.runs[b"a"] == MOST_ATTEMPTS
