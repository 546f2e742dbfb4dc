"""All routers of pages."""

from __future__ import annotations

from service.web.pages import asking, bom, embedding, house, knowledge, matrix

PAGE_ROUTERS = (
    asking.router,
    matrix.router,
    bom.router,
    knowledge.router,
    embedding.router,
    house.router,
)
