"""How jobs reach workers: the same for workers in this process and on other machines."""

from __future__ import annotations

from typing import Protocol

from service.storage.engine import WriteSession
from service.storage.repositories.jobs import Job


class Queue(Protocol):
    """Where new jobs are put. The job's row is written first, in the same transaction."""

    def enqueue(self, session: WriteSession, job: Job) -> None:
        """Let workers know of a job as soon as the transaction of ``session`` is committed."""
