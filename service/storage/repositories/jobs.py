"""Long work: what is to be done, how far it is, and the results of its chunks."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import case, delete, exists, func, insert, or_, select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, encode_cursor, page_of, text_cursor
from service.storage.tables import JobChunkRow, JobInputRow, JobRow, new_id, utc_now

QUEUED, RUNNING, DONE, FAILED, CANCELLED = "queued", "running", "done", "failed", "cancelled"
UNFINISHED = (QUEUED, RUNNING)
FORESIGHT = timedelta(minutes=1)
"""A sign of life from further ahead was given before a clock was set back, and proves nothing."""

FASTEST = 1
"""Level of compression: four fifths of the size go at a tenth of the time of the best."""


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of long work, without its request and result."""

    id: str
    kind: str
    state: str
    tenant_id: str | None
    created_by: str
    release_label: str | None
    overlay_hash: str
    error: Mapping[str, Any] | None
    chunks: int
    total: int
    done: int
    attempts: int
    is_cancel_requested: bool
    created_at: datetime
    started_at: datetime | None
    heartbeat_at: datetime | None
    finished_at: datetime | None

    @property
    def is_over(self) -> bool:
        """Whether nothing will change any more."""
        return self.state not in UNFINISHED


@dataclass(frozen=True, slots=True)
class Input:
    """What one chunk works on: so many items, written in ``request``."""

    items: int
    request: bytes


@dataclass(frozen=True, slots=True)
class Finished:
    """What became of the result of a chunk.

    ``is_new`` is false where another worker was quicker, so nothing was written in its name;
    ``is_last`` tells that no chunk is left.
    """

    is_new: bool
    is_last: bool = False


