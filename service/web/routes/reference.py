"""The API reference, the OpenAPI document and the pages of problem types: open to everybody."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from service.access.scopes import Scope
from service.web.conditional import is_match, quoted
from service.web.errors import NoSuchPathError
from service.web.headers import PAGE_HEADERS
from service.web.nearness import nearest
from service.web.problems import KINDS
from service.web.reference import STYLES, render_problem, render_problems
from service.web.replies import JSON, tag_of
from service.web.representation import canonical
from service.web.state import services

HTML = "text/html"
CSS = "text/css"
KEPT = "public, max-age=300"
_POLICY = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
_KINDS = {kind.slug: kind for kind in KINDS}

router = APIRouter(include_in_schema=False)


@router.get("/docs")
async def show_reference(request: Request) -> Response:
    """List the operations of the API."""
    return _page(request, request.app.reference_pages[""], HTML)


@router.get("/docs/reference.css")
async def get_styles(request: Request) -> Response:
    """Serve the style sheet of these pages."""
    return _page(request, STYLES, CSS)


@router.get("/docs/{operation_id}")
async def show_operation(request: Request, operation_id: str) -> Response:
    """Show one operation with its parameters, body and responses."""
    pages = request.app.reference_pages
    if operation_id not in pages:
        near = tuple(f"/docs/{name}" for name in nearest(operation_id, pages))
        raise NoSuchPathError(request.url.path, near)
    return _page(request, pages[operation_id], HTML)


@router.get("/v1/openapi.json")
async def get_document(request: Request) -> Response:
    """Serve the OpenAPI document."""
    return _page(request, request.app.document_bytes, JSON)


@router.get("/.well-known/oauth-protected-resource")
async def get_token_issuer(request: Request) -> Response:
    """Tell clients whose access tokens are accepted (RFC 9728)."""
    settings = services(request).settings
    if not settings.token_issuer:
        raise NoSuchPathError(request.url.path)
    document = {
        "resource": settings.token_audience,
        "authorization_servers": [settings.token_issuer],
        "scopes_supported": [scope.value for scope in Scope],
        "bearer_methods_supported": ["header"],
    }
    return _page(request, canonical(document), JSON)


@router.get("/problems")
async def show_problems(request: Request) -> Response:
    """List the types of problems."""
    return _page(request, render_problems(), HTML)


@router.get("/problems/{slug}")
async def show_problem(request: Request, slug: str) -> Response:
    """Show what a type of problem means and what to do about it."""
    kind = _KINDS.get(slug)
    if kind is None:
        near = tuple(f"/problems/{name}" for name in nearest(slug, _KINDS))
        raise NoSuchPathError(request.url.path, near)
    return _page(request, render_problem(kind), HTML)


def _page(request: Request, body: bytes, media_type: str) -> Response:
    etag = quoted(tag_of(body.decode()))
    headers = {**PAGE_HEADERS, "ETag": etag, "Cache-Control": KEPT, "Content-Security-Policy": _POLICY}
    if is_match(request.headers.get("if-none-match"), etag):
        return Response(status_code=304, headers=headers)
    return Response(body, headers=headers, media_type=media_type)
