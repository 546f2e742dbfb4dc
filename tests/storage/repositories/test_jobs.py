"""Long work: each change of state is won by one worker, each chunk gets one result."""

from __future__ import annotations

import threading
from datetime import timedelta

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.jobs import Finished, Input, Job, JobsRepository
from service.storage.repositories.keys import TenantsRepository
from service.storage.tables import utc_now

LONG_AGO = utc_now() - timedelta(hours=1)
SOON = utc_now() + timedelta(hours=1)
INPUTS = (Input(2, b"a"), Input(2, b"b"), Input(1, b"c"))


def added(database: Database, tenant_id: str | None = "port", inputs: tuple[Input, ...] = INPUTS) -> Job:
    with database.writing() as session:
        return JobsRepository(session).add("batch", b"[]", inputs, created_by="ada", tenant_id=tenant_id)


def test_jobs_that_are_not_over_are_counted_by_state(tenants: Database) -> None:
    jobs = [added(tenants) for _ in range(3)]
    with tenants.writing() as session:
        repository = JobsRepository(session)
        repository.take(jobs[0].id, stale_before=LONG_AGO)
        assert repository.counts_of_unfinished() == {"queued": 2, "running": 1}


def test_a_job_runs_through_its_chunks_to_its_end(tenants: Database) -> None:
    job = added(tenants)
    assert (job.state, job.done, job.total, job.chunks) == ("queued", 0, 5, 3)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert jobs.take(job.id, stale_before=LONG_AGO)
        assert [jobs.input(job.id, chunk) for chunk in range(4)] == [b"a", b"b", b"c", None]
        assert jobs.finish_chunk(job.id, 2, b"2") == Finished(is_new=True)
        assert jobs.waiting_chunks(job.id) == [0, 1]
        assert jobs.finish_chunk(job.id, 0, b"0") == Finished(is_new=True)
        assert jobs.finish_chunk(job.id, 1, b"1") == Finished(is_new=True, is_last=True)
        assert (jobs.get(job.id).done, jobs.get(job.id).state) == (5, "running")
        assert jobs.succeed(job.id, b"summary")
        assert list(jobs.all_results(job.id)) == [b"0", b"1", b"2"]
        assert jobs.result(job.id) == b"summary"
        assert jobs.request(job.id) == b"[]"
        ended = jobs.get(job.id)
    assert (ended.state, ended.is_over) == ("done", True)
    assert ended.finished_at is not None


def test_a_job_without_anything_to_do_is_done(tenants: Database) -> None:
    job = added(tenants, inputs=())
    assert (job.state, job.total, job.is_over) == ("done", 0, True)
    assert job.finished_at is not None