class JobsRepository:
    """Jobs by identifier. Each change of state is one statement that two workers cannot both win."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(
        self,
        kind: str,
        request: bytes,
        inputs: Sequence[Input],
        *,
        created_by: str,
        tenant_id: str | None,
        release_label: str | None = None,
        overlay_hash: str = "",
    ) -> Job:
        """Keep a new job with the inputs of its chunks; one without any is done at once."""
        view = (release_label, overlay_hash)
        job, _ = self._add(kind, request, inputs, created_by, tenant_id, view, None)
        return job

    def counts_of_unfinished(self) -> Mapping[str, int]:
        """Count the jobs that are not over, by state."""
        query = select(JobRow.state, func.count()).where(JobRow.state.in_(UNFINISHED)).group_by(JobRow.state)
        return {row[0]: row[1] for row in self._session.execute(query)}

    def add_once(
        self,
        kind: str,
        request: bytes,
        inputs: Sequence[Input],
        *,
        created_by: str,
        tenant_id: str | None,
        release_label: str | None,
        overlay_hash: str = "",
        dedupe_key: str,
    ) -> tuple[Job, bool]:
        """Keep a new job unless there is one with its key; return the job and whether it is new."""
        view = (release_label, overlay_hash)
        return self._add(kind, request, inputs, created_by, tenant_id, view, dedupe_key)

    def named(self, dedupe_key: str) -> Job | None:
        """Return the job with a key, ``None`` if there is none."""
        row = self._session.scalars(select(JobRow).where(JobRow.dedupe_key == dedupe_key)).one_or_none()
        return None if row is None else copied(Job, row)

    def _add(
        self,
        kind: str,
        request: bytes,
        inputs: Sequence[Input],
        created_by: str,
        tenant_id: str | None,
        view: tuple[str | None, str],
        dedupe_key: str | None,
    ) -> tuple[Job, bool]:
        now = utc_now()
        row = {
            "id": new_id("job"), "kind": kind, "state": QUEUED if inputs else DONE, "tenant_id": tenant_id,
            "created_by": created_by, "release_label": view[0], "overlay_hash": view[1],
            "dedupe_key": dedupe_key,
            "request": request, "chunks": len(inputs), "total": sum(each.items for each in inputs),
            "done": 0, "attempts": 0, "is_cancel_requested": False, "created_at": now,
            "finished_at": None if inputs else now,
        }  # fmt: skip
        if not add_unless_there(self._session, JobRow, [row]):
            known = self.named(str(dedupe_key))
            assert known is not None  # noqa: S101 - nothing else can have stood in the way
            return known, False
        job_id = str(row["id"])
        if inputs:
            self._session.execute(
                insert(JobInputRow),
                [
                    {"job_id": job_id, "chunk": chunk, "items": each.items, "request": each.request}
                    for chunk, each in enumerate(inputs)
                ],
            )
        return self.get(job_id), True

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

    def request(self, job_id: str) -> bytes:
        """Return what was asked for.

        Raises
        ------
        NotStoredError
            If there is no such job.
        """
        found = self._session.scalar(select(JobRow.request).where(JobRow.id == job_id))
        if found is None:
            raise NotStoredError("job", job_id)
        return found

    def page(
        self,
        *,
        tenant_id: str | None = None,
        state: str = "",
        kind: str = "",
        limit: int = DEFAULT_LIMIT,
        cursor: str = "",
    ) -> Page[Job]:
        """Return the jobs of a tenant, or of all, newest first."""
        statement = select(JobRow).order_by(JobRow.id.desc())
        if cursor:
            statement = statement.where(JobRow.id < text_cursor(cursor))
        for column, wanted in ((JobRow.tenant_id, tenant_id), (JobRow.state, state), (JobRow.kind, kind)):
            if wanted:
                statement = statement.where(column == wanted)
        fresh = statement.limit(limit + 1).execution_options(populate_existing=True)
        found = [copied(Job, row) for row in self._session.scalars(fresh)]
        return page_of(found, limit, lambda job: job.id)

    def unfinished(self, *, stale_before: datetime) -> list[str]:
        """Return the jobs that wait for a worker, or whose worker has not been heard of, oldest first."""
        statement = select(JobRow.id).where(_is_free(stale_before)).order_by(JobRow.id).limit(DEFAULT_LIMIT)
        return list(self._session.scalars(statement))

    def all_unfinished(self) -> list[str]:
        """Return every job that has not ended, oldest first."""
        statement = select(JobRow.id).where(JobRow.state.in_(UNFINISHED)).order_by(JobRow.id)
        return list(self._session.scalars(statement))

    def take(self, job_id: str, *, stale_before: datetime) -> bool:
        """Take a queued job, or one whose worker died, for one worker alone; tell whether it is ours."""
        return self._start(job_id, _is_free(stale_before))

    def join(self, job_id: str) -> bool:
        """Begin a job that several work on; tell whether none of the others had begun it."""
        return self._start(job_id, JobRow.state == QUEUED)

    def beat(self, job_id: str) -> bool:
        """Say that a worker is alive; tell whether it should go on."""
        return self._change(
            job_id, JobRow.state == RUNNING, JobRow.is_cancel_requested.is_(False), heartbeat_at=utc_now()
        )

    def input(self, job_id: str, chunk: int) -> bytes | None:
        """Return what a chunk works on, ``None`` if its result is there already."""
        return self._session.scalar(
            select(JobInputRow.request).where(JobInputRow.job_id == job_id, JobInputRow.chunk == chunk)
        )

    def waiting_chunks(self, job_id: str) -> list[int]:
        """Return the numbers of the chunks that have no result yet, in order."""
        statement = select(JobInputRow.chunk).where(JobInputRow.job_id == job_id)
        return list(self._session.scalars(statement.order_by(JobInputRow.chunk)))

    def finish_chunk(
        self, job_id: str, chunk: int, result: bytes, effect: Callable[[], object] = lambda: None
    ) -> Finished:
        """Exchange the input of a chunk for its result, once, and have the effect that belongs to it.

        The input can be deleted once only, so of two workers one writes. The job's row is locked
        before the rest is counted, so of two last chunks one is seen to be the last; it is locked after
        the effect, because all other workers wait for it.
        """
        taken = self._session.scalar(
            delete(JobInputRow)
            .where(JobInputRow.job_id == job_id, JobInputRow.chunk == chunk)
            .returning(JobInputRow.items)
        )
        if taken is None:
            return Finished(is_new=False)
        effect()
        now = utc_now()
        row = {
            "job_id": job_id,
            "chunk": chunk,
            "result": zlib.compress(result, FASTEST),
            "finished_at": now,
        }
        self._session.execute(insert(JobChunkRow), [row])
        self._change(job_id, done=JobRow.done + taken, heartbeat_at=now, attempts=0)
        is_more = self._session.scalar(select(exists().where(JobInputRow.job_id == job_id)))
        return Finished(is_new=True, is_last=not is_more)

    def results(self, job_id: str, *, cursor: str = "", limit: int = 1) -> Page[bytes]:
        """Return the results of chunks in their order; the cursor stands after the last one."""
        statement = (
            select(JobChunkRow.chunk, JobChunkRow.result)
            .where(JobChunkRow.job_id == job_id)
            .order_by(JobChunkRow.chunk)
            .limit(limit + 1)
        )
        if cursor:
            statement = statement.where(JobChunkRow.chunk > int(text_cursor(cursor) or -1))
        found = self._session.execute(statement).all()
        items = tuple(zlib.decompress(result) for _, result in found[:limit])
        return Page(items, encode_cursor(str(found[limit - 1].chunk)) if len(found) > limit else "")

    def all_results(self, job_id: str) -> Iterator[bytes]:
        """Give the results of all chunks in order, one at a time."""
        cursor = ""
        while True:
            page = self.results(job_id, cursor=cursor)
            yield from page.items
            cursor = page.next_cursor
            if not cursor:
                return

    def succeed(self, job_id: str, result: bytes | None = None) -> bool:
        """End a running job well; ``result`` sums up what its chunks hold."""
        return self._end(job_id, RUNNING, state=DONE, result=result)

    def fail(self, job_id: str, error: Mapping[str, Any]) -> bool:
        """End an unfinished job badly; the results of its chunks stay."""
        return self._end(job_id, *UNFINISHED, state=FAILED, error=dict(error))

    def put_back(self, job_id: str) -> bool:
        """Leave a running job to another worker, as if its last start had not been."""
        attempts = JobRow.attempts - case((JobRow.attempts > 0, 1), else_=0)
        return self._change(job_id, JobRow.state == RUNNING, state=QUEUED, attempts=attempts)

    def request_cancel(self, job_id: str) -> bool:
        """Ask for the end of a job: a queued one ends at once, a running one after its chunk."""
        if self._end(job_id, QUEUED, state=CANCELLED, is_cancel_requested=True):
            return True
        return self._change(job_id, JobRow.state == RUNNING, is_cancel_requested=True)

    def cancel(self, job_id: str) -> bool:
        """End a running job because it was asked for."""
        return self._end(job_id, RUNNING, state=CANCELLED)

    def result(self, job_id: str) -> bytes | None:
        """Return what sums up the chunks of a job, if there is such a thing."""
        return self._session.scalar(select(JobRow.result).where(JobRow.id == job_id))

    def forget(self, finished_before: datetime) -> int:
        """Delete the jobs that ended before a moment, with their results; return how many."""
        gone = self._session.execute(
            delete(JobRow)
            .where(JobRow.finished_at < finished_before)
            .returning(JobRow.id)
            .execution_options(synchronize_session=False)
        )
        return len(gone.all())

    def _start(self, job_id: str, condition: Any) -> bool:
        now = utc_now()
        return self._change(
            job_id,
            condition,
            JobRow.is_cancel_requested.is_(False),
            state=RUNNING,
            attempts=JobRow.attempts + 1,
            started_at=func.coalesce(JobRow.started_at, now),
            heartbeat_at=now,
        )

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


def _is_free(stale_before: datetime) -> Any:
    is_silent = or_(JobRow.heartbeat_at < stale_before, JobRow.heartbeat_at > utc_now() + FORESIGHT)
    return or_(JobRow.state == QUEUED, (JobRow.state == RUNNING) & is_silent)
