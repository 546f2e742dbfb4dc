"""All routers of pages."""

from __future__ import annotations

from service.web.pages import asking, house

PAGE_ROUTERS = (asking.router, house.router)
