"""Proposing a change from the page of a record."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool
from starlette.responses import RedirectResponse

from service.access.scopes import Scope
from service.catalogue.tables import KEYS, TABLES
from service.storage.repositories.knowledge import KnowledgeRepository
from service.web import proposals
from service.web.errors import Fault, InvalidRequestError, NoSuchRecordError
from service.web.nearness import nearest
from service.web.pages.editing import changed, controls
from service.web.pages.forms import texts_of
from service.web.pages.rendering import page
from service.web.pages.serving import PageRoute
from service.web.pages.shown_records import TABLES as TITLES
from service.web.pages.visitors import ANYBODY, SignInNeededError
from service.web.state import principal, services

router = APIRouter(include_in_schema=False, route_class=PageRoute)
NEW = "new"
_UNUSABLE = 422


@router.get("/knowledge/{table}/new")
async def show_new(request: Request, table: str) -> Response:
    """Show a form for a new record."""
    _check(request, table)
    return _form(request, table, None, {}, {})


@router.post("/knowledge/{table}/new")
async def propose_new(request: Request, table: str) -> Response:
    """Propose a new record."""
    _check(request, table)
    return await _proposed(request, table, None, None)


@router.get("/knowledge/{table}/{record_id}/propose")
async def show_change(request: Request, table: str, record_id: str) -> Response:
    """Show a record as a form."""
    _check(request, table)
    row = await run_in_threadpool(_row, request, table, record_id)
    return _form(request, table, row, {}, {})


@router.post("/knowledge/{table}/{record_id}/propose")
async def propose_change(request: Request, table: str, record_id: str) -> Response:
    """Propose other values for some fields."""
    _check(request, table)
    row = await run_in_threadpool(_row, request, table, record_id)
    return await _proposed(request, table, record_id, row)


@router.post("/knowledge/{table}/{record_id}/withdraw")
async def propose_withdrawal(request: Request, table: str, record_id: str) -> Response:
    """Propose that a record be used no longer."""
    _check(request, table)
    reason = (await texts_of(request)).get("reason", "")
    made = await run_in_threadpool(proposals.make_withdrawal, request, table, [record_id], reason)
    return RedirectResponse(f"/proposals/{made.id}", 303)


async def _proposed(
    request: Request, table: str, record_id: str | None, row: Mapping[str, Any] | None
) -> Response:
    given = await texts_of(request)
    fields, reason = changed(table, row, given), given.get("reason", "")
    key = None if record_id is None else [record_id]
    try:
        if not fields:
            fault = Fault("body", "/record/", "missing", "Change at least one field.")
            raise InvalidRequestError(fault)  # noqa: TRY301 - told on the form like the others
        made = await run_in_threadpool(proposals.make, request, table, key, fields, reason)
    except InvalidRequestError as error:
        return _form(request, table, row, given, {each.pointer: _told(each) for each in error.faults})
    return RedirectResponse(f"/proposals/{made.id}", 303)


def _form(
    request: Request,
    table: str,
    row: Mapping[str, Any] | None,
    given: Mapping[str, str],
    faults: Mapping[str, str],
) -> Response:
    of_fields = {pointer.removeprefix("/record/"): told for pointer, told in faults.items()}
    names = {field.name for field in dataclasses.fields(TABLES[table])}
    return page(
        request,
        "propose.html",
        status=_UNUSABLE if faults else 200,
        table=table,
        title=TITLES[table],
        record_id="" if row is None else str(row["id"]),
        controls=controls(table, row, given, of_fields),
        reason=given.get("reason", ""),
        reason_fault=of_fields.get("/reason", ""),
        other_faults=[told for name, told in of_fields.items() if name not in {*names, "/reason"}],
    )


def _told(fault: Fault) -> str:
    near = f" Did you mean {', '.join(fault.suggestions)}?" if fault.suggestions else ""
    return f"{fault.detail}{near}"


def _check(request: Request, table: str) -> None:
    if principal(request) is ANYBODY:
        raise SignInNeededError
    principal(request).require(Scope.PROPOSE)
    if table not in TITLES or KEYS[table] != ("id",):
        raise NoSuchRecordError("knowledge", table, nearest(table, TITLES))


def _row(request: Request, table: str, record_id: str) -> Mapping[str, Any]:
    """The record as it is worked on, which may be newer than the current release."""
    with services(request).database.reading() as session:
        row = KnowledgeRepository(session).find(table, record_id)
    if row is None:
        raise NoSuchRecordError(table, record_id, ())
    return row
