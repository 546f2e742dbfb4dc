from __future__ import annotations

from datetime import timedelta

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.jobs import Job, JobsRepository
from service.storage.tables import utc_now

LONG_AGO = utc_now() - timedelta(hours=1)
SOON = utc_now() + timedelta(hours=1)


def added(database: Database, tenant_id: str | None = "port") -> Job:
    with database.writing() as session:
        return JobsRepository(session).add("batch", b"[]", created_by="ada", tenant_id=tenant_id, total=3)


def test_a_job_runs_through_its_chunks_to_its_end(tenants: Database) -> None:
    job = added(tenants)
    assert (job.state, job.done, job.total) == ("queued", 0, 3)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert jobs.start(job.id, stale_before=LONG_AGO)
        for chunk in (2, 0, 1):
            assert jobs.finish_chunk(job.id, chunk, b"%d" % chunk)
        assert (jobs.get(job.id).done, jobs.get(job.id).state) == (3, "running")
        assert jobs.succeed(job.id, b"summary")
        assert list(jobs.results(job.id)) == [b"0", b"1", b"2"]
        assert jobs.result(job.id) == b"summary"
        ended = jobs.get(job.id)
    assert (ended.state, ended.attempts) == ("succeeded", 1)
    assert ended.finished_at is not None


def test_a_chunk_is_kept_once(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.start(job.id, stale_before=LONG_AGO)
        jobs.finish_chunk(job.id, 0, b"first")
        jobs.finish_chunk(job.id, 0, b"second")
        assert list(jobs.results(job.id)) == [b"first"]
        assert jobs.finished_chunks(job.id) == {0}
        assert jobs.get(job.id).done == 1


def test_only_one_worker_gets_a_job(tenants: Database) -> None:
    job = added(tenants)
    taken = []
    for _ in range(2):
        with tenants.writing() as session:
            taken.append(JobsRepository(session).start(job.id, stale_before=LONG_AGO))
    assert taken == [True, False]


def test_a_job_whose_worker_died_is_taken_over(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.start(job.id, stale_before=LONG_AGO)
        assert jobs.stale(LONG_AGO) == []
        assert jobs.stale(SOON) == [job.id]
        started = jobs.get(job.id).started_at
        assert jobs.start(job.id, stale_before=SOON)
        again = jobs.get(job.id)
    assert (again.attempts, again.started_at) == (2, started)


def test_a_failed_job_keeps_its_chunks_for_another_attempt(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.start(job.id, stale_before=LONG_AGO)
        jobs.finish_chunk(job.id, 0, b"x")
        assert jobs.fail(job.id, {"type": "crash"})
        failed = jobs.get(job.id)
        assert (failed.state, failed.error) == ("failed", {"type": "crash"})
        assert jobs.requeue(job.id)
        assert jobs.finished_chunks(job.id) == {0}
        queued = jobs.get(job.id)
    assert (queued.state, queued.error, queued.finished_at) == ("queued", None, None)


def test_a_queued_job_is_cancelled_at_once(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert jobs.request_cancel(job.id)
        assert jobs.get(job.id).state == "cancelled"
        assert not jobs.start(job.id, stale_before=SOON)
        assert not jobs.request_cancel(job.id)


def test_a_running_job_is_cancelled_after_its_chunk(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.start(job.id, stale_before=LONG_AGO)
        assert jobs.finish_chunk(job.id, 0, b"x")
        assert jobs.request_cancel(job.id)
        assert jobs.get(job.id).state == "running"
        assert not jobs.finish_chunk(job.id, 1, b"y")
        assert jobs.cancel(job.id)
        assert jobs.get(job.id).state == "cancelled"
        assert not jobs.succeed(job.id)


def test_jobs_are_listed_by_tenant_and_state(tenants: Database) -> None:
    mine = [added(tenants), added(tenants)]
    other = added(tenants, "yard")
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.start(other.id, stale_before=LONG_AGO)
        assert list(jobs.page(tenant_id="port").items) == mine
        assert [job.id for job in jobs.page(state="running").items] == [other.id]
        first = jobs.page(limit=2)
        rest = jobs.page(limit=2, cursor=first.next_cursor)
    assert [job.id for job in (*first.items, *rest.items)] == [*(job.id for job in mine), other.id]


def test_an_unknown_job_is_named(database: Database) -> None:
    with database.reading() as session, pytest.raises(NotStoredError):
        JobsRepository(session).get("job_0")
