"""All routers of pages."""

from __future__ import annotations

from service.web.pages import asking, bom, embedding, house, knowledge, matrix, proposing, reviewing

PAGE_ROUTERS = (
    asking.router,
    matrix.router,
    bom.router,
    proposing.router,
    knowledge.router,
    reviewing.router,
    embedding.router,
    house.router,
)
