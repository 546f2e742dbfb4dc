"""The routes, the most frequent first: a router tries them in order."""

from service.web.routes import (
    assemblies,
    batch,
    catalogue,
    couples,
    reference,
    releases,
    remedies,
    resolve,
    service,
    today,
)

ROUTERS = (
    couples.router,
    batch.router,
    today.router,
    remedies.router,
    resolve.router,
    assemblies.router,
    catalogue.router,
    releases.router,
    service.router,
    reference.router,
)

__all__ = ["ROUTERS"]
