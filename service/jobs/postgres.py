"""The queue on PostgreSQL: procrastinate, in the database that holds the jobs.

One task for each chunk, put in over the connection that writes the job's row, so either both are there
or neither. Any number of workers fetch them. A worker that dies leaves its task behind; the others put
such tasks back when its heart has been still for a while. What they do twice is kept once (``tasks``).
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from dataclasses import dataclass

import procrastinate
import psycopg
from procrastinate.exceptions import ConnectorException
from procrastinate.jobs import Job as Task
from procrastinate.types import JSONDict
from psycopg_pool import AsyncConnectionPool
from sqlalchemy import text
from sqlalchemy.exc import SQLAlchemyError

from service.jobs.tasks import MOST_ATTEMPTS, Bench, died_too_often
from service.storage.engine import WriteSession, portable_url
from service.storage.repositories.jobs import Job, JobsRepository

logger = logging.getLogger(__name__)

TASK = "faying.chunk"
QUEUE = "faying"
RECOVERY_LOCK = 7_246_304
"""The advisory lock of whoever puts back what dead workers have left."""

PATIENCE_S = 5
"""Time for a connection; a worker that waited longer would not be seen to wait."""

_BACKOFF_S = (0.2, 0.5, 1.0, 2.0, 5.0)


class PostgresQueue:
    """Puts the chunks of jobs in; it holds no connection of its own."""

    def __init__(self) -> None:
        connector = procrastinate.SyncPsycopgConnector()
        self._app = procrastinate.App(connector=connector)

    def enqueue(self, session: WriteSession, job: Job) -> None:
        """Add one task for each chunk, in the transaction of ``session``."""
        self._put_in(session, job.id, range(job.chunks))

    def put_in_again(self, session: WriteSession) -> None:
        """Add tasks for all that is unfinished: for jobs that came without a queue, from a backup."""
        jobs = JobsRepository(session)
        for job_id in jobs.all_unfinished():
            self._put_in(session, job_id, jobs.waiting_chunks(job_id))

    def _put_in(self, session: WriteSession, job_id: str, chunks: Iterable[int]) -> None:
        tasks: list[JSONDict] = [{"job_id": job_id, "chunk": chunk} for chunk in chunks]
        if not tasks:
            return
        connection = session.connection().connection.driver_connection
        self._app.configure_task(TASK, queue=QUEUE, connection=connection).batch_defer(*tasks)


@dataclass(frozen=True, slots=True)
class Pace:
    """How often a worker looks, beats, and how long a silent one counts as alive."""

    poll_s: float = 2.0
    beat_s: float = 5.0
    stale_s: float = 30.0


class PostgresWorker:
    """Fetches chunks and works on them, one after the other, until it is told to stop."""

    def __init__(self, bench: Bench, url: str, pace: Pace) -> None:
        self._bench = bench
        self._conninfo = _conninfo(url)
        self._pace = pace
        self._is_stopping = asyncio.Event()

    def stop(self) -> None:
        """End after the chunk at hand; to be called in the loop of ``run``."""
        self._is_stopping.set()

    async def run(self) -> None:
        """Work; while the database is away, wait for it."""
        failures = 0
        while not self._is_stopping.is_set():
            try:
                await self._work()
                failures = 0
            except (ConnectorException, psycopg.Error):
                logger.warning("the queue does not answer", exc_info=True)
                await self._pause(_BACKOFF_S[min(failures, len(_BACKOFF_S) - 1)])
                failures += 1

    async def _work(self) -> None:
        async with self._open() as app:
            recovery = asyncio.create_task(self._recover_for_ever(app))
            fetching = asyncio.create_task(
                app.run_worker_async(
                    queues=[QUEUE],
                    concurrency=1,
                    install_signal_handlers=False,
                    fetch_job_polling_interval=self._pace.poll_s,
                    update_heartbeat_interval=self._pace.beat_s,
                    stalled_worker_timeout=self._pace.stale_s,
                    delete_jobs="successful",
                )
            )
            try:
                await self._until_stopped(fetching)
            finally:
                recovery.cancel()
                await asyncio.gather(recovery, return_exceptions=True)

    async def _until_stopped(self, fetching: asyncio.Task[None]) -> None:
        stopping = asyncio.create_task(self._is_stopping.wait())
        await asyncio.wait({fetching, stopping}, return_when=asyncio.FIRST_COMPLETED)
        stopping.cancel()
        if not fetching.done():
            fetching.cancel()  # it ends after the chunk at hand
        try:
            await fetching
        except asyncio.CancelledError:
            if not self._is_stopping.is_set():
                raise

    @asynccontextmanager
    async def _open(self) -> AsyncIterator[procrastinate.App]:
        """Connect, and close everything again however it ends."""
        probe = await psycopg.AsyncConnection.connect(self._conninfo, connect_timeout=PATIENCE_S)
        await probe.close()
        pool = AsyncConnectionPool(
            self._conninfo,
            min_size=1,
            max_size=4,
            open=False,
            timeout=PATIENCE_S,
            reconnect_timeout=PATIENCE_S,
            check=AsyncConnectionPool.check_connection,
        )
        app = procrastinate.App(connector=procrastinate.PsycopgConnector())
        app.task(name=TASK, queue=QUEUE, pass_context=True, retry=_RETRY)(self._do)
        try:
            await pool.open(wait=True, timeout=PATIENCE_S)
            async with app.open_async(pool):
                yield app
        finally:
            await pool.close()

    def _do(self, context: procrastinate.JobContext, job_id: str, chunk: int) -> None:
        """Do one chunk, in a thread of its own."""
        attempts = context.job.attempts
        if attempts >= MOST_ATTEMPTS:
            self._bench.give_up(job_id, died_too_often(attempts))
            return
        with self._bench.database.writing() as session:
            JobsRepository(session).join(job_id)
        self._bench.do(job_id, chunk)

    async def _recover_for_ever(self, app: procrastinate.App) -> None:
        """Put back, again and again, what dead workers have left; one worker at a time does it."""
        while True:
            await asyncio.sleep(self._pace.stale_s / 2)
            try:
                await self._recover(app)
            except (ConnectorException, SQLAlchemyError):
                logger.warning("cannot look for what dead workers have left", exc_info=True)

    async def _recover(self, app: procrastinate.App) -> None:
        with self._bench.database.writing() as session:
            is_free = text("SELECT pg_try_advisory_xact_lock(:lock)")
            if not session.scalar(is_free, {"lock": RECOVERY_LOCK}):
                return
            stalled = await app.job_manager.get_stalled_jobs(
                queue=QUEUE, seconds_since_heartbeat=self._pace.stale_s
            )
            for task in stalled:
                logger.warning("worker is silent, chunk put back", extra={"facts": dict(task.task_kwargs)})
                await app.job_manager.retry_job(task)

    async def _pause(self, seconds: float) -> None:
        try:
            await asyncio.wait_for(self._is_stopping.wait(), seconds)
        except TimeoutError:
            return


class _Patience(procrastinate.BaseRetryStrategy):
    """Another attempt soon after a failure; ``PostgresWorker`` counts them."""

    def get_retry_decision(
        self, *, exception: BaseException, job: Task
    ) -> procrastinate.RetryDecision | None:
        """Try again, always: only the work itself may call a job hopeless."""
        del exception
        return procrastinate.RetryDecision(retry_in={"seconds": min(10, 1 + job.attempts)})


_RETRY = _Patience()


def _conninfo(url: str) -> str:
    """Return an SQLAlchemy address as libpq reads it."""
    return portable_url(url).set(drivername="postgresql").render_as_string(hide_password=False)
