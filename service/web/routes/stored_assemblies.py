"""Assemblies under watch: stored, judged, and judged again when a release can change what was said."""

from __future__ import annotations

from typing import Annotated, Any

import anyio
import orjson
from fastapi import APIRouter, Header, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.jobs.rejudging import remove
from service.judgement import InvalidInquiryError
from service.storage.engine import WriteSession
from service.storage.errors import StaleVersionError, UnknownReleaseError
from service.storage.repositories.assemblies import AssembliesRepository
from service.storage.repositories.assemblies import StoredAssembly as Stored
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.jobs import Job
from service.web.assembly_requests import assembly_of, release_label
from service.web.conditional import may_replace, quoted
from service.web.errors import BadCursorError, InconsistentRequestError, UnreadableFileError
from service.web.house_policies import HousePolicies
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.job_documents import job_document
from service.web.operations import JSON
from service.web.pagination import cursors_of, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import NO_STORE, page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.assemblies import AssemblyRequest, CheckQuery
from service.web.schemas.assembly_reports import AssemblyReport
from service.web.schemas.stored_assemblies import (
    StoredAssemblyWithBody,
    StoredPage,
    StoredQuery,
    StoringOutcome,
)
from service.web.state import principal, services
from service.web.work_errors import NotJudgedYetError, UnknownStoredAssemblyError, VersionMismatchError

PATH = "/v1/assemblies/stored"
Name = Annotated[
    str,
    Path(
        description="What the caller calls the assembly.",
        pattern="^[A-Za-z0-9][A-Za-z0-9._-]{0,99}$",
        examples=["tide-gauge"],
    ),
]
IfMatch = Annotated[
    str | None,
    Header(
        description="Entity tag of the version that is to be replaced.",
        max_length=40,
        pattern=r'^(\*|"[0-9]{1,9}")$',
        examples=['"3"'],
    ),
]

router = APIRouter(prefix="/v1", tags=["Assemblies"], route_class=StrictRoute)


@router.put(
    "/assemblies/stored/{name}",
    operation_id="store_assembly",
    summary="Keep an assembly under watch",
    response_model=StoringOutcome,
    responses={
        201: {"model": StoringOutcome, "description": "It was not stored before."},
        **openapi_responses(
            UnknownReleaseError,
            InvalidInquiryError,
            InconsistentRequestError,
            UnreadableFileError,
            VersionMismatchError,
            *KEY_ERRORS,
            with_body=True,
        ),
    },
    openapi_extra={**needs(Scope.ASSEMBLIES), **keyed()},
)
async def store_assembly(
    request: Request, name: Name, assembly: AssemblyRequest, if_match: IfMatch = None
) -> Response:
    """Store or replace an assembly and have it judged.

    It is judged again whenever a release can change what was said about it; changed verdicts are lines of
    `/v1/changes` and go to webhooks.
    """
    return await once(request, lambda: _store(request, name, assembly, if_match))


