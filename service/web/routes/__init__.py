"""The routes, the most frequent first: a router tries them in order."""

from service.web.routes import catalogue, couples, reference, releases, resolve, service

ROUTERS = (
    couples.router,
    resolve.router,
    catalogue.router,
    releases.router,
    service.router,
    reference.router,
)

__all__ = ["ROUTERS"]
