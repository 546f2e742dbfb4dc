"""The application without what it holds: routes, error handlers and the layer in front."""

from __future__ import annotations

from functools import cached_property
from typing import Any, ClassVar

from fastapi import FastAPI
from starlette.middleware.exceptions import ExceptionMiddleware
from starlette.types import Lifespan, Receive, Scope, Send

from service.judgement.version import ENGINE_VERSION
from service.web import handlers, openapi
from service.web.edge import Edge
from service.web.pages.routes import PAGE_ROUTERS
from service.web.reference import render_reference
from service.web.routes import ROUTERS


class Api(FastAPI):
    """The application; its document and pages are written once, on first demand.

    The routes are the same in every application of a process, and so is their document.
    """

    _document: ClassVar[dict[str, Any] | None] = None
    token_endpoint: str = ""

    @cached_property
    def edge(self) -> Edge:
        """The layer in front of the handlers of exceptions.

        What the framework puts around these has nothing to do here: its telemetry is off, it knows no limit
        for bodies, and the edge is the last to see a failure.
        """
        layer: Any = self.build_middleware_stack()
        while not isinstance(layer, ExceptionMiddleware):
            layer = layer.app
        return Edge(layer)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let requests come to the edge first; start and stop as the framework does."""
        if scope["type"] == "http":
            scope["app"] = self
            await self.edge(scope, receive, send)
        else:
            await super().__call__(scope, receive, send)

    def openapi(self) -> dict[str, Any]:
        """Return the OpenAPI document."""
        if Api._document is None:
            Api._document = openapi.build(self)
        return Api._document

    @cached_property
    def document_bytes(self) -> bytes:
        """The OpenAPI document as it is served; without a token endpoint it is the committed one."""
        document = self.openapi()
        if self.token_endpoint:
            document = openapi.with_endpoint(document, self.token_endpoint)
        return openapi.write(document)

    @cached_property
    def reference_pages(self) -> dict[str, bytes]:
        """The API reference as pages by operation, the list of operations under ""."""
        return render_reference(self.openapi())


def assemble(lifespan: Lifespan[Any] | None = None, token_endpoint: str = "") -> Api:
    """Put routes, handlers and the edge together; ``lifespan`` brings what they work with."""
    api = Api(
        title="Faying",
        version=ENGINE_VERSION,
        description=openapi.DESCRIPTION,
        license_info={"name": "Apache-2.0", "identifier": "Apache-2.0"},
        openapi_tags=openapi.TAGS,
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        lifespan=lifespan,
        # Traces and metrics are set up by service.telemetry when they are asked for.
        telemetry={"tracing": False, "metrics": False, "logs": False, "operation_spans": False},
    )
    for router in (*ROUTERS, *PAGE_ROUTERS):
        # Flat, because an included router matches each request twice.
        api.router.routes.extend(router.routes)
    handlers.install(api)
    api.token_endpoint = token_endpoint
    return api
