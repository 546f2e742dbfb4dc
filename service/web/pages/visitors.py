"""Who reads a page: who signed in, the development key's holder, or anybody where pages are open."""

from __future__ import annotations

from urllib.parse import urlsplit

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from service.access.errors import InvalidCredentialsError
from service.access.keys import DEVELOPMENT
from service.access.principals import Principal
from service.access.scopes import CALLER
from service.web.pages.sessions import COOKIE
from service.web.state import services

ANYBODY = Principal("pages", "pages", CALLER)
"""Who asks where pages are open to everybody; its tenant has no overlay."""


class SignInNeededError(Exception):
    """Somebody with a key is needed."""


class ForeignOriginError(Exception):
    """A form was sent from a page of another site."""


async def visitor_of(request: Request) -> Principal:
    """Find out who reads.

    Raises
    ------
    SignInNeededError
        If nobody is known and pages are not open.
    """
    held = services(request)
    session_id = request.cookies.get(COOKIE, "")
    if key := held.sessions.key_of(session_id):
        try:
            # Asked each time, so that a revoked key ends its sessions.
            return await run_in_threadpool(held.keys.verify, key)
        except InvalidCredentialsError:
            held.sessions.close(session_id)
    if held.settings.effective_development_key and held.settings.is_local:
        return DEVELOPMENT
    if held.settings.pages_open:
        return ANYBODY
    raise SignInNeededError


def check_origin(request: Request) -> None:
    """Refuse a form that another site sent; browsers tell where a form comes from.

    Raises
    ------
    ForeignOriginError
        If it comes from elsewhere.
    """
    site = request.headers.get("sec-fetch-site")
    origin = request.headers.get("origin")
    if site is not None:
        is_foreign = site not in {"same-origin", "none"}
    else:  # not told over plain HTTP
        is_foreign = origin is not None and urlsplit(origin).netloc != request.headers.get("host")
    if is_foreign:
        raise ForeignOriginError
