"""Proposals as pages: what is open, what was said, and what whoever signed in may do about it."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool
from starlette.responses import RedirectResponse

from service.access.scopes import Scope
from service.catalogue.tables import KEYS
from service.curation import Decision, State
from service.web import proposals
from service.web.errors import Fault, InvalidRequestError
from service.web.pages.forms import texts_of
from service.web.pages.rendering import page
from service.web.pages.serving import PageRoute
from service.web.pages.shown_records import TABLES
from service.web.state import principal

router = APIRouter(include_in_schema=False, route_class=PageRoute)
PAGE_SIZE = 50


@router.get("/proposals")
async def show_proposals(request: Request) -> Response:
    """List the proposals in a state, the open ones unless another is asked for."""
    principal(request).require(Scope.READ)
    asked = request.query_params.get("state", State.OPEN)
    state = State(asked) if asked in set(State) else State.OPEN
    cursor = request.query_params.get("cursor", "")
    found = await run_in_threadpool(proposals.page, request, limit=PAGE_SIZE, cursor=cursor, state=state)
    return page(
        request,
        "proposals.html",
        items=[proposals.document(each) for each in found.items],
        state=state.value,
        states=[each.value for each in State],
        next_cursor=found.next_cursor,
        tables=TABLES,
    )


@router.get("/proposals/{proposal_id}")
async def show_proposal(request: Request, proposal_id: str) -> Response:
    """Show a proposal, what was said of it, and forms for what this visitor may do."""
    principal(request).require(Scope.READ)
    found = await run_in_threadpool(proposals.detail, request, proposal_id)
    return page(request, "proposal.html", proposal=found, record=_record(found), **_may(request, found))


@router.post("/proposals/{proposal_id}/comments")
async def comment(request: Request, proposal_id: str) -> Response:
    """Remark on a proposal."""
    principal(request).require(Scope.PROPOSE)
    text = (await texts_of(request)).get("text", "")
    await run_in_threadpool(proposals.add_comment, request, proposal_id, text)
    return _back(proposal_id)


@router.post("/proposals/{proposal_id}/review")
async def review(request: Request, proposal_id: str) -> Response:
    """Approve or reject a proposal."""
    principal(request).require(Scope.REVIEW)
    given = await texts_of(request)
    word, text = given.get("decision", ""), given.get("text", "")
    if word not in set(Decision):
        fault = Fault("body", "/decision", "unknown", "Approve or reject.", tuple(Decision))
        raise InvalidRequestError(fault)
    await run_in_threadpool(proposals.decide, request, proposal_id, Decision(word), text)
    return _back(proposal_id)


@router.post("/proposals/{proposal_id}/retraction")
async def retract(request: Request, proposal_id: str) -> Response:
    """Take back a proposal of one's own."""
    principal(request).require(Scope.PROPOSE)
    reason = (await texts_of(request)).get("reason", "")
    await run_in_threadpool(proposals.retract, request, proposal_id, reason)
    return _back(proposal_id)


def _back(proposal_id: str) -> Response:
    return RedirectResponse(f"/proposals/{proposal_id}", 303)


def _record(found: dict[str, Any]) -> dict[str, str]:
    """The record that a proposal is about; one that is new has no page yet."""
    table, key = found["table"], ", ".join(found["key"])
    has_page = table in TABLES and KEYS[table] == ("id",) and found["kind"] != "add"
    address = f"/knowledge/{table}/{key}" if has_page else ""
    return {"name": f"{TABLES.get(table, table)}: {key}", "address": address}


def _may(request: Request, found: dict[str, Any]) -> dict[str, Any]:
    caller = principal(request)
    is_own = found["proposed_by"] == caller.key_id
    is_open = found["state"] == State.OPEN
    return {
        "is_own": is_own,
        "may_comment": Scope.PROPOSE in caller.scopes,
        "may_review": is_open and not is_own and Scope.REVIEW in caller.scopes,
        "may_retract": is_own and found["state"] in {State.OPEN, State.APPROVED},
    }
