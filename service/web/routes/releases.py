"""Published states of the knowledge base."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

from fastapi import APIRouter, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.catalogue.difference import diff
from service.judgement import ENGINE_VERSION
from service.storage.carrying import archive_bytes, archive_name
from service.storage.engine import Database, ReadSession
from service.storage.errors import ReleaseLabelTakenError, UnknownReleaseError
from service.storage.offline import file_bytes, file_name
from service.storage.releases import list_releases
from service.storage.repositories.pages import Page
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository
from service.web.conditional import is_match, quoted, repr_digest
from service.web.curation_errors import UnusableReleaseError
from service.web.errors import BadCursorError
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.operations import JSON
from service.web.pagination import cursors_of, link_header, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.publishing import members, preview_release, publish_release
from service.web.releases import published_release
from service.web.replies import FOR_EVER, NO_STORE, PINNED, VARY, reply, tag_of
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.releases import (
    DifferenceQuery,
    ExportQuery,
    Publication,
    PublicationPreview,
    PublicationRequest,
    Release,
    ReleaseDifference,
    ReleasePage,
    ReleaseQuery,
)
from service.web.state import services

Label = Annotated[str, Path(description="Label of the release.", max_length=64, examples=["2026.11.25-1"])]

PATH = "/v1/releases"
GZIP, ZIP = "application/gzip", "application/zip"

router = APIRouter(prefix="/v1", tags=["Releases"], route_class=StrictRoute)


@router.get(
    "/releases",
    operation_id="list_releases",
    summary="List releases",
    response_model=ReleasePage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.READ),
)
async def list_all(request: Request, query: Annotated[ReleaseQuery, Query()]) -> Response:
    """List the releases, the newest first."""
    page = await run_in_threadpool(_page, services(request).database, query)
    items = [members(info) for info in page.items]
    links = {"first": page_address(PATH, {"limit": query.limit})}
    if page.next_cursor:
        links["next"] = page_address(PATH, {"limit": query.limit}, page.next_cursor)
    document = {"items": items, "next": links.get("next")}
    return reply(
        request,
        tag_of(ENGINE_VERSION, document),
        lambda: canonical(document),
        headers={"Link": link_header(links)},
    )


@router.post(
    "/releases",
    operation_id="publish_release",
    summary="Publish what is approved",
    status_code=201,
    response_model=Publication,
    responses={
        200: {"model": Publication, "description": "Nothing had changed: the current release again."},
        **openapi_responses(ReleaseLabelTakenError, UnusableReleaseError, *KEY_ERRORS, with_body=True),
    },
    openapi_extra={**needs(Scope.PUBLISH), **keyed()},
)
async def publish_approved(request: Request, wanted: PublicationRequest) -> Response:
    """Bring every approved proposal that fits into the knowledge base and publish it as a release.

    A proposal whose record has changed since it was made is left out, as is one whose record would name
    what is not there. This process answers by the new release at once, others within seconds.
    """

    def work() -> Response:
        document = publish_release(request, wanted.label, wanted.note)
        headers = {**NO_STORE, "Location": f"{PATH}/{document['release']['label']}"}
        return Response(canonical(document), 201 if document["is_new"] else 200, headers, JSON)

    return await once(request, lambda: run_in_threadpool(work))


@router.get(
    "/publication",
    operation_id="preview_publication",
    summary="See what would be published",
    response_model=PublicationPreview,
    responses=openapi_responses(UnusableReleaseError),
    openapi_extra=needs(Scope.PUBLISH),
)
async def preview_publication(request: Request) -> Response:
    """Tell which approved proposals would come out, what would differ, and what stored work it can touch."""
    document = await run_in_threadpool(preview_release, request)
    return Response(canonical(document), headers=NO_STORE, media_type=JSON)


@router.get(
    "/releases/{label}",
    operation_id="get_release",
    summary="Get one release",
    response_model=Release,
    responses=openapi_responses(UnknownReleaseError),
    openapi_extra=needs(Scope.READ),
)
async def get_release(request: Request, label: Label) -> Response:
    """Tell who published a release, when, and what its content hash is."""
    info = await run_in_threadpool(_find, services(request).database, label)
    return reply(
        request,
        tag_of(ENGINE_VERSION, info.content_hash, label),
        lambda: canonical(members(info)),
        cache_control=PINNED,
    )


@router.get(
    "/releases/{label}/export",
    operation_id="export_release",
    summary="Carry a release away",
    response_class=Response,
    responses={
        200: {
            "description": "The release, the same bytes from every server that has it.",
            "content": {
                GZIP: {"schema": {"type": "string", "format": "binary", "description": "One file."}},
                ZIP: {"schema": {"type": "string", "format": "binary", "description": "A data package."}},
            },
        },
        **openapi_responses(UnknownReleaseError),
    },
    openapi_extra=needs(Scope.READ),
)
async def export_release(request: Request, label: Label, query: Annotated[ExportQuery, Query()]) -> Response:
    """Give a release for another server: `faying release import` takes either form.

    A private overlay is no part of it.
    """
    is_file = query.form == "file"
    write, name = (file_bytes, file_name(label)) if is_file else (archive_bytes, archive_name(label))
    info = await run_in_threadpool(_find, services(request).database, label)
    etag = quoted(tag_of(info.content_hash, query.form))
    headers = {"ETag": etag, "Cache-Control": FOR_EVER, "Vary": VARY}
    if is_match(request.headers.get("if-none-match"), etag):
        return Response(status_code=304, headers=headers)
    body = await run_in_threadpool(_written, services(request).database, label, write)
    headers |= {"Content-Disposition": f'attachment; filename="{name}"', "Repr-Digest": repr_digest(body)}
    return Response(body, headers=headers, media_type=GZIP if is_file else ZIP)


@router.get(
    "/releases/{label}/difference",
    operation_id="compare_releases",
    summary="Compare a release with an earlier one",
    response_model=ReleaseDifference,
    responses=openapi_responses(UnknownReleaseError),
    openapi_extra=needs(Scope.READ),
)
async def compare_releases(
    request: Request, label: Label, query: Annotated[DifferenceQuery, Query()]
) -> Response:
    """List every field that changed between two releases, and the records that came or went."""
    before = await published_release(request, query.since)
    after = await published_release(request, label)
    changes = await run_in_threadpool(diff, before.catalogue, after.catalogue)
    kept = [change for change in changes if query.table in {None, change.table}]
    document = {"before": before.label, "after": after.label, "count": len(kept), "changes": kept}
    return reply(
        request,
        tag_of(ENGINE_VERSION, before.content_hash, after.content_hash, query.table),
        lambda: canonical(document),
        cache_control=PINNED,
    )


def _page(database: Database, query: ReleaseQuery) -> Page[ReleaseInfo]:
    with cursors_of("the list of releases"), database.reading() as session:
        return list_releases(session, limit=query.limit, cursor=query.cursor or "")


def _written(database: Database, label: str, write: Callable[[ReadSession, str], bytes]) -> bytes:
    with database.reading() as session:
        return write(session, label)


def _find(database: Database, label: str) -> ReleaseInfo:
    with database.reading() as session:
        info = ReleasesRepository(session).find(label)
    if info is None:
        raise UnknownReleaseError(label)
    return info
