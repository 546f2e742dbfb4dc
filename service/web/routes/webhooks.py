"""Webhooks: who is told of changes, and what became of the telling."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.jobs.errors import ForbiddenAddressError
from service.jobs.signatures import new_secret
from service.storage.engine import WriteSession
from service.storage.errors import NotStoredError
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.webhooks import Webhook as StoredWebhook
from service.storage.repositories.webhooks import WebhooksRepository
from service.web.errors import BadCursorError
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.operations import JSON
from service.web.pagination import cursors_of, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import NO_STORE, page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.changes import (
    MAX_WEBHOOKS,
    DeliveriesQuery,
    DeliveryPage,
    NewWebhook,
    ReplayRequest,
    Webhook,
    WebhookList,
    WebhookRequest,
)
from service.web.state import principal, services
from service.web.work_errors import ForbiddenWebhookError, UnknownWebhookError

PATH = "/v1/webhooks"
WebhookId = Annotated[
    str, Path(description="Identifier of the webhook.", max_length=100, examples=["webhook_0069f3b2c1d4e5"])
]
Act = Callable[[WriteSession], StoredWebhook | None]

router = APIRouter(prefix="/v1", tags=["Changes"], route_class=StrictRoute)


@router.post(
    "/webhooks",
    operation_id="create_webhook",
    summary="Have changes sent to an address",
    status_code=201,
    response_model=NewWebhook,
    responses=openapi_responses(ForbiddenWebhookError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.ASSEMBLIES), **keyed()},
)
async def create_webhook(request: Request, webhook: WebhookRequest) -> Response:
    """Register an address. Messages are signed by Standard Webhooks with the secret of this answer.

    Each message comes at least once, with the same `webhook-id` when it comes again; what is answered
    otherwise than 2xx is tried for two days, and 410 ends it.
    """
    return await once(request, lambda: run_in_threadpool(_create, request, webhook))


@router.get(
    "/webhooks",
    operation_id="list_webhooks",
    summary="List webhooks",
    response_model=WebhookList,
    responses=openapi_responses(),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def list_webhooks(request: Request) -> Response:
    """List the webhooks of the caller's tenant, without their secrets."""
    found = await run_in_threadpool(_all, request)
    return _answer({"items": [_document(webhook) for webhook in found]})


