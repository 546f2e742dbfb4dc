"""Long work: put in, looked after, read out."""

from __future__ import annotations

from typing import Annotated, Any

import anyio
import orjson
from fastapi import APIRouter, Path, Query, Request, Response
from pydantic import ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from service.access.scopes import Scope
from service.judgement import InvalidInquiryError
from service.storage.errors import UnknownReleaseError
from service.storage.repositories.jobs import Input, Job, JobsRepository
from service.web.assembly_requests import release_label
from service.web.batch_input import JSON, NDJSON, read_batch
from service.web.errors import (
    BadCursorError,
    InconsistentRequestError,
    MalformedBodyError,
    UnreadableFileError,
)
from service.web.faults import invalid_request
from service.web.house_policies import HousePolicies
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.job_documents import JOBS, find_job, job_document, results_page, results_stream
from service.web.nesting import check_nesting
from service.web.operations import Operation
from service.web.pagination import cursors_of, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import NO_STORE, page_reply
from service.web.representation import canonical
from service.web.routes.batch import take_allowance
from service.web.routing import StrictRoute
from service.web.schemas.assemblies import AssemblyRequest, CheckQuery
from service.web.schemas.batch import BatchRequest
from service.web.schemas.jobs import (
    JobDocument,
    JobKind,
    JobPage,
    JobsQuery,
    ResultPage,
    ResultsQuery,
    StartQuery,
)
from service.web.shelf import OpenRelease
from service.web.spool import closing_spool, content_type_of
from service.web.state import principal, services
from service.web.streamed_routing import StreamedRoute, body_in
from service.web.work import ASSEMBLY, BATCH, batch_job
from service.web.work_errors import JobNotDoneError, UnknownJobError

JobId = Annotated[
    str, Path(description="Identifier of the job.", max_length=100, examples=["job_0069f3b2c1d4e5"])
]
router = APIRouter(prefix="/v1", tags=["Jobs"], route_class=StrictRoute)
starting = APIRouter(prefix="/v1", tags=["Jobs"], route_class=StreamedRoute)


@starting.post(
    "/jobs",
    operation_id="start_job",
    summary="Start long work",
    status_code=202,
    response_model=JobDocument,
    responses=openapi_responses(
        UnknownReleaseError,
        InvalidInquiryError,
        InconsistentRequestError,
        UnreadableFileError,
        *KEY_ERRORS,
        with_body=True,
    ),
    openapi_extra={
        **needs(Scope.ASSEMBLIES),
        **keyed(),
        **body_in(BatchRequest, NDJSON, JSON, is_required=False),
    },
)
async def start_job(request: Request, query: Annotated[StartQuery, Query()]) -> Response:
    """Put in a job: the body is that of the same work done at once.

    For `batch` that of `/v1/couples/batch`, for `assembly` that of `/v1/assemblies/check`; for `portfolio`
    there is none. All of a job is judged by one release, and each result is kept once, whatever happens to
    workers.
    """
    return await once(request, lambda: _start(request, query))


async def _start(request: Request, query: StartQuery) -> Response:
    if query.kind is JobKind.PORTFOLIO:
        job = await run_in_threadpool(_start_portfolio, request)
    elif query.kind is JobKind.BATCH:
        job = await _start_batch(request, query)
    else:
        job = await _start_assembly(request, query)
    return accepted(job)


def accepted(job: Job) -> Response:
    """Tell that a job was put in, and where it is."""
    document = job_document(job)
    headers = {**NO_STORE, "Location": document["address"], "Retry-After": "1"}
    return Response(canonical(document), 202, headers, JSON)


async def _start_batch(request: Request, query: StartQuery) -> Job:
    content_type = content_type_of(request, (NDJSON, JSON))
    release = await release_for(request, query.as_of)
    async with closing_spool(request) as body:
        batch = await run_in_threadpool(read_batch, body, content_type)
        take_allowance(request, batch.count)
        content, inputs = await run_in_threadpool(batch_job, batch, query.view, principal(request).tenant_id)
    return await run_in_threadpool(_put_in, request, BATCH, content, inputs, release)


async def _start_assembly(request: Request, query: StartQuery) -> Job:
    content_type_of(request, (JSON,))
    async with closing_spool(request) as body:
        content = await run_in_threadpool(body.read)
    assembly = await anyio.to_thread.run_sync(_assembly, request, content)
    release = await release_for(request, release_label(assembly, CheckQuery(as_of=query.as_of)))
    policies = HousePolicies(services(request).database, principal(request).tenant_id)
    content = await run_in_threadpool(policies.pinned, assembly, content)
    items = max(1, len(assembly.joints), len(assembly.parts))
    take_allowance(request, items)
    return await run_in_threadpool(_put_in, request, ASSEMBLY, b"{}", [Input(items, content)], release)


