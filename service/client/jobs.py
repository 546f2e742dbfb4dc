"""Long work: put in, waited for, read out."""

from __future__ import annotations

import time
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any, Generic, TypeVar, Unpack

import msgspec

from service.client.batch import Couple, batch_lines
from service.client.document.bodies import AssemblyRequest, SurfaceRequest
from service.client.document.calls import get_job
from service.client.document.results import Answer, AssemblyCheck, Decision, JobDocument
from service.client.errors import JobError, OutOfTimeError
from service.client.flows import Flow, Listing, Pause, ask
from service.client.lines import BatchItem
from service.client.requests import NDJSON, Request, address, new_key

T = TypeVar("T")

FIRST_LOOK_S = 0.1
LONGEST_BETWEEN_LOOKS_S = 5.0
_ENDED = {"failed", "cancelled"}


class ResultPage(msgspec.Struct, Generic[T], frozen=True, kw_only=True):
    """One page of the results of a job."""

    items: tuple[T, ...]
    next: str | None


def start_batch(
    couples: Collection[Couple],
    *,
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    only_decisions: bool = False,
    as_of: str | None = None,
    idempotency_key: str | None = None,
) -> Flow[JobDocument]:
    """Have many couples judged in the background; read them with ``batch_answers`` or ``batch_decisions``."""
    return _start(
        {"kind": "batch", "view": "decision" if only_decisions else "full", "as_of": as_of},
        b"".join(batch_lines(couples, surfaces, defaults)),
        idempotency_key,
        NDJSON,
    )


def start_assembly(
    *, idempotency_key: str | None = None, **body: Unpack[AssemblyRequest]
) -> Flow[JobDocument]:
    """Have a large assembly checked in the background; read it with ``assembly_result``."""
    return _start({"kind": "assembly"}, body, idempotency_key)


def start_portfolio(*, idempotency_key: str | None = None) -> Flow[JobDocument]:
    """Have all stored assemblies judged again."""
    return _start({"kind": "portfolio"}, None, idempotency_key)


def _start(
    query: Mapping[str, object],
    body: Mapping[str, object] | bytes | None,
    key: str | None,
    content_type: str = "application/json",
) -> Flow[JobDocument]:
    request = Request(
        "POST", "/v1/jobs", query=query, body=body, key=key or new_key(), content_type=content_type
    )
    return ask(request, JobDocument)


def wait_for_job(
    job_id: str, *, timeout_s: float | None = None, on_progress: Callable[[JobDocument], object] | None = None
) -> Flow[JobDocument]:
    """Wait until a job is done. ``on_progress`` is told each time that it is looked at.

    Raises
    ------
    JobError
        If it has failed or was cancelled.
    OutOfTimeError
        If it is not done in time; it goes on all the same.
    """
    started, pause_s = time.monotonic(), FIRST_LOOK_S
    while True:
        job = yield from get_job(job_id)
        if on_progress:
            on_progress(job)
        if job.state == "done":
            return job
        if job.state in _ENDED:
            raise JobError(job)
        if timeout_s is not None and time.monotonic() - started + pause_s > timeout_s:
            message = f"job {job_id} is {job.state} after {timeout_s:g} s, {job.progress_pct:g} % done"
            raise OutOfTimeError(message)
        yield Pause(pause_s)
        pause_s = min(2 * pause_s, LONGEST_BETWEEN_LOOKS_S)


def batch_answers(job_id: str) -> Listing[BatchItem[Answer]]:
    """The answers of a batch that is done, in the order of its couples."""
    return Listing(_results(job_id), ResultPage[BatchItem[Answer]])


def batch_decisions(job_id: str) -> Listing[BatchItem[Decision]]:
    """The answers of a batch that was started with ``only_decisions``."""
    return Listing(_results(job_id), ResultPage[BatchItem[Decision]])


def assembly_result(job_id: str) -> Flow[AssemblyCheck]:
    """The check of an assembly that is done."""
    page = yield from ask(_results(job_id), ResultPage[AssemblyCheck])
    return page.items[0]


def job_results(job_id: str) -> Listing[dict[str, Any]]:
    """The results of any job as they are."""
    return Listing(_results(job_id), ResultPage[dict[str, Any]])


def _results(job_id: str) -> Request:
    return Request("GET", address("/v1/jobs/{job_id}/results", job_id=job_id))
