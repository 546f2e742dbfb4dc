"""The routes, the most frequent first: a router tries them in order."""

from service.web.routes import batch, catalogue, couples, reference, releases, remedies, resolve, service

ROUTERS = (
    couples.router,
    batch.router,
    remedies.router,
    resolve.router,
    catalogue.router,
    releases.router,
    service.router,
    reference.router,
)

__all__ = ["ROUTERS"]
