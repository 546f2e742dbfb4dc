"""The application without what it holds."""

from __future__ import annotations

from fastapi.routing import APIRoute

from service.web.api import assemble
from service.web.pages.routes import PAGE_ROUTERS
from service.web.routes import ROUTERS


def test_routes_lie_flat_and_in_order() -> None:
    api = assemble()
    expected = [route for router in (*ROUTERS, *PAGE_ROUTERS) for route in router.routes]
    assert api.router.routes == expected
    assert all(isinstance(route, APIRoute) for route in expected)


def test_document_and_pages_are_written_once() -> None:
    api = assemble()
    assert api.openapi() is api.openapi() is assemble().openapi()
    assert api.document_bytes is api.document_bytes
    assert api.reference_pages is api.reference_pages


def test_no_route_is_given_twice() -> None:
    seen = [
        (method, route.path_format)
        for router in ROUTERS
        for route in router.routes
        if isinstance(route, APIRoute)
        for method in route.methods or ()
    ]
    assert len(set(seen)) == len(seen)


def test_pages_of_the_framework_that_load_foreign_scripts_are_off() -> None:
    api = assemble()
    assert (api.docs_url, api.redoc_url, api.openapi_url) == (None, None, None)
