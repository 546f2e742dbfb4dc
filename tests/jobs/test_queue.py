"""Both queues bring jobs to workers and workers to jobs."""

from __future__ import annotations

import pytest

from service.jobs.queue import Queue
from service.storage import Database
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.jobs import Input, JobsRepository
from tests.factories.work import Shouting, Working, submit, wait_for


def shouted(database: Database) -> list[str]:
    with database.reading() as session:
        lines = ChangesRepository(session).since(0, kinds=["shouted"], limit=1000)
    return sorted(line.subject for line in lines)


def submit_and_fail(database: Database, queue: Queue) -> None:
    with database.writing() as session:
        lost = [Input(1, b"lost")]
        job = JobsRepository(session).add("shouting", b"", lost, created_by="a", tenant_id="port")
        queue.enqueue(session, job)
        raise RuntimeError


def test_a_submitted_job_is_done(tenants: Database, working: Working) -> None:
    with working(tenants, Shouting()) as queue:
        job = submit(tenants, queue, "shouting", b"a", b"b", b"c")
        done = wait_for(tenants, job.id, "done")
    assert (done.done, done.total, done.error) == (3, 3, None)
    with tenants.reading() as session:
        assert list(JobsRepository(session).all_results(job.id)) == [b"A", b"B", b"C"]
    assert shouted(tenants) == ["a", "b", "c"]


def test_a_job_that_was_submitted_before_any_worker_came_is_done(tenants: Database, working: Working) -> None:
    with working(tenants) as queue:
        pass
    job = submit(tenants, queue, "shouting", b"a")
    with working(tenants, Shouting()):
        wait_for(tenants, job.id, "done")


def test_a_rolled_back_job_reaches_nobody(tenants: Database, working: Working) -> None:
    kind = Shouting()
    with working(tenants, kind) as queue:
        with pytest.raises(RuntimeError):
            submit_and_fail(tenants, queue)
        wait_for(tenants, submit(tenants, queue, "shouting", b"a").id, "done")
    assert kind.runs == {b"a": 1}


def test_a_failing_chunk_is_tried_again(tenants: Database, working: Working) -> None:
    kind = Shouting()
    kind.failures[b"b"] = 1
    with working(tenants, kind) as queue:
        done = wait_for(tenants, submit(tenants, queue, "shouting", b"a", b"b").id, "done")
    assert done.done == 2
    assert kind.runs[b"b"] == 2
    assert shouted(tenants) == ["a", "b"]


def test_hopeless_work_fails_at_once(tenants: Database, working: Working) -> None:
    kind = Shouting()
    with working(tenants, kind) as queue:
        failed = wait_for(tenants, submit(tenants, queue, "shouting", b"hopeless").id, "failed")
    assert failed.error is not None
    assert failed.error["code"] == "hopeless"
    assert kind.runs[b"hopeless"] == 1


def test_a_job_is_cancelled_between_two_chunks(tenants: Database, working: Working) -> None:
    kind = Shouting()
    kind.may_go.clear()
    with working(tenants, kind) as queue:
        job = submit(tenants, queue, "shouting", b"a", b"b", b"c")
        kind.is_at_work.wait(20)
        with tenants.writing() as session:
            assert JobsRepository(session).request_cancel(job.id)
        kind.may_go.set()
        cancelled = wait_for(tenants, job.id, "cancelled")
    assert cancelled.done == 1
    assert kind.runs == {b"a": 1}


def test_a_worker_that_stops_leaves_the_rest_to_the_next(tenants: Database, working: Working) -> None:
    kind = Shouting()
    with working(tenants, kind) as queue:
        job = submit(tenants, queue, "shouting", *(b"%d" % number for number in range(200)))
        kind.is_at_work.wait(20)
    with working(tenants, kind):
        done = wait_for(tenants, job.id, "done")
    assert done.done == 200
    assert set(kind.runs.values()) == {1}
    assert len(set(shouted(tenants))) == len(shouted(tenants)) == 200
