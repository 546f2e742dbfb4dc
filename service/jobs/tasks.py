"""One chunk of a job, from its input to its one committed result."""

from __future__ import annotations

import logging
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from typing import Any

from sqlalchemy.exc import SQLAlchemyError

from service.jobs.errors import HopelessError, UnknownKindError
from service.jobs.kinds import Kinds, Outcome, Piece, kind_named
from service.storage.engine import Database
from service.storage.repositories.jobs import RUNNING, Job, JobsRepository

logger = logging.getLogger(__name__)

MOST_ATTEMPTS = 5
"""Starts of the same chunk, by processes that died or failed, after which its job is given up."""


@dataclass(frozen=True, slots=True)
class Bench:
    """Where chunks are worked on: a database and the kinds of work that are known here.

    ``beat_s`` is the time between two signs of life.
    """

    database: Database
    kinds: Kinds
    beat_s: float = 5.0

    def do(self, job_id: str, chunk: int) -> bool:
        """Do a chunk unless it is done; tell whether the job goes on.

        Errors that another attempt may not meet pass through; the job is then as it was.
        """
        piece = self._piece(job_id, chunk)
        if piece is None:
            return not self._job(job_id).is_over
        try:
            with self._beating(job_id):
                outcome = kind_named(self.kinds, piece.job.kind).run(piece)
        except HopelessError as error:
            self.give_up(job_id, error)
            return False
        except UnknownKindError as error:
            self.give_up(job_id, HopelessError("unknown-kind", str(error)))
            return False
        return self._commit(piece, outcome)

    def give_up(self, job_id: str, error: HopelessError) -> None:
        """End a job badly; what its chunks have found stays."""
        document: dict[str, Any] = {"code": error.code, "detail": error.detail}
        if error.pointer:
            document["pointer"] = error.pointer
        with self.database.writing() as session:
            JobsRepository(session).fail(job_id, document)
        logger.warning("job failed", extra={"facts": {"job_id": job_id, "code": error.code}})

    def _job(self, job_id: str) -> Job:
        with self.database.reading() as session:
            return JobsRepository(session).get(job_id)

    def _piece(self, job_id: str, chunk: int) -> Piece | None:
        """What there is to do; a job whose end was asked for is ended here."""
        with self.database.reading() as session:
            jobs = JobsRepository(session)
            job = jobs.get(job_id)
            request, content = jobs.request(job_id), jobs.input(job_id, chunk)
        if job.state == RUNNING and job.is_cancel_requested:
            with self.database.writing() as session:
                JobsRepository(session).cancel(job_id)
            return None
        if job.state != RUNNING or content is None:
            return None
        return Piece(job, request, chunk, content)

    def _commit(self, piece: Piece, outcome: Outcome) -> bool:
        job_id = piece.job.id
        with self.database.writing() as session:
            jobs = JobsRepository(session)
            effect = partial(outcome.effect, session)
            finished = jobs.finish_chunk(job_id, piece.chunk, outcome.result, effect)
            if finished.is_last:
                job = jobs.get(job_id)
                jobs.succeed(job_id, self.kinds[job.kind].sum_up(session, job))
                logger.info("job done", extra={"facts": {"job_id": job_id, "kind": job.kind}})
        return not finished.is_last

    @contextmanager
    def _beating(self, job_id: str) -> Iterator[None]:
        """Give signs of life while a chunk is worked on."""
        over = threading.Event()

        def beat() -> None:
            while not over.wait(self.beat_s):
                try:
                    with self.database.writing() as session:
                        JobsRepository(session).beat(job_id)
                except SQLAlchemyError:
                    logger.warning("no sign of life given", exc_info=True)

        heart = threading.Thread(target=beat, name="heart", daemon=True)
        heart.start()
        try:
            yield
        finally:
            over.set()
            heart.join()


def died_too_often(attempts: int) -> HopelessError:
    """Say why a chunk is not tried again."""
    return HopelessError(
        "given-up", f"A part of the work ended {attempts} times without a result; the log says how."
    )
