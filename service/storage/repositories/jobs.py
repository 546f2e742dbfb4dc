"""Long work, its progress and the results of its chunks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, or_, select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import JobChunkRow, JobRow, new_id, utc_now

QUEUED, RUNNING, SUCCEEDED, FAILED, CANCELLED = "queued", "running", "succeeded", "failed", "cancelled"
UNFINISHED = (QUEUED, RUNNING)


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of long work, without its result."""

    id: str
    kind: str
    state: str
    tenant_id: str | None
    created_by: str
    request: bytes
    error: Mapping[str, Any] | None
    total: int
    done: int
    attempts: int
    is_cancel_requested: bool
    created_at: datetime
    started_at: datetime | None
    heartbeat_at: datetime | None
    finished_at: datetime | None


class JobsRepository:
    """Jobs by identifier. Each change of state is one statement that two workers cannot both win."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, kind: str, request: bytes, *, created_by: str, tenant_id: str | None, total: int) -> Job:
        """Keep a new job; ``total`` is the number of its chunks."""
        row = JobRow(
            id=new_id("job"),
            kind=kind,
            state=QUEUED,
            request=request,
            created_by=created_by,
            tenant_id=tenant_id,
            total=total,
        )
        self._session.add(row)
        self._session.flush()
        return copied(Job, row)

    def get(self, job_id: str) -> Job:
        """Return a job.

        Raises
        ------
        NotStoredError
            If there is no such job.
        """
        row = self._session.get(JobRow, job_id, populate_existing=True)
        if row is None:
            raise NotStoredError("job", job_id)
        return copied(Job, row)

    def page(
        self,
        *,
        tenant_id: str | None = None,
        state: str = "",
        limit: int = DEFAULT_LIMIT,
        cursor: str = "",
    ) -> Page[Job]:
        """Return the jobs of a tenant, or of all, oldest first."""
        statement = select(JobRow).where(JobRow.id > text_cursor(cursor)).order_by(JobRow.id)
        if tenant_id is not None:
            statement = statement.where(JobRow.tenant_id == tenant_id)
        if state:
            statement = statement.where(JobRow.state == state)
        fresh = statement.limit(limit + 1).execution_options(populate_existing=True)
        found = [copied(Job, row) for row in self._session.scalars(fresh)]
        return page_of(found, limit, lambda job: job.id)

    def start(self, job_id: str, *, stale_before: datetime) -> bool:
        """Take a queued job, or one whose worker died; tell whether it is ours now."""
        now = utc_now()
        is_free = or_(
            JobRow.state == QUEUED, (JobRow.state == RUNNING) & (JobRow.heartbeat_at < stale_before)
        )
        return self._change(
            job_id,
            is_free,
            JobRow.is_cancel_requested.is_(False),
            state=RUNNING,
            attempts=JobRow.attempts + 1,
            started_at=func.coalesce(JobRow.started_at, now),
            heartbeat_at=now,
        )

    def finish_chunk(self, job_id: str, chunk: int, result: bytes) -> bool:
        """Keep the result of a chunk, unless it is there; return whether to go on with the job."""
        row = {"job_id": job_id, "chunk": chunk, "result": result, "finished_at": utc_now()}
        add_unless_there(self._session, JobChunkRow, [row])
        done = (
            select(func.count())
            .select_from(JobChunkRow)
            .where(JobChunkRow.job_id == job_id)
            .scalar_subquery()
        )
        self._change(job_id, JobRow.state == RUNNING, done=done, heartbeat_at=utc_now())
        return self._session.scalar(select(JobRow.is_cancel_requested).where(JobRow.id == job_id)) is False

    def finished_chunks(self, job_id: str) -> set[int]:
        """Return the numbers of the chunks that need not be done again."""
        return set(self._session.scalars(select(JobChunkRow.chunk).where(JobChunkRow.job_id == job_id)))

    def results(self, job_id: str) -> Iterator[bytes]:
        """Give the results of the chunks in order, without holding all in memory."""
        statement = select(JobChunkRow.result).where(JobChunkRow.job_id == job_id).order_by(JobChunkRow.chunk)
        yield from self._session.scalars(statement.execution_options(yield_per=20))

    def succeed(self, job_id: str, result: bytes | None = None) -> bool:
        """End a running job well."""
        return self._end(job_id, RUNNING, state=SUCCEEDED, result=result)

    def fail(self, job_id: str, error: Mapping[str, Any]) -> bool:
        """End an unfinished job badly."""
        return self._end(job_id, *UNFINISHED, state=FAILED, error=dict(error))

    def requeue(self, job_id: str) -> bool:
        """Put a failed or running job back for another attempt; finished chunks stay."""
        return self._change(
            job_id, JobRow.state.in_((RUNNING, FAILED)), state=QUEUED, error=None, finished_at=None
        )

    def request_cancel(self, job_id: str) -> bool:
        """Ask for the end of a job: a queued one ends at once, a running one after its chunk."""
        if self._end(job_id, QUEUED, state=CANCELLED, is_cancel_requested=True):
            return True
        return self._change(job_id, JobRow.state == RUNNING, is_cancel_requested=True)

    def cancel(self, job_id: str) -> bool:
        """End a running job because it was asked for."""
        return self._end(job_id, RUNNING, state=CANCELLED)

    def result(self, job_id: str) -> bytes | None:
        """Return the result of a job that has one of its own, beside its chunks."""
        return self._session.scalar(select(JobRow.result).where(JobRow.id == job_id))

    def stale(self, before: datetime) -> list[str]:
        """Return the running jobs whose worker has not been heard of since ``before``."""
        statement = select(JobRow.id).where(JobRow.state == RUNNING, JobRow.heartbeat_at < before)
        return list(self._session.scalars(statement.order_by(JobRow.id)))

    def _end(self, job_id: str, *states: str, **values: object) -> bool:
        return self._change(job_id, JobRow.state.in_(states), finished_at=utc_now(), **values)

    def _change(self, job_id: str, *conditions: Any, **values: object) -> bool:
        statement = (
            update(JobRow)
            .where(JobRow.id == job_id, *conditions)
            .values(**values)
            .returning(JobRow.id)
            .execution_options(synchronize_session=False)
        )
        return self._session.execute(statement).first() is not None
