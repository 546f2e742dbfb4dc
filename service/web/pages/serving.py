"""The route class of pages: it lets visitors in and tells failures as pages."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any
from urllib.parse import urlencode

from fastapi import Request, Response
from fastapi.routing import APIRoute
from starlette.responses import RedirectResponse

from service.access.errors import AccessError
from service.assemblies.errors import AssemblyError
from service.catalogue.errors import CatalogueError
from service.curation import CurationError
from service.judgement import InvalidInquiryError
from service.remedies import RemedyError
from service.storage.errors import StorageError
from service.web.errors import WebError
from service.web.pages.rendering import page
from service.web.pages.visitors import ForeignOriginError, SignInNeededError, check_origin, visitor_of
from service.web.problem_documents import faults_of
from service.web.problems import INTERNAL, kind_of

Handler = Callable[[Request], Coroutine[Any, Any, Response]]
_FORESEEN = (
    WebError,
    AccessError,
    CatalogueError,
    CurationError,
    InvalidInquiryError,
    RemedyError,
    StorageError,
    AssemblyError,
)
_UNUSABLE = 422
_FORBIDDEN = 403


class OpenPageRoute(APIRoute):
    """A page for everybody."""

    def get_route_handler(self) -> Handler:
        """Put the checks in front of the usual handler."""
        handle = super().get_route_handler()

        async def check_and_handle(request: Request) -> Response:
            try:
                return await self.serve(request, handle)
            except SignInNeededError:
                address = request.url.path + (f"?{request.url.query}" if request.url.query else "")
                return RedirectResponse(f"/sign-in?{urlencode({'next': address})}", 303)
            except ForeignOriginError:
                title, detail = "This form came from elsewhere", "Open the page here and send it again."
                return failure(request, _FORBIDDEN, title, detail)
            except _FORESEEN as error:
                return _told(request, error)

        return check_and_handle

    async def serve(self, request: Request, handle: Handler) -> Response:
        """Handle a request for a page that needs nobody in particular."""
        if request.method != "GET":
            check_origin(request)
        return await handle(request)


class PageRoute(OpenPageRoute):
    """A page that acts on behalf of somebody."""

    async def serve(self, request: Request, handle: Handler) -> Response:
        """Handle a request once it is known who asks."""
        request.scope["state"]["principal"] = await visitor_of(request)
        return await super().serve(request, handle)


def failure(
    request: Request, status: int, title: str, detail: str, suggestions: tuple[str, ...] = ()
) -> Response:
    """Tell a failure as a page."""
    return page(request, "failure.html", status=status, title=title, detail=detail, suggestions=suggestions)


def _told(request: Request, error: Exception) -> Response:
    kind = kind_of(type(error))
    suggestions = tuple(text for fault in faults_of(error) for text in fault.suggestions)
    if kind is INTERNAL and isinstance(error, RemedyError | AssemblyError):
        return failure(request, _UNUSABLE, "This cannot be used", str(error))
    if kind is INTERNAL:
        raise error
    return failure(request, kind.status, kind.title, f"{error} {kind.remedy}", suggestions)
