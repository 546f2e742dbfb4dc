"""The private overlay of the caller's tenant."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Header, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.web import overlays
from service.web.conditional import quoted
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.operations import JSON
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import NO_STORE
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.overlays import HASH, OverlayChange, OverlayDocument, OverlayReplacement
from service.web.work_errors import VersionMismatchError

IfMatch = Annotated[
    str | None,
    Header(
        description="Entity tag of the overlay that is to be changed.",
        max_length=70,
        pattern=r'^(\*|"(none|[0-9a-f]{64})")$',
        examples=[f'"{HASH}"'],
    ),
]

router = APIRouter(prefix="/v1", tags=["Overlay"], route_class=StrictRoute)


@router.get(
    "/overlay",
    operation_id="get_overlay",
    summary="Get the own overlay",
    response_model=OverlayDocument,
    responses=openapi_responses(),
    openapi_extra=needs(Scope.TENANT),
)
async def get_overlay(request: Request) -> Response:
    """Show what the caller's tenant lays on top of every release; nobody else can see it."""
    return _answer(await run_in_threadpool(overlays.shown, request))


@router.put(
    "/overlay",
    operation_id="replace_overlay",
    summary="Replace the own overlay",
    response_model=OverlayDocument,
    responses=openapi_responses(VersionMismatchError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.TENANT), **keyed()},
)
async def replace_overlay(request: Request, wanted: OverlayReplacement, if_match: IfMatch = None) -> Response:
    """Put new rows in the place of all that are there; no rows mean no overlay.

    It is in force for every query of the tenant at once, on other processes within seconds, also for
    queries `as_of` an earlier release. It is checked against the current release.
    """

    def work() -> Response:
        return _answer(overlays.replaced(request, wanted, if_match))

    return await once(request, lambda: run_in_threadpool(work))


@router.post(
    "/overlay/changes",
    operation_id="change_overlay",
    summary="Change rows of the own overlay",
    response_model=OverlayDocument,
    responses=openapi_responses(VersionMismatchError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.TENANT), **keyed()},
)
async def change_overlay(request: Request, wanted: OverlayChange, if_match: IfMatch = None) -> Response:
    """Take rows away and put others, together or not at all: a material with the names drawings give it."""

    def work() -> Response:
        return _answer(overlays.changed(request, wanted, if_match))

    return await once(request, lambda: run_in_threadpool(work))


def _answer(document: dict[str, Any]) -> Response:
    headers = {
        **NO_STORE,
        "ETag": quoted(overlays.tag(document["overlay_hash"])),
    }
    return Response(canonical(document), headers=headers, media_type=JSON)
