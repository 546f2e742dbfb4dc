"""Jobs as the API shows them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec
import orjson

from service.jobs.progress import Progress
from service.storage.engine import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.jobs import DONE, Job, JobsRepository
from service.storage.repositories.pages import Page
from service.storage.repositories.releases import ReleasesRepository
from service.storage.tables import utc_now
from service.web.batch_answers import Lines, Tally
from service.web.representation import canonical
from service.web.work_errors import JobNotDoneError, UnknownJobError

JOBS = "/v1/jobs"


class _Line(msgspec.Struct):
    error: Any = None


_LINE = msgspec.json.Decoder(_Line)


def find_job(database: Database, job_id: str, tenant_id: str) -> tuple[Job, bytes | None]:
    """Return a job of a tenant with what sums it up.

    Raises
    ------
    UnknownJobError
        If the tenant has no such job.
    """
    try:
        with database.reading() as session:
            jobs = JobsRepository(session)
            job, summary = jobs.get(job_id), jobs.result(job_id)
    except NotStoredError as error:
        raise UnknownJobError(job_id) from error
    if job.tenant_id != tenant_id:
        raise UnknownJobError(job_id)
    return job, summary


def job_document(job: Job, summary: bytes | None = None) -> dict[str, Any]:
    """Describe a job as plain JSON values."""
    progress = Progress.of(job, utc_now())
    pace = progress.items_per_s
    return {
        "id": job.id,
        "address": f"{JOBS}/{job.id}",
        "kind": job.kind,
        "state": job.state,
        "release": job.release_label,
        "items_total": job.total,
        "items_done": job.done,
        "progress_pct": round(100 * progress.fraction, 1),
        "items_per_minute": None if pace is None else round(60 * pace, 1),
        "eta_s": progress.eta_s,
        "is_cancel_requested": job.is_cancel_requested,
        "created_at": job.created_at,
        "started_at": job.started_at,
        "finished_at": job.finished_at,
        "error": job.error,
        "summary": orjson.loads(summary) if summary else None,
        "results": f"{JOBS}/{job.id}/results" if job.state == DONE else None,
    }


def results_page(database: Database, job: Job, cursor: str) -> tuple[bytes, str]:
    """Write a page of results, each in the bytes that it was kept in; return it with the next address.

    Raises
    ------
    JobNotDoneError
        If there are none to read.
    BadCursorError
        If the cursor comes from elsewhere.
    """
    _check_done(job)
    with database.reading() as session:
        page: Page[bytes] = JobsRepository(session).results(job.id, cursor=cursor)
    lines = b",".join(line for chunk in page.items for line in chunk.splitlines())
    address = f"{JOBS}/{job.id}/results?cursor={page.next_cursor}" if page.next_cursor else ""
    return b'{"items":[%s],"next":%s}' % (lines, canonical(address or None)), address


def results_stream(database: Database, job: Job) -> Iterator[bytes]:
    """Give all results as lines, closed like those of a batch.

    Raises
    ------
    JobNotDoneError
        If there are none to read.
    """
    _check_done(job)
    return _stream(database, job)


def _stream(database: Database, job: Job) -> Iterator[bytes]:
    tally, cursor = Tally(), ""
    while True:
        with database.reading() as session:
            page = JobsRepository(session).results(job.id, cursor=cursor)
        for chunk in page.items:
            lines = chunk.splitlines()
            failed = sum(_LINE.decode(line).error is not None for line in lines)
            yield chunk
            tally.add(Lines(chunk, len(lines), failed))
        cursor = page.next_cursor
        if not cursor:
            break
    with database.reading() as session:
        info = ReleasesRepository(session).find(job.release_label or "")
    yield tally.closing(info.label if info else "", info.content_hash if info else "")


def _check_done(job: Job) -> None:
    if job.state != DONE:
        raise JobNotDoneError(job.id, job.state)
