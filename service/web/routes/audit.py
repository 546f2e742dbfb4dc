"""The audit trail: who did what."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.storage.repositories.audit import AuditRepository, Viewer
from service.web.errors import BadCursorError
from service.web.pagination import cursors_of, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.audit import AuditPage, AuditQuery
from service.web.state import principal, services

PATH = "/v1/audit"

router = APIRouter(prefix="/v1", tags=["Curation"], route_class=StrictRoute)


@router.get(
    "/audit",
    operation_id="list_audit",
    summary="Read the audit trail",
    response_model=AuditPage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.AUDIT),
)
async def list_audit(request: Request, query: Annotated[AuditQuery, Query()]) -> Response:
    """List steps, the newest first: those on the shared knowledge base and those of the caller's tenant.

    The database itself refuses to change or delete a line.
    """
    document = await run_in_threadpool(_page, request, query)
    return page_reply(canonical(document), {"next": document["next"]})


def _page(request: Request, query: AuditQuery) -> dict[str, Any]:
    filters = query.model_dump(exclude={"limit", "cursor"}, exclude_none=True)
    caller = principal(request)
    viewer = Viewer(caller.tenant_id, caller.key_id)
    with cursors_of("the audit trail"), services(request).database.reading() as session:
        audit = AuditRepository(session)
        found = audit.page(limit=query.limit, cursor=query.cursor or "", viewer=viewer, **filters)
    address = {**filters, "limit": query.limit}
    following = page_address(PATH, address, found.next_cursor) if found.next_cursor else None
    return {"items": [asdict(line) for line in found.items], "next": following}
