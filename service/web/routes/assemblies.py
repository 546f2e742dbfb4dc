"""Whole assemblies and substitutes: the integrations of product data and purchasing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Annotated, TypeVar

import anyio
from fastapi import APIRouter, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.assemblies.template import columns_document, template, template_workbook
from service.judgement import InvalidInquiryError
from service.storage.errors import UnknownReleaseError
from service.web.allowances import take_weight
from service.web.assembly_checks import Checking
from service.web.assembly_requests import (
    Asked,
    assembly_of,
    release_label,
    substitutes_of,
    waivers_in,
)
from service.web.errors import InconsistentRequestError, UnreadableFileError
from service.web.house_policies import Decider, HousePolicies
from service.web.operations import JSON
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import MUST_ASK_AGAIN, NO_STORE
from service.web.representation import canonical
from service.web.schemas.assemblies import (
    AssemblyFields,
    AssemblyRequest,
    CheckQuery,
    ReportFormat,
    SubstitutionRequest,
    TemplateQuery,
)
from service.web.schemas.assembly_reports import AssemblyCheck
from service.web.schemas.substitutions import SubstitutionCheck
from service.web.state import principal, services
from service.web.uploads import CSV, XLSX, UploadRoute, uploads_described

Result = TypeVar("Result")

JOINTS_PER_REQUEST = 100
"""Joints or parts that weigh as much as one request in a caller's allowance."""

FILES = {
    CSV: {"schema": {"type": "string", "description": "The joints as a table, worst first."}},
    XLSX: {"schema": {"type": "string", "format": "binary", "description": "A workbook."}},
}

PROBLEMS = openapi_responses(
    UnknownReleaseError, InvalidInquiryError, InconsistentRequestError, UnreadableFileError, with_body=True
)

router = APIRouter(prefix="/v1", tags=["Assemblies"], route_class=UploadRoute)


@router.get(
    "/assemblies/template",
    operation_id="get_assembly_template",
    summary="Get a table to fill in",
    response_class=Response,
    responses={
        200: {
            "description": "Headings with an example, or what every column means.",
            "content": {**FILES, JSON: {"schema": {"type": "object", "description": "Columns by table."}}},
        },
        **openapi_responses(),
    },
    openapi_extra=needs(Scope.READ),
)
async def get_assembly_template(query: Annotated[TemplateQuery, Query()]) -> Response:
    """Give our own headings with an example.

    Tables of other programs need not look like this: headings of the trade are recognised in English
    and six other languages, with units, and the JSON form lists them all. A column of materials or names
    under a strange heading is told by its cells.
    """
    headers = {"Cache-Control": MUST_ASK_AGAIN}
    if query.format is ReportFormat.JSON:
        return Response(canonical(columns_document()), headers=headers, media_type=JSON)
    if query.format is ReportFormat.XLSX:
        content = await anyio.to_thread.run_sync(template_workbook)
        media_type, name = XLSX, "assembly.xlsx"
    else:
        content, media_type, name = template(query.table), CSV, f"{query.table}.csv"
    headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return Response(content, headers=headers, media_type=media_type)


@router.post(
    "/assemblies/check",
    operation_id="check_assembly",
    summary="Check a bill of materials",
    response_model=AssemblyCheck,
    responses={200: {"content": FILES}, **PROBLEMS},
    openapi_extra={**needs(Scope.ASSEMBLIES), **uploads_described()},
)
async def check_assembly(
    request: Request, query: Annotated[CheckQuery, Query()], assembly: AssemblyRequest
) -> Response:
    """Judge every joint of an assembly, its networks, and where it stands against policy.

    Parts with joints as JSON, or files: CSV, XLSX, JSON or NDJSON, one as the body or several in a form.
    A list without joints is judged by assumed contacts, and at both ends of areas that nobody states.
    """
    release = await release_for(request, release_label(assembly, query))
    asked = await _in_turn(request, lambda: assembly_of(assembly, query, release.catalogue))
    _take_allowance(request, asked)
    decider, waivers = await _decider(request, assembly, query.stored_policy), waivers_in(assembly)
    today = assembly.date or dt.datetime.now(dt.UTC).date()
    checking = Checking(release.catalogue, principal(request).tenant_id, services(request).answers)
    body, media_type = await _in_turn(
        request, lambda: checking.report(asked, decider, waivers, today, query.format)
    )
    return Response(body, headers=NO_STORE, media_type=media_type)


@router.post(
    "/substitutions/check",
    operation_id="check_substitution",
    summary="Check substitutes for a part",
    response_model=SubstitutionCheck,
    responses=PROBLEMS,
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def check_substitution(request: Request, substitution: SubstitutionRequest) -> Response:
    """Say joint by joint what a substitute changes, and accept, review or reject it by the house's rules."""
    query = CheckQuery()
    release = await release_for(request, release_label(substitution, query))
    asked = await _in_turn(request, lambda: assembly_of(substitution, query, release.catalogue))
    _take_allowance(request, asked)
    decider, offered = await _decider(request, substitution), substitutes_of(substitution)
    checking = Checking(release.catalogue, principal(request).tenant_id, services(request).answers)
    body = await _in_turn(request, lambda: checking.comparison(asked, substitution.part, offered, decider))
    return Response(body, headers=NO_STORE, media_type=JSON)


async def _in_turn(request: Request, work: Callable[[], Result]) -> Result:
    """Work in a thread; large work of one process takes turns, so that lookups find room."""
    return await anyio.to_thread.run_sync(work, limiter=services(request).batches)


async def _decider(request: Request, asked: AssemblyFields, otherwise: str | None = None) -> Decider:
    policies = HousePolicies(services(request).database, principal(request).tenant_id)
    return await run_in_threadpool(policies.of, asked, otherwise or "")


def _take_allowance(request: Request, asked: Asked) -> None:
    size = max(len(asked.assembly.joints), len(asked.assembly.parts))
    take_weight(request, size // JOINTS_PER_REQUEST)