def _assembly(request: Request, content: bytes) -> AssemblyRequest:
    operation = Operation.of(request.app, "/v1/assemblies/check", "POST")
    try:
        value = orjson.loads(content)
        check_nesting(value, services(request).settings.max_json_depth)
        return AssemblyRequest.model_validate(value)
    except orjson.JSONDecodeError as error:
        message = f"The body cannot be read: {error}."
        raise MalformedBodyError(message) from error
    except ValidationError as error:
        entries = [{**entry, "loc": ("body", *entry["loc"])} for entry in error.errors()]
        raise invalid_request(entries, operation) from error


def _put_in(request: Request, kind: str, content: bytes, inputs: list[Input], release: OpenRelease) -> Job:
    held, caller = services(request), principal(request)
    with held.database.writing() as session:
        job = JobsRepository(session).add(
            kind,
            content,
            inputs,
            created_by=caller.key_id,
            tenant_id=caller.tenant_id,
            release_label=release.label,
            overlay_hash=release.catalogue.overlay_hash,
        )
        held.work.queue.enqueue(session, job)
    return job


def _start_portfolio(request: Request) -> Job:
    work, caller = services(request).work, principal(request)
    return work.portfolio.submit(work.queue, caller.tenant_id, by=caller.key_id)


@router.get(
    "/jobs",
    operation_id="list_jobs",
    summary="List jobs",
    response_model=JobPage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def list_jobs(request: Request, query: Annotated[JobsQuery, Query()]) -> Response:
    """List the jobs of the caller's tenant, the newest first."""
    document = await run_in_threadpool(_page, request, query)
    return page_reply(canonical(document), {"next": document["next"]})


@router.get(
    "/jobs/{job_id}",
    operation_id="get_job",
    summary="Get one job",
    response_model=JobDocument,
    responses=openapi_responses(UnknownJobError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_job(request: Request, job_id: JobId) -> Response:
    """Tell how far a job is and when it may end."""
    return await run_in_threadpool(_told, request, job_id)


@router.get(
    "/jobs/{job_id}/results",
    operation_id="get_job_results",
    summary="Read the results of a job",
    response_model=ResultPage,
    responses={
        200: {"content": {NDJSON: {"schema": {"type": "string", "description": "All results, in lines."}}}},
        **openapi_responses(UnknownJobError, JobNotDoneError, BadCursorError),
    },
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_job_results(
    request: Request, job_id: JobId, query: Annotated[ResultsQuery, Query()]
) -> Response:
    """Give the results in order, page by page; accepted as NDJSON all of them with a closing line."""
    database = services(request).database
    job, _ = await run_in_threadpool(find_job, database, job_id, principal(request).tenant_id)
    if NDJSON in request.headers.get("accept", ""):
        return StreamingResponse(results_stream(database, job), headers=NO_STORE, media_type=NDJSON)
    with cursors_of("the results of this job", ValueError):
        body, following = await run_in_threadpool(results_page, database, job, query.cursor or "")
    return page_reply(body, {"next": following})


@router.delete(
    "/jobs/{job_id}",
    operation_id="cancel_job",
    summary="Cancel a job",
    response_model=JobDocument,
    responses=openapi_responses(UnknownJobError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def cancel_job(request: Request, job_id: JobId) -> Response:
    """Ask for the end of a job: one that waits ends at once, one at work after its chunk.

    A job that is over stays as it is.
    """
    return await run_in_threadpool(_cancelled, request, job_id)


def _told(request: Request, job_id: str) -> Response:
    found = find_job(services(request).database, job_id, principal(request).tenant_id)
    return Response(canonical(job_document(*found)), headers=NO_STORE, media_type=JSON)


def _cancelled(request: Request, job_id: str) -> Response:
    database = services(request).database
    find_job(database, job_id, principal(request).tenant_id)
    with database.writing() as session:
        JobsRepository(session).request_cancel(job_id)
    return _told(request, job_id)


def _page(request: Request, query: JobsQuery) -> dict[str, Any]:
    with cursors_of("the list of jobs"), services(request).database.reading() as session:
        page = JobsRepository(session).page(
            tenant_id=principal(request).tenant_id,
            state=query.state or "",
            kind=query.kind or "",
            limit=query.limit,
            cursor=query.cursor or "",
        )
    filters = {"state": query.state, "kind": query.kind, "limit": query.limit}
    following = page_address(JOBS, filters, page.next_cursor) if page.next_cursor else None
    return {"items": [job_document(job) for job in page.items], "next": following}


ROUTERS = (starting, router)
