from __future__ import annotations

from service.web.pages.routes import PAGE_ROUTERS
from service.web.pages.serving import OpenPageRoute
from service.web.routes import ROUTERS


def test_every_page_is_served_by_the_route_class_of_pages() -> None:
    for router in PAGE_ROUTERS:
        assert router.routes
        assert all(isinstance(route, OpenPageRoute) for route in router.routes)
        assert not any(getattr(route, "include_in_schema", False) for route in router.routes)


def test_no_page_takes_an_address_of_the_api() -> None:
    of_pages = {getattr(route, "path", "") for router in PAGE_ROUTERS for route in router.routes}
    of_api = {getattr(route, "path", "") for router in ROUTERS for route in router.routes}
    assert not of_pages & of_api
    assert not any(path.startswith("/v1") for path in of_pages)