def test_a_chunk_gets_one_result(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.take(job.id, stale_before=LONG_AGO)
        assert jobs.finish_chunk(job.id, 0, b"first").is_new
        assert not jobs.finish_chunk(job.id, 0, b"second").is_new
        assert list(jobs.all_results(job.id)) == [b"first"]
        assert jobs.waiting_chunks(job.id) == [1, 2]
        assert jobs.get(job.id).done == 2


def test_of_chunks_that_end_at_once_one_is_the_last(postgresql_url: str) -> None:
    database = Database.open(postgresql_url, pool_size=20)
    with database.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
    job = added(database, inputs=tuple(Input(1, b"x") for _ in range(12)))
    with database.writing() as session:
        assert JobsRepository(session).join(job.id)
    outcomes: list[Finished] = []
    ready = threading.Barrier(24)

    def finish(chunk: int) -> None:
        ready.wait()
        with database.writing() as session:
            outcomes.append(JobsRepository(session).finish_chunk(job.id, chunk, b"r"))

    workers = [threading.Thread(target=finish, args=(number % 12,)) for number in range(24)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert sum(outcome.is_new for outcome in outcomes) == 12
    assert sum(outcome.is_last for outcome in outcomes) == 1
    with database.reading() as reading:
        assert JobsRepository(reading).get(job.id).done == 12
    database.close()


def test_results_come_in_pages(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        for chunk in range(3):
            jobs.finish_chunk(job.id, chunk, b"%d" % chunk)
        first = jobs.results(job.id, limit=2)
        rest = jobs.results(job.id, cursor=first.next_cursor, limit=2)
    assert (first.items, rest.items, rest.next_cursor) == ((b"0", b"1"), (b"2",), "")


def test_one_worker_takes_a_job_and_one_of_several_begins_it(tenants: Database) -> None:
    alone, shared = added(tenants), added(tenants)
    taken, begun = list[bool](), list[bool]()
    for _ in range(2):
        with tenants.writing() as session:
            taken.append(JobsRepository(session).take(alone.id, stale_before=LONG_AGO))
            begun.append(JobsRepository(session).join(shared.id))
    assert (taken, begun) == ([True, False], [True, False])


def test_a_chunk_has_its_effect_once_and_before_it_counts(tenants: Database) -> None:
    job, seen = added(tenants), list[int]()
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.join(job.id)
        for _ in range(2):
            jobs.finish_chunk(job.id, 0, b"0", lambda: seen.append(jobs.get(job.id).done))
        assert (seen, jobs.get(job.id).done) == ([0], 2)


def test_a_job_whose_worker_died_is_taken_over(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert jobs.unfinished(stale_before=LONG_AGO) == [job.id]
        jobs.take(job.id, stale_before=LONG_AGO)
        assert jobs.unfinished(stale_before=LONG_AGO) == []
        assert jobs.unfinished(stale_before=SOON) == [job.id]
        started = jobs.get(job.id).started_at
        assert jobs.take(job.id, stale_before=SOON)
        again = jobs.get(job.id)
    assert (again.attempts, again.started_at) == (2, started)


def test_a_failed_job_keeps_what_it_has_found(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.take(job.id, stale_before=LONG_AGO)
        jobs.finish_chunk(job.id, 0, b"x")
        assert jobs.fail(job.id, {"code": "crash"})
        failed = jobs.get(job.id)
        assert (failed.state, failed.error) == ("failed", {"code": "crash"})
        assert list(jobs.all_results(job.id)) == [b"x"]


def test_a_job_that_is_put_back_was_not_started(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert not jobs.put_back(job.id)
        jobs.take(job.id, stale_before=LONG_AGO)
        assert jobs.put_back(job.id)
        assert (jobs.get(job.id).state, jobs.get(job.id).attempts) == ("queued", 0)


def test_a_finished_chunk_forgives_the_failures_before_it(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        for _ in range(3):
            jobs.take(job.id, stale_before=SOON)
        assert jobs.get(job.id).attempts == 3
        jobs.finish_chunk(job.id, 0, b"x")
        assert jobs.get(job.id).attempts == 0


def test_a_queued_job_is_cancelled_at_once(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        assert jobs.request_cancel(job.id)
        assert jobs.get(job.id).state == "cancelled"
        assert not jobs.take(job.id, stale_before=SOON)
        assert not jobs.join(job.id)
        assert not jobs.request_cancel(job.id)


def test_a_running_job_is_told_of_its_cancelling_at_the_next_beat(tenants: Database) -> None:
    job = added(tenants)
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.take(job.id, stale_before=LONG_AGO)
        assert jobs.beat(job.id)
        assert jobs.request_cancel(job.id)
        assert jobs.get(job.id).state == "running"
        assert not jobs.beat(job.id)
        assert jobs.cancel(job.id)
        assert jobs.get(job.id).state == "cancelled"
        assert not jobs.succeed(job.id)


def test_work_with_a_name_is_added_once(tenants: Database) -> None:
    key = "portfolio 2026.01.01-1 port"
    found = []
    for _ in range(2):
        with tenants.writing() as session:
            found.append(
                JobsRepository(session).add_once(
                    "batch", b"", INPUTS, created_by="a", tenant_id="port", release_label=None, dedupe_key=key
                )
            )
    (job, was_new), (again, is_new) = found
    assert (again, was_new, is_new) == (job, True, False)
    with tenants.reading() as reading:
        jobs = JobsRepository(reading)
        assert jobs.named(key) == job
        assert jobs.named("another") is None
        assert len(jobs.waiting_chunks(job.id)) == 3


def test_jobs_are_listed_newest_first_by_tenant_and_state(tenants: Database) -> None:
    mine = [added(tenants), added(tenants)]
    other = added(tenants, "yard")
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        jobs.take(other.id, stale_before=LONG_AGO)
        assert list(jobs.page(tenant_id="port").items) == mine[::-1]
        assert [job.id for job in jobs.page(state="running").items] == [other.id]
        assert jobs.page(kind="assembly").items == ()
        first = jobs.page(limit=2)
        rest = jobs.page(limit=2, cursor=first.next_cursor)
    assert [job.id for job in (*first.items, *rest.items)] == [other.id, *(job.id for job in mine[::-1])]


def test_old_jobs_are_forgotten_with_their_results(tenants: Database) -> None:
    over, running = added(tenants, inputs=()), added(tenants)
    with tenants.writing() as session:
        assert JobsRepository(session).forget(LONG_AGO) == 0
        assert JobsRepository(session).forget(SOON) == 1
    with tenants.reading() as session:
        assert [job.id for job in JobsRepository(session).page().items] == [running.id]
        with pytest.raises(NotStoredError):
            JobsRepository(session).get(over.id)


def test_an_unknown_job_is_named(database: Database) -> None:
    with database.reading() as session:
        with pytest.raises(NotStoredError):
            JobsRepository(session).get("job_0")
        with pytest.raises(NotStoredError):
            JobsRepository(session).request("job_0")