@router.get(
    "/webhooks/{webhook_id}",
    operation_id="get_webhook",
    summary="Get one webhook",
    response_model=Webhook,
    responses=openapi_responses(UnknownWebhookError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_webhook(request: Request, webhook_id: WebhookId) -> Response:
    """Tell where a webhook stands."""
    return _answer(_document(await run_in_threadpool(_find, request, webhook_id)))


@router.delete(
    "/webhooks/{webhook_id}",
    operation_id="delete_webhook",
    summary="Remove a webhook",
    status_code=204,
    response_class=Response,
    responses=openapi_responses(UnknownWebhookError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def delete_webhook(request: Request, webhook_id: WebhookId) -> Response:
    """Stop telling an address, and forget what was due to it."""
    await run_in_threadpool(_remove, request, webhook_id)
    return Response(status_code=204, headers=NO_STORE)


@router.get(
    "/webhooks/{webhook_id}/deliveries",
    operation_id="list_webhook_deliveries",
    summary="List the messages to a webhook",
    response_model=DeliveryPage,
    responses=openapi_responses(UnknownWebhookError, BadCursorError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def list_webhook_deliveries(
    request: Request, webhook_id: WebhookId, query: Annotated[DeliveriesQuery, Query()]
) -> Response:
    """List messages, the newest first, and how sending them went."""
    document = await run_in_threadpool(_deliveries, request, webhook_id, query)
    return page_reply(canonical(document), {"next": document["next"]})


@router.post(
    "/webhooks/{webhook_id}/replay",
    operation_id="replay_webhook",
    summary="Send changes again",
    response_model=Webhook,
    responses=openapi_responses(UnknownWebhookError, with_body=True),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def replay_webhook(request: Request, webhook_id: WebhookId, replay: ReplayRequest) -> Response:
    """Send everything after a serial again, and take a webhook up that was given up."""
    return _answer(_document(await run_in_threadpool(_replay, request, webhook_id, replay)))


def _create(request: Request, wanted: WebhookRequest) -> Response:
    caller, secret = principal(request), new_secret()
    try:
        services(request).work.outbound.check(wanted.url)
    except ForbiddenAddressError as error:
        raise ForbiddenWebhookError("/url", str(error)) from error
    with services(request).database.writing() as session:
        webhooks = WebhooksRepository(session)
        if len(webhooks.list(caller.tenant_id)) >= MAX_WEBHOOKS:
            raise ForbiddenWebhookError("", f"There are {MAX_WEBHOOKS} webhooks already.")
        made = webhooks.add(
            caller.tenant_id, wanted.url, secret, dict.fromkeys(wanted.events), after_serial=wanted.after
        )
        _audit(session, request, "webhook.created", made)
    headers = {**NO_STORE, "Location": f"{PATH}/{made.id}"}
    return Response(canonical({**_document(made), "secret": secret}), 201, headers, JSON)


def _all(request: Request) -> tuple[StoredWebhook, ...]:
    with services(request).database.reading() as session:
        return WebhooksRepository(session).list(principal(request).tenant_id)


def _find(request: Request, webhook_id: str) -> StoredWebhook:
    try:
        with services(request).database.reading() as session:
            return WebhooksRepository(session).get(principal(request).tenant_id, webhook_id)
    except NotStoredError as error:
        raise UnknownWebhookError(webhook_id) from error


def _remove(request: Request, webhook_id: str) -> None:
    webhook = _find(request, webhook_id)
    with services(request).database.writing() as session:
        WebhooksRepository(session).remove(webhook.tenant_id, webhook_id)
        _audit(session, request, "webhook.removed", webhook)


def _deliveries(request: Request, webhook_id: str, query: DeliveriesQuery) -> dict[str, Any]:
    _find(request, webhook_id)
    with cursors_of("the messages of this webhook"), services(request).database.reading() as session:
        page = WebhooksRepository(session).deliveries(
            webhook_id, state=query.state or "", limit=query.limit, cursor=query.cursor or ""
        )
    items = [
        {
            "id": each.id,
            "serial": each.change_serial,
            "state": each.state,
            "attempts": each.attempts,
            "due_at": each.due_at,
            "last_status": each.last_status,
            "last_error": each.last_error,
            "delivered_at": each.delivered_at,
        }
        for each in page.items
    ]
    filters = {"state": query.state, "limit": query.limit}
    address = f"{PATH}/{webhook_id}/deliveries"
    following = page_address(address, filters, page.next_cursor) if page.next_cursor else None
    return {"items": items, "next": following}


def _replay(request: Request, webhook_id: str, replay: ReplayRequest) -> StoredWebhook:
    webhook = _find(request, webhook_id)
    with services(request).database.writing() as session:
        replayed = WebhooksRepository(session).replay(webhook.tenant_id, webhook_id, replay.after)
        _audit(session, request, "webhook.replayed", webhook, after=replay.after)
    return replayed


def _audit(
    session: WriteSession, request: Request, action: str, webhook: StoredWebhook, **facts: object
) -> None:
    audit = AuditRepository(session)
    audit.append(principal(request).key_id, action, "webhook", webhook.id, url=webhook.url, **facts)


def _document(webhook: StoredWebhook) -> dict[str, Any]:
    return {
        "id": webhook.id,
        "url": webhook.url,
        "events": webhook.events,
        "after": webhook.after_serial,
        "created_at": webhook.created_at,
        "disabled_at": webhook.disabled_at,
        "failures": webhook.failures,
    }


def _answer(document: dict[str, Any]) -> Response:
    return Response(canonical(document), headers=NO_STORE, media_type=JSON)
