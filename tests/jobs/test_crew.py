"""Everything that works beside requests, together."""

from __future__ import annotations

import asyncio
import time
from contextlib import closing

from service.jobs.crew import Crew, Work, chores, queue_for
from service.jobs.inline import InlineWorkers
from service.jobs.outbound import Outbound
from service.jobs.postgres import PostgresQueue
from service.jobs.tasks import Bench
from service.settings import Settings
from service.storage import Database
from tests.factories.portfolio import MARINE, body, lines, portfolio_of, publish_changed, publish_first, store
from tests.factories.work import wait_for


def work_of(database: Database, settings: Settings) -> Work:
    portfolio = portfolio_of(database)
    bench = Bench(database, {portfolio.name: portfolio}, beat_s=0.2)
    return Work(bench, queue_for(bench, settings), portfolio, Outbound())


def settings_for(url: str) -> Settings:
    return Settings(database_url=url, release_poll_s=0.05, webhook_poll_s=0.05, job_stale_s=1)


def test_each_database_has_its_queue(database: Database, database_url: str) -> None:
    work = work_of(database, settings_for(database_url))
    assert isinstance(work.queue, InlineWorkers if database.is_sqlite else PostgresQueue)
    names = [chore.name for chore in chores(work, settings_for(database_url))]
    assert names == ["watch", "webhooks", "tidying"]


def test_a_release_is_noticed_judged_and_told(database: Database, database_url: str) -> None:
    publish_first(database)
    settings = settings_for(database_url)
    work = work_of(database, settings)
    mast = store(database, "mast", body())
    with database.writing() as session:
        job = work.portfolio.submit_one(session, work.queue, mast, by="ada")

    def told() -> bool:
        wait_for(database, job.id, "done")
        publish_changed(database, "environments", MARINE, exposure="indoor")
        deadline = time.monotonic() + 20
        while len(lines(database)) < 2 and time.monotonic() < deadline:
            time.sleep(0.02)
        return len(lines(database)) == 2

    with closing(Crew(work, settings).start()) as crew:
        if database.is_sqlite:
            assert told()
            return

        async def until() -> None:
            assert await asyncio.to_thread(told)

        asyncio.run(crew.serve(until))
