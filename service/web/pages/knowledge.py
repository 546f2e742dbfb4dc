"""The knowledge base as pages: every record with where it comes from and what was set aside."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.catalogue.difference import diff
from service.storage.releases import list_releases, load_export
from service.storage.repositories.releases import ReleaseInfo
from service.web.errors import NoSuchRecordError
from service.web.nearness import nearest
from service.web.pages.record_history import Row, row_in, steps
from service.web.pages.rendering import page
from service.web.pages.serving import PageRoute
from service.web.pages.shown_records import TABLES, known_as, matching, related, shown
from service.web.pages.wording import words
from service.web.releases import published_release, release_for
from service.web.state import principal, services

router = APIRouter(include_in_schema=False, route_class=PageRoute)
PAGE_SIZE = 60
_MOST_CHANGES = 500
_MOST_RELEASES = 100
_MOST_COMPARED = 12


@router.get("/knowledge")
async def show_tables(request: Request) -> Response:
    """List what the knowledge base holds, or search all of it."""
    catalogue = await _catalogue(request)
    text = request.query_params.get("q", "").strip()
    found = {table: matching(catalogue, table, text)[:8] for table in TABLES} if text else {}
    counts = {table: len(getattr(catalogue, table)) for table in TABLES}
    return page(
        request,
        "knowledge.html",
        tables=TABLES,
        counts=counts,
        text=text,
        found={table: rows for table, rows in found.items() if rows},
    )


@router.get("/knowledge/releases")
async def compare_releases(request: Request) -> Response:
    """List releases and what changed between two of them."""
    principal(request).require(Scope.READ)
    known = await run_in_threadpool(_releases, request)
    before, after = request.query_params.get("before", ""), request.query_params.get("after", "")
    changes = None
    if before and after:
        one, other = await published_release(request, before), await published_release(request, after)
        changes = await run_in_threadpool(diff, one.catalogue, other.catalogue)
    return page(
        request,
        "releases.html",
        releases=known,
        before=before,
        after=after,
        changes=changes and changes[:_MOST_CHANGES],
        count=None if changes is None else len(changes),
        tables=TABLES,
    )


@router.get("/knowledge/{table}")
async def show_table(request: Request, table: str) -> Response:
    """List the records of a table."""
    catalogue = await _catalogue(request)
    _check_table(table)
    text = request.query_params.get("q", "").strip()
    rows = matching(catalogue, table, text)
    number = int(given) if (given := request.query_params.get("page", "1")).isdecimal() else 1
    last = max(1, -(-len(rows) // PAGE_SIZE))
    number = min(max(number, 1), last)
    return page(
        request,
        "records.html",
        table=table,
        title=TABLES[table],
        tables=TABLES,
        text=text,
        count=len(rows),
        number=number,
        last=last,
        rows=rows[(number - 1) * PAGE_SIZE : number * PAGE_SIZE],
    )


@router.get("/knowledge/{table}/{record_id}")
async def show_record(request: Request, table: str, record_id: str) -> Response:
    """Show a record with its provenance and everything that belongs to it."""
    catalogue = await _catalogue(request)
    _check_table(table)
    held = getattr(catalogue, table)
    if record_id not in held:
        raise NoSuchRecordError(table, record_id, nearest(record_id, held))
    return page(
        request,
        "record.html",
        table=table,
        title=TABLES[table],
        record=shown(catalogue, table, held[record_id]),
        known_as=known_as(catalogue, record_id) if table == "materials" else [],
        sections=related(catalogue, table, held[record_id]),
    )


@router.get("/knowledge/{table}/{record_id}/history")
async def show_history(request: Request, table: str, record_id: str) -> Response:
    """Show what the latest releases changed about a record."""
    principal(request).require(Scope.READ)
    _check_table(table)
    rows = await run_in_threadpool(_rows, request, table, record_id)
    known = [row for _, row in rows if row]
    if not known:
        raise NoSuchRecordError(table, record_id, ())
    name = str(known[-1].get("name") or known[-1].get("title") or words(record_id))
    return page(
        request,
        "history.html",
        table=table,
        title=TABLES[table],
        record_id=record_id,
        name=name,
        count=len(rows),
        steps=steps(rows),
    )


def _check_table(table: str) -> None:
    if table not in TABLES:
        raise NoSuchRecordError("knowledge", table, nearest(table, TABLES))


async def _catalogue(request: Request) -> Any:
    principal(request).require(Scope.READ)
    return (await release_for(request, request.query_params.get("as_of") or None)).catalogue


def _rows(request: Request, table: str, record_id: str) -> list[tuple[ReleaseInfo, Row | None]]:
    """Return a record as each of the latest releases holds it, oldest first."""
    with services(request).database.reading() as session:
        infos = list_releases(session, limit=_MOST_COMPARED).items
        exports = (load_export(session, info.label) for info in reversed(infos))
        return [(info, row_in(export, table, record_id)) for info, export in exports]


def _releases(request: Request) -> list[Any]:
    with services(request).database.reading() as session:
        return list(list_releases(session, limit=_MOST_RELEASES).items)
