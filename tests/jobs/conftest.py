"""A database with tenants and a release, and workers on the queue that belongs to it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from service.jobs.inline import InlineWorkers
from service.jobs.kinds import Kind
from service.jobs.postgres import Pace, PostgresQueue, PostgresWorker
from service.jobs.queue import Queue
from service.jobs.tasks import Bench
from service.storage import Database, publish, seed
from service.storage.repositories.keys import TenantsRepository
from tests.factories.knowledge import small_package
from tests.factories.work import Working, in_a_thread


@pytest.fixture
def tenants(database: Database) -> Database:
    with database.writing() as session:
        for tenant in ("port", "yard"):
            TenantsRepository(session).ensure(tenant, tenant.title())
        seed(session, small_package())
        publish(session, "2026.01.01-1", by="test")
    return database


@pytest.fixture
def working(database_url: str) -> Working:
    """Workers on the queue that belongs to the database."""

    @contextmanager
    def start(database: Database, *kinds: Kind, stale_s: float = 0.5) -> Iterator[Queue]:
        bench = Bench(database, {kind.name: kind for kind in kinds}, beat_s=0.1)
        if database.is_sqlite:
            workers = InlineWorkers(bench, stale_s=stale_s, poll_s=0.05).start()
            yield workers
            workers.close()
            return
        pace = Pace(poll_s=0.05, beat_s=0.1, stale_s=stale_s)
        with in_a_thread(PostgresWorker(bench, database_url, pace)):
            yield PostgresQueue()

    return start
