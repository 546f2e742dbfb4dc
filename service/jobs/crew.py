"""What works beside requests: workers on jobs, the watch over assemblies, webhooks, tidying up.

The embedded default has all of it in the server's process; on PostgreSQL it is in workers, and the server
only puts jobs in.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Self

from service.jobs.deliveries import Deliveries
from service.jobs.inline import InlineWorkers
from service.jobs.outbound import Outbound
from service.jobs.portfolio import Portfolio
from service.jobs.queue import Queue
from service.jobs.rounds import Chore, Rounds, tidying
from service.jobs.tasks import Bench
from service.jobs.watch import ReleaseWatch
from service.settings import Settings

BEATS_PER_SILENCE = 4
"""Signs of life that must be missed before a worker is taken for dead."""


@dataclass(frozen=True, slots=True)
class Work:
    """Long work: where it is put in, and what does it."""

    bench: Bench
    queue: Queue
    portfolio: Portfolio
    outbound: Outbound


class Crew:
    """All workers of this process, of the sort that belongs to the database."""

    def __init__(self, work: Work, settings: Settings) -> None:
        self._work = work
        self._settings = settings
        self._rounds = Rounds(chores(work, settings))

    def start(self) -> Self:
        """Begin to work, beside whatever else this process does."""
        if isinstance(self._work.queue, InlineWorkers):
            self._work.queue.start()
        self._rounds.start()
        return self

    def close(self) -> None:
        """End after the chunks at hand; the rest stays for the next process."""
        if isinstance(self._work.queue, InlineWorkers):
            self._work.queue.close()
        self._rounds.close()

    async def serve(self, until: Callable[[], Any]) -> None:
        """Work on the queue of PostgreSQL until ``until`` has been awaited."""
        from service.jobs.postgres import Pace, PostgresWorker

        stale_s = self._settings.job_stale_s
        pace = Pace(beat_s=stale_s / BEATS_PER_SILENCE, stale_s=stale_s)
        worker = PostgresWorker(self._work.bench, self._settings.database_url, pace)
        working = asyncio.create_task(worker.run())
        await until()
        worker.stop()
        await working


def chores(work: Work, settings: Settings) -> list[Chore]:
    """Return what is to be done again and again."""
    watch = ReleaseWatch(work.portfolio, work.queue)
    deliveries = Deliveries(work.bench.database, work.outbound)
    return [
        Chore("watch", settings.release_poll_s, watch.look),
        Chore("webhooks", settings.webhook_poll_s, deliveries.round),
        tidying(work.bench.database, settings.job_result_days),
    ]


def queue_for(bench: Bench, settings: Settings) -> Queue:
    """Return the queue that belongs to the database."""
    if settings.is_embedded:
        return InlineWorkers(bench, threads=settings.job_threads, stale_s=settings.job_stale_s)
    from service.jobs.postgres import PostgresQueue

    return PostgresQueue()
