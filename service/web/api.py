"""The application without what it holds: routes, error handlers and the layer in front."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from starlette.middleware import Middleware
from starlette.types import Lifespan

from service.judgement.version import ENGINE_VERSION
from service.web import handlers, openapi
from service.web.edge import Edge
from service.web.routes import ROUTERS


class Api(FastAPI):
    """The application; it writes its own document once, on first demand."""

    def openapi(self) -> dict[str, Any]:
        """Return the OpenAPI document."""
        if self.openapi_schema is None:
            self.openapi_schema = openapi.build(self)
        return self.openapi_schema


def assemble(lifespan: Lifespan[Any] | None = None) -> Api:
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
        middleware=[Middleware(Edge)],
        # Traces and metrics are set up by service.telemetry when they are asked for.
        telemetry={"tracing": False, "metrics": False, "logs": False, "operation_spans": False},
    )
    for router in ROUTERS:
        # Flat, because an included router matches each request twice.
        api.router.routes.extend(router.routes)
    handlers.install(api)
    return api
