"""The routes, the most frequent first: a router tries them in order."""

from service.web.routes import catalogue, couples

ROUTERS = (couples.router, catalogue.router)

__all__ = ["ROUTERS"]
