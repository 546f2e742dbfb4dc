"""Chores are done again and again, whatever happens to one of them."""

from __future__ import annotations

import threading
from contextlib import closing
from datetime import timedelta

import pytest

from service.jobs.rounds import Chore, Rounds, tidying
from service.storage import Database
from service.storage.repositories.jobs import JobsRepository
from service.storage.tables import JobRow, utc_now


def test_a_chore_is_repeated_and_at_once_while_there_is_more() -> None:
    left, done = [3, 2, 1, 0], threading.Event()

    def work() -> int:
        found = left.pop(0) if left else 0
        if not left:
            done.set()
        return found

    with closing(Rounds([Chore("work", 3600, work)]).start()):
        assert done.wait(10)
    assert left == []


def test_one_that_fails_is_logged_and_disturbs_nobody(caplog: pytest.LogCaptureFixture) -> None:
    failed, others = threading.Event(), threading.Event()

    def fail() -> int:
        if failed.is_set():
            others.set()
        failed.set()
        raise OSError

    with closing(Rounds([Chore("failing", 0.01, fail)]).start()):
        assert others.wait(10)
    assert "chore failed" in caplog.messages


def test_closing_waits_for_what_is_being_done() -> None:
    begun, ended = threading.Event(), threading.Event()

    def work() -> int:
        begun.set()
        ended.wait(0.2)
        ended.set()
        return 0

    rounds = Rounds([Chore("slow", 3600, work)]).start()
    begun.wait(10)
    rounds.close()
    assert ended.is_set()


def test_old_jobs_are_tidied_away(tenants: Database) -> None:
    with tenants.writing() as session:
        jobs = JobsRepository(session)
        old, new = (jobs.add("batch", b"", [], created_by="a", tenant_id="port") for _ in range(2))
        session.get_one(JobRow, old.id).finished_at = utc_now() - timedelta(days=31)
    assert tidying(tenants, 30).do() == 0
    with tenants.reading() as session:
        assert [job.id for job in JobsRepository(session).page().items] == [new.id]
