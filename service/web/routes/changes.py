"""The feed of changes."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.web.pagination import page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.changes import ChangePage, ChangesQuery
from service.web.state import principal, services

PATH = "/v1/changes"

router = APIRouter(prefix="/v1", tags=["Changes"], route_class=StrictRoute)


@router.get(
    "/changes",
    operation_id="list_changes",
    summary="Read what has changed",
    response_model=ChangePage,
    responses=openapi_responses(),
    openapi_extra=needs(Scope.READ),
)
async def list_changes(request: Request, query: Annotated[ChangesQuery, Query()]) -> Response:
    """Give the lines of the feed after a serial: those for everybody and those of the caller's tenant.

    Serials grow and are never given twice; some are left out, because they are not the caller's. Lines
    about what is gone stay. Keep `after` and ask again.
    """
    document = await run_in_threadpool(_page, request, query)
    return page_reply(canonical(document), {"next": document["next"]})


def _page(request: Request, query: ChangesQuery) -> dict[str, Any]:
    kinds = () if "*" in query.kind else query.kind
    with services(request).database.reading() as session:
        lines = ChangesRepository(session).since(
            query.after, tenant_id=principal(request).tenant_id, kinds=kinds, limit=query.limit
        )
    after = lines[-1].serial if lines else query.after
    following = page_address(PATH, {"after": after, "limit": query.limit})
    following += "".join(f"&kind={kind}" for kind in query.kind)
    return {"items": [_line(line) for line in lines], "after": after, "next": following}


def _line(line: FeedLine) -> dict[str, Any]:
    return {
        "serial": line.serial,
        "happened_at": line.happened_at,
        "kind": line.kind,
        "subject": line.subject,
        "detail": dict(line.detail),
    }
