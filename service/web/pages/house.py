"""What is open to everybody: the files that pages load, the guide, signing in and out."""

from __future__ import annotations

from urllib.parse import urlsplit

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool
from starlette.responses import RedirectResponse

from service.access.errors import InvalidCredentialsError, TooManyRequestsError
from service.web.errors import NoSuchPathError
from service.web.nearness import nearest
from service.web.pages.rendering import ASSETS, page
from service.web.pages.serving import OpenPageRoute
from service.web.pages.sessions import COOKIE, LIFETIME_S
from service.web.replies import FOR_EVER
from service.web.state import services

router = APIRouter(include_in_schema=False, route_class=OpenPageRoute)


@router.get("/assets/{name}")
async def get_asset(request: Request, name: str) -> Response:
    """Serve one of the files that pages load; its address changes with its content."""
    if name not in ASSETS:
        near = tuple(f"/assets/{known}" for known in nearest(name, ASSETS))
        raise NoSuchPathError(request.url.path, near)
    body, media_type = ASSETS[name]
    return Response(body, headers={"Cache-Control": FOR_EVER}, media_type=media_type)


@router.get("/guide")
async def show_guide(request: Request) -> Response:
    """Show how other systems use the service."""
    return page(request, "guide.html", origin=str(request.base_url).rstrip("/"))


@router.get("/sign-in")
async def show_sign_in(request: Request) -> Response:
    """Ask for a key."""
    return page(request, "sign_in.html", target=_target(request.query_params.get("next")), refused=False)


@router.post("/sign-in")
async def sign_in(request: Request) -> Response:
    """Begin a session for the holder of a key."""
    form = await request.form()
    key, target = str(form.get("key", "")).strip(), _target(str(form.get("next", "")))
    held = services(request)
    address = f"address {request.client.host if request.client else 'unknown'}"
    if wait_s := held.refusals.wait_s(address):
        raise TooManyRequestsError(wait_s)
    try:
        await run_in_threadpool(held.keys.verify, key)
    except InvalidCredentialsError:
        held.refusals.take(address)
        return page(request, "sign_in.html", status=401, target=target, refused=True)
    response = RedirectResponse(target, 303)
    response.set_cookie(
        COOKIE,
        held.sessions.open(key),
        max_age=LIFETIME_S,
        httponly=True,
        samesite="strict",
        secure=request.url.scheme == "https",
    )
    return response


@router.post("/sign-out")
async def sign_out(request: Request) -> Response:
    """End the session."""
    services(request).sessions.close(request.cookies.get(COOKIE, ""))
    response = RedirectResponse("/sign-in", 303)
    response.delete_cookie(COOKIE)
    return response


def _target(wanted: str | None) -> str:
    """A page of this service to go to; never an address elsewhere."""
    parts = urlsplit(wanted or "/")
    is_ours = not parts.scheme and not parts.netloc and (wanted or "/").startswith("/")
    return wanted if wanted and is_ours and "\\" not in wanted and not wanted.startswith("//") else "/"
