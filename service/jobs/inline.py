"""Workers in the process of the service: what the embedded default uses.

The row of a job is all that there is of a queue, so nothing is lost with the process: the next one finds
the jobs that are unfinished, takes those whose worker has fallen silent, and goes on behind the last
finished chunk.
"""

from __future__ import annotations

import logging
import threading
from datetime import timedelta
from typing import Self

from sqlalchemy import event
from sqlalchemy.exc import SQLAlchemyError

from service.jobs.tasks import MOST_ATTEMPTS, Bench, died_too_often
from service.storage.distress import distress
from service.storage.engine import WriteSession
from service.storage.repositories.jobs import Job, JobsRepository
from service.storage.tables import utc_now

logger = logging.getLogger(__name__)


class InlineWorkers:
    """Threads that work on jobs one at a time each, and the queue in front of them."""

    def __init__(self, bench: Bench, *, threads: int = 1, stale_s: float = 30.0, poll_s: float = 2.0) -> None:
        self._bench = bench
        self._stale = timedelta(seconds=stale_s)
        self._poll_s = poll_s
        self._bell = threading.Event()
        self._is_closing = threading.Event()
        self._threads = [
            threading.Thread(target=self._work, name=f"worker-{number}", daemon=True)
            for number in range(threads)
        ]

    def start(self) -> Self:
        """Begin to work."""
        for thread in self._threads:
            thread.start()
        return self

    def close(self, patience_s: float = 10.0) -> None:
        """Let each thread finish its chunk; one that takes too long is left behind with the process."""
        self._is_closing.set()
        self._bell.set()
        for thread in self._threads:
            if thread.is_alive():
                thread.join(patience_s)

    def enqueue(self, session: WriteSession, job: Job) -> None:  # noqa: ARG002 - the row says everything
        """Wake a worker when the job is committed."""
        event.listen(session, "after_commit", lambda _: self._bell.set(), once=True)

    def _work(self) -> None:
        while not self._is_closing.is_set():
            self._bell.clear()
            try:
                was_busy = self._work_once()
            except SQLAlchemyError:
                logger.exception("no work taken")
                was_busy = False
            if not was_busy:
                self._bell.wait(self._poll_s)

    def _work_once(self) -> bool:
        """Work on the oldest job that is free; tell whether there was one."""
        stale_before = utc_now() - self._stale
        database = self._bench.database
        with database.reading() as session:
            free = JobsRepository(session).unfinished(stale_before=stale_before)
        for job_id in free:
            with database.writing() as session:
                is_ours = JobsRepository(session).take(job_id, stale_before=stale_before)
            if is_ours:
                self._work_on(job_id)
                return True
        return False

    def _work_on(self, job_id: str) -> None:
        with self._bench.database.reading() as session:
            jobs = JobsRepository(session)
            attempts, chunks = jobs.get(job_id).attempts, jobs.waiting_chunks(job_id)
        if attempts > MOST_ATTEMPTS:
            self._bench.give_up(job_id, died_too_often(attempts - 1))
            return
        for chunk in chunks:
            if self._is_closing.is_set():
                self._put_back(job_id)
                return
            if not self._try(job_id, chunk):
                return

    def _try(self, job_id: str, chunk: int) -> bool:
        """Do a chunk, several times if it fails; tell whether to go on."""
        for attempt in range(1, MOST_ATTEMPTS + 1):
            try:
                return self._bench.do(job_id, chunk)
            except Exception as error:
                if distress(error):
                    raise  # the trouble of the database is no fault of the job
                facts = {"job_id": job_id, "chunk": chunk, "attempt": attempt}
                logger.exception("chunk failed", extra={"facts": facts})
                if self._is_closing.wait(min(self._poll_s, 0.1 * 2**attempt)):
                    break
        else:
            self._bench.give_up(job_id, died_too_often(MOST_ATTEMPTS))
            return False
        self._put_back(job_id)
        return False

    def _put_back(self, job_id: str) -> None:
        """Leave a job to the next process at once, instead of after a silence."""
        with self._bench.database.writing() as session:
            JobsRepository(session).put_back(job_id)
