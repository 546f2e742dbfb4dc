"""One chunk: worked on any number of times, kept once with its effect."""

from __future__ import annotations

import threading

import pytest

from service.jobs.tasks import Bench
from service.storage import Database
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.jobs import Input, Job, JobsRepository
from tests.factories.work import Shouting


def started(database: Database, *inputs: bytes, kind: str = "shouting") -> Job:
    with database.writing() as session:
        jobs = JobsRepository(session)
        job = jobs.add(kind, b"{}", [Input(1, each) for each in inputs], created_by="a", tenant_id="port")
        jobs.join(job.id)
    return job


def state(database: Database, job: Job) -> Job:
    with database.reading() as session:
        return JobsRepository(session).get(job.id)


def shouted(database: Database) -> list[str]:
    with database.reading() as session:
        return [line.subject for line in ChangesRepository(session).since(0, kinds=["shouted"])]


def bench(database: Database, kind: Shouting | None = None) -> Bench:
    return Bench(database, {"shouting": kind or Shouting()}, beat_s=0.02)


def test_the_last_chunk_ends_the_job(tenants: Database) -> None:
    job = started(tenants, b"a", b"b")
    assert bench(tenants).do(job.id, 1)
    assert state(tenants, job).state == "running"
    assert not bench(tenants).do(job.id, 0)
    assert state(tenants, job).state == "done"
    with tenants.reading() as session:
        assert JobsRepository(session).result(job.id) == b"A+B"
    assert shouted(tenants) == ["b", "a"]


def test_a_finished_chunk_is_not_done_again(tenants: Database) -> None:
    kind, job = Shouting(), started(tenants, b"a", b"b")
    for _ in range(3):
        assert bench(tenants, kind).do(job.id, 0)
    assert kind.runs == {b"a": 1}


def test_what_two_workers_did_at_once_is_kept_once(tenants: Database) -> None:
    kind, job = Shouting(), started(tenants, b"a", b"b")
    kind.may_go.clear()
    workers = [threading.Thread(target=bench(tenants, kind).do, args=(job.id, 0)) for _ in range(2)]
    for worker in workers:
        worker.start()
    while kind.runs[b"a"] < 2:
        kind.is_at_work.wait()
    kind.may_go.set()
    for worker in workers:
        worker.join()
    assert kind.runs[b"a"] == 2
    assert shouted(tenants) == ["a"]
    assert state(tenants, job).done == 1


def test_hopeless_work_ends_its_job_with_the_reason(tenants: Database) -> None:
    job = started(tenants, b"hopeless", b"b")
    assert not bench(tenants).do(job.id, 0)
    failed = state(tenants, job)
    assert failed.state == "failed"
    assert failed.error == {"code": "hopeless", "detail": "This can never be done.", "pointer": "/couples/0"}
    assert not bench(tenants).do(job.id, 1)


def test_other_failures_leave_everything_as_it_was(tenants: Database) -> None:
    kind, job = Shouting(), started(tenants, b"a")
    kind.failures[b"a"] = 1
    with pytest.raises(OSError, match="disk full"):
        bench(tenants, kind).do(job.id, 0)
    assert (state(tenants, job).state, shouted(tenants)) == ("running", [])
    assert not bench(tenants, kind).do(job.id, 0)
    assert state(tenants, job).state == "done"


def test_a_job_whose_end_was_asked_for_ends_before_its_next_chunk(tenants: Database) -> None:
    kind, job = Shouting(), started(tenants, b"a", b"b")
    bench(tenants, kind).do(job.id, 0)
    with tenants.writing() as session:
        JobsRepository(session).request_cancel(job.id)
    assert not bench(tenants, kind).do(job.id, 1)
    assert state(tenants, job).state == "cancelled"
    assert kind.runs == {b"a": 1}


def test_long_work_gives_signs_of_life(tenants: Database) -> None:
    kind, job = Shouting(), started(tenants, b"a")
    before = state(tenants, job).heartbeat_at
    kind.may_go.clear()
    worker = threading.Thread(target=bench(tenants, kind).do, args=(job.id, 0))
    worker.start()
    while state(tenants, job).heartbeat_at == before:
        pass
    kind.may_go.set()
    worker.join()
    assert state(tenants, job).state == "done"


def test_work_of_an_unknown_kind_fails(tenants: Database) -> None:
    job = started(tenants, b"a", kind="whispering")
    assert not bench(tenants).do(job.id, 0)
    failed = state(tenants, job)
    assert failed.error is not None
    assert failed.error["code"] == "unknown-kind"
