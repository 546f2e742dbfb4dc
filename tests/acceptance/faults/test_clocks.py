"""A clock that is set back a year, or an hour ahead: order, work and keys hold."""

from __future__ import annotations

import time
from contextlib import closing
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import text

from service.jobs.inline import InlineWorkers
from service.jobs.tasks import Bench
from service.storage import Database, current_release, publish, seed
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.jobs import JobsRepository
from service.storage.repositories.keys import TenantsRepository
from service.storage.tables import metadata
from tests.factories.knowledge import small_package
from tests.factories.work import Shouting, submit, wait_for

SHIFTS = pytest.mark.parametrize("shift", [timedelta(days=-365), timedelta(hours=1)], ids=["back", "ahead"])


def jump(monkeypatch: pytest.MonkeyPatch, shift: timedelta) -> None:
    """Let every clock of the database room be wrong by so much from now on."""

    class Wrong(datetime):
        @classmethod
        def now(cls, tz: object = None) -> datetime:  # type: ignore[override]  # always asked for UTC
            del tz
            return datetime.now(UTC) + shift

    monkeypatch.setattr(metadata, "datetime", Wrong)
    now_ns = time.time_ns
    monkeypatch.setattr(time, "time_ns", lambda: now_ns() + int(shift.total_seconds() * 1e9))


def publish_limit(database: Database, volts: float) -> str:
    package = small_package()
    package["limits"][0]["limit_V"] = volts
    with database.writing() as session:
        seed(session, package)
        return publish(session, by="test").label


@SHIFTS
def test_the_newest_release_stays_the_newest(
    database: Database, monkeypatch: pytest.MonkeyPatch, shift: timedelta
) -> None:
    first = publish_limit(database, 0.25)
    jump(monkeypatch, shift)
    second = publish_limit(database, 0.30)
    assert second != first
    with database.reading() as session:
        newest = current_release(session)
        feed = [line.subject for line in ChangesRepository(session).since(0)]
    assert newest
    assert newest.label == second
    assert feed[-2:] == [first, second]


@SHIFTS
def test_identifiers_stay_in_order(monkeypatch: pytest.MonkeyPatch, shift: timedelta) -> None:
    before = [metadata.new_id("job") for _ in range(50)]
    jump(monkeypatch, shift)
    after = [metadata.new_id("job") for _ in range(50)]
    assert [*before, *after] == sorted({*before, *after})


@SHIFTS
def test_work_whose_worker_died_goes_on(
    sqlite_url: str, monkeypatch: pytest.MonkeyPatch, shift: timedelta
) -> None:
    with closing(Database.open(sqlite_url)) as database:
        with database.writing() as session:
            TenantsRepository(session).ensure("port", "Port")
        kind = Shouting()
        workers = InlineWorkers(Bench(database, {"shouting": kind}), stale_s=0.2, poll_s=0.05)
        job = submit(database, workers, "shouting", b"a", b"b")
        with database.writing() as session:
            assert JobsRepository(session).take(job.id, stale_before=metadata.utc_now())
        jump(monkeypatch, shift)
        workers.start()
        try:
            wait_for(database, job.id, "done")
        finally:
            workers.close()
        assert kind.runs == {b"a": 1, b"b": 1}
        with database.reading() as session:
            assert session.scalar(text("SELECT count(*) FROM job_chunks")) == 2
