"""The service about itself: health, readiness, limits and its own document."""

from __future__ import annotations

import anyio
from fastapi import APIRouter, Request, Response

from service.access.scopes import Scope
from service.judgement import ENGINE_VERSION
from service.settings import Settings
from service.web.batch_input import MAX_COUPLES
from service.web.pagination import MAX_PAGE_SIZE
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.readiness import database_check, release_check
from service.web.replies import JSON, reply, tag_of
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.resolve import MAX_TEXTS
from service.web.schemas.service import Health, Readiness, ServiceLimits
from service.web.schemas.surfaces import MAX_TEXT
from service.web.state import services

NO_STORE = {"Cache-Control": "no-store"}
DATABASE_PATIENCE_S = 2.0

router = APIRouter(tags=["Service"], route_class=StrictRoute)


@router.get("/healthz", operation_id="check_health", summary="Is the process alive?", response_model=Health)
async def check_health(_request: Request) -> Response:
    """Answer as long as the process runs, whatever else is wrong."""
    return Response(b'{"status":"alive"}', headers=NO_STORE, media_type=JSON)


@router.get(
    "/readyz",
    operation_id="check_readiness",
    summary="Can it answer?",
    response_model=Readiness,
    responses={503: {"model": Readiness, "description": "Something is missing; the checks say what."}},
)
async def check_readiness(request: Request) -> Response:
    """Say whether a release is open and the database answers, and what is missing if not.

    Without its database the service is `degraded`: it answers from the release in memory and refuses
    what has to be written.
    """
    held = services(request)
    release = release_check(held.shelf)
    database = {"name": "database", "is_ready": False, "detail": "does not answer in time"}
    with anyio.move_on_after(DATABASE_PATIENCE_S):
        database = await anyio.to_thread.run_sync(database_check, held.database, abandon_on_cancel=True)
    status = "not ready" if not release["is_ready"] else "ready" if database["is_ready"] else "degraded"
    body = canonical({"status": status, "checks": [release, database]})
    return Response(body, 503 if status == "not ready" else 200, NO_STORE, JSON)


@router.get(
    "/v1/limits",
    operation_id="get_limits",
    summary="Get the limits of the service",
    response_model=ServiceLimits,
    responses=openapi_responses(),
    openapi_extra=needs(Scope.READ),
)
async def get_limits(request: Request) -> Response:
    """Tell how large and how frequent requests may be.

    Published limits on potential differences are at `/v1/permissible-differences`.
    """
    document = limits_of(services(request).settings)
    return reply(request, tag_of(ENGINE_VERSION, document), lambda: canonical(document))


def limits_of(settings: Settings) -> dict[str, object]:
    """Return the limits that an installation has chosen, with the fixed ones."""
    return {
        "request_body_bytes": settings.max_body_bytes,
        "batch_bytes": settings.max_batch_bytes,
        "batch_couples": MAX_COUPLES,
        "request_target_bytes": settings.max_target_bytes,
        "json_depth": settings.max_json_depth,
        "page_size": MAX_PAGE_SIZE,
        "resolve_texts": MAX_TEXTS,
        "text_characters": MAX_TEXT,
        "requests_per_minute": settings.requests_per_minute,
        "request_burst": settings.request_burst,
        "key_revocation_s": settings.key_cache_s,
    }
