"""The routes, the most frequent first: a router tries them in order."""

from service.web.routes import (
    assemblies,
    audit,
    batch,
    catalogue,
    changes,
    couples,
    jobs,
    overlays,
    policies,
    proposals,
    reference,
    releases,
    remedies,
    resolve,
    service,
    sites,
    stored_assemblies,
    today,
    webhooks,
)

ROUTERS = (
    couples.router,
    batch.router,
    today.router,
    remedies.router,
    resolve.router,
    sites.router,
    stored_assemblies.router,
    assemblies.router,
    *jobs.ROUTERS,
    changes.router,
    webhooks.router,
    catalogue.router,
    releases.router,
    proposals.router,
    overlays.router,
    policies.router,
    audit.router,
    service.router,
    reference.router,
)

__all__ = ["ROUTERS"]
