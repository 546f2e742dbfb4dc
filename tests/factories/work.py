"""Kinds of work that tests control, and what they do with jobs."""

from __future__ import annotations

import asyncio
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field

from service.jobs.errors import HopelessError
from service.jobs.kinds import Outcome, Piece
from service.jobs.postgres import PostgresWorker
from service.jobs.queue import Queue
from service.storage import Database
from service.storage.engine import WriteSession
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.jobs import Input, Job, JobsRepository

Working = Callable[..., AbstractContextManager[Queue]]


@dataclass
class Shouting:
    """Writes its input in capitals and one line of the feed for each chunk."""

    name: str = "shouting"
    runs: Counter[bytes] = field(default_factory=Counter)
    may_go: threading.Event = field(default_factory=threading.Event)
    is_at_work: threading.Event = field(default_factory=threading.Event)
    failures: Counter[bytes] = field(default_factory=Counter)

    def __post_init__(self) -> None:
        self.may_go.set()

    def run(self, piece: Piece) -> Outcome:
        self.runs[piece.input] += 1
        self.is_at_work.set()
        self.may_go.wait(20)
        if piece.input == b"hopeless":
            raise HopelessError("hopeless", "This can never be done.", "/couples/0")
        if self.failures[piece.input] > 0:
            self.failures[piece.input] -= 1
            message = "disk full"
            raise OSError(message)

        def tell(session: WriteSession) -> None:
            ChangesRepository(session).append("shouted", piece.input.decode())

        return Outcome(piece.input.upper(), tell)

    def sum_up(self, session: WriteSession, job: Job) -> bytes | None:
        return b"+".join(JobsRepository(session).all_results(job.id))


@contextmanager
def in_a_thread(worker: PostgresWorker) -> Iterator[None]:
    """Let a worker run beside the test."""
    loop = asyncio.new_event_loop()
    thread = threading.Thread(target=lambda: loop.run_until_complete(worker.run()))
    thread.start()
    try:
        yield
    finally:
        loop.call_soon_threadsafe(worker.stop)
        thread.join()
        loop.close()


def submit(database: Database, queue: Queue, kind: str, *inputs: bytes, tenant_id: str = "port") -> Job:
    """Add a job with one item in each chunk, and let workers know."""
    with database.writing() as session:
        job = JobsRepository(session).add(
            kind, b"{}", [Input(1, each) for each in inputs], created_by="ada", tenant_id=tenant_id
        )
        queue.enqueue(session, job)
    return job


def wait_for(database: Database, job_id: str, *states: str, patience_s: float = 20.0) -> Job:
    """Wait until a job is in one of these states."""
    deadline = time.monotonic() + patience_s
    while time.monotonic() < deadline:
        with database.reading() as session:
            job = JobsRepository(session).get(job_id)
        if job.state in states:
            return job
        time.sleep(0.01)
    message = f"the job is still {job}"
    raise AssertionError(message)