@router.get(
    "/assemblies/stored",
    operation_id="list_stored_assemblies",
    summary="List the assemblies under watch",
    response_model=StoredPage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def list_stored_assemblies(request: Request, query: Annotated[StoredQuery, Query()]) -> Response:
    """List the stored assemblies of the caller's tenant, the oldest first."""
    document = await run_in_threadpool(_page, request, query)
    return page_reply(canonical(document), {"next": document["next"]})


@router.get(
    "/assemblies/stored/{name}",
    operation_id="get_stored_assembly",
    summary="Get an assembly under watch",
    response_model=StoredAssemblyWithBody,
    responses=openapi_responses(UnknownStoredAssemblyError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_stored_assembly(request: Request, name: Name) -> Response:
    """Give what was stored, and the last report in brief."""
    return await run_in_threadpool(_told, request, name)


@router.get(
    "/assemblies/stored/{name}/report",
    operation_id="get_stored_report",
    summary="Get the last report on an assembly",
    response_model=AssemblyReport,
    responses=openapi_responses(UnknownStoredAssemblyError, NotJudgedYetError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_stored_report(request: Request, name: Name) -> Response:
    """Give the last report in full, as it was made."""
    return await run_in_threadpool(_report, request, name)


@router.delete(
    "/assemblies/stored/{name}",
    operation_id="remove_stored_assembly",
    summary="Take an assembly off the watch",
    status_code=204,
    response_class=Response,
    responses=openapi_responses(UnknownStoredAssemblyError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def remove_stored_assembly(request: Request, name: Name) -> Response:
    """Forget an assembly; that its verdicts are withdrawn stays in `/v1/changes`."""
    await run_in_threadpool(_remove, request, name)
    return Response(status_code=204, headers=NO_STORE)


async def _store(request: Request, name: str, assembly: AssemblyRequest, if_match: str | None) -> Response:
    query = CheckQuery()
    release = await release_for(request, release_label(assembly, query))
    policies = HousePolicies(services(request).database, principal(request).tenant_id)

    def check_that_it_can_be_read() -> None:
        assembly_of(assembly, query, release.catalogue)
        policies.of(assembly)

    await anyio.to_thread.run_sync(check_that_it_can_be_read, limiter=services(request).batches)
    body = orjson.loads(await request.body())
    stored, job = await run_in_threadpool(_put, request, name, body, if_match)
    is_new = stored.version == 1
    headers = {**NO_STORE, "ETag": quoted(str(stored.version)), "Location": f"{PATH}/{name}"}
    document = {"assembly": _document(stored, None), "job": job_document(job)}
    return Response(canonical(document), 201 if is_new else 200, headers, JSON)


def _put(request: Request, name: str, body: dict[str, Any], if_match: str | None) -> tuple[Stored, Job]:
    caller, work = principal(request), services(request).work
    with services(request).database.writing() as session:
        assemblies = AssembliesRepository(session)
        known = assemblies.find(caller.tenant_id, name)
        version = known.version if known else 0
        if not may_replace(if_match, str(version)):
            raise VersionMismatchError(version)
        if known is None:
            stored = assemblies.add(caller.tenant_id, name, body)
        else:
            try:
                stored = assemblies.replace(known.id, body, version=known.version)
            except StaleVersionError as error:
                raise VersionMismatchError(known.version + 1) from error
        _audit(session, request, "assembly.stored", stored)
        return stored, work.portfolio.submit_one(session, work.queue, stored, by=caller.key_id)


def _page(request: Request, query: StoredQuery) -> dict[str, Any]:
    with cursors_of("the list of stored assemblies"), services(request).database.reading() as session:
        assemblies = AssembliesRepository(session)
        page = assemblies.page(principal(request).tenant_id, limit=query.limit, cursor=query.cursor or "")
        items = [_document(stored, assemblies.summary(stored.id)) for stored in page.items]
    following = page_address(PATH, {"limit": query.limit}, page.next_cursor) if page.next_cursor else None
    return {"items": items, "next": following}


def _told(request: Request, name: str) -> Response:
    with services(request).database.reading() as session:
        assemblies = AssembliesRepository(session)
        stored = _found(assemblies, request, name)
        document = _document(stored, assemblies.summary(stored.id)) | {"body": assemblies.body(stored.id)}
    headers = {**NO_STORE, "ETag": quoted(str(stored.version))}
    return Response(canonical(document), headers=headers, media_type=JSON)


def _report(request: Request, name: str) -> Response:
    with services(request).database.reading() as session:
        assemblies = AssembliesRepository(session)
        report = assemblies.report(_found(assemblies, request, name).id)
    if report is None:
        raise NotJudgedYetError(name)
    return Response(report, headers=NO_STORE, media_type=JSON)


def _remove(request: Request, name: str) -> None:
    with services(request).database.writing() as session:
        stored = _found(AssembliesRepository(session), request, name)
        remove(session, stored)
        _audit(session, request, "assembly.removed", stored)


def _found(assemblies: AssembliesRepository, request: Request, name: str) -> Stored:
    stored = assemblies.find(principal(request).tenant_id, name)
    if stored is None:
        raise UnknownStoredAssemblyError(name)
    return stored


def _audit(session: WriteSession, request: Request, action: str, stored: Stored) -> None:
    facts = {"name": stored.name, "version": stored.version}
    AuditRepository(session).append(principal(request).key_id, action, "assembly", stored.id, **facts)


def _document(stored: Stored, summary: Any) -> dict[str, Any]:
    return {
        "name": stored.name,
        "version": stored.version,
        "joints": stored.joints,
        "verdict": summary["verdict"] if summary else None,
        "totals": summary["totals"] if summary else None,
        "release": stored.release_label,
        "holds_under": stored.holds_under,
        "stored_policy": summary.get("stored_policy") if summary else None,
        "created_at": stored.created_at,
        "updated_at": stored.updated_at,
        "report": f"{PATH}/{stored.name}/report" if stored.release_label else None,
    }
