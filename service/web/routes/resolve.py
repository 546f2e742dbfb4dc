"""Reading of drawing texts."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.storage.errors import UnknownReleaseError
from service.web.allowances import take_weight
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.readings import read_texts
from service.web.releases import release_for
from service.web.replies import JSON
from service.web.routing import StrictRoute
from service.web.schemas.resolve import ResolveRequest, ResolveResponse

TEXTS_PER_REQUEST = 100
"""Texts that weigh as much as one request in a caller's allowance."""

router = APIRouter(prefix="/v1", tags=["Surfaces"], route_class=StrictRoute)


@router.post(
    "/resolve",
    operation_id="resolve_texts",
    summary="Read drawing texts",
    response_model=ResolveResponse,
    responses=openapi_responses(UnknownReleaseError, with_body=True),
    openapi_extra=needs(Scope.JUDGE),
)
async def resolve_texts(request: Request, query: ResolveRequest) -> Response:
    """Read up to 10,000 texts: material, finish stack, thickness and condition, and how sure that is.

    A text that means nothing known is `unknown` with near names; one that means several things is
    `ambiguous` with all of them. Beyond the first hundred, each further hundred texts count as a request.
    """
    take_weight(request, len(query.texts) // TEXTS_PER_REQUEST)
    release = await release_for(request, query.as_of)
    body = await run_in_threadpool(read_texts, query.texts, release)
    return Response(body, headers={"Cache-Control": "no-store"}, media_type=JSON)
