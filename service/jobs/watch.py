"""The watch over stored assemblies: a new release, overlay or engine has them looked at once."""

from __future__ import annotations

import logging
from dataclasses import dataclass

from service.jobs.portfolio import Portfolio
from service.jobs.queue import Queue
from service.judgement import ENGINE_VERSION
from service.storage.errors import NothingPublishedError
from service.storage.repositories.assemblies import AssembliesRepository
from service.storage.repositories.jobs import JobsRepository
from service.storage.repositories.overlays import OverlaysRepository

logger = logging.getLogger(__name__)

BY = "watch"
"""Who asked for the job, where nobody did."""


@dataclass(frozen=True, slots=True)
class ReleaseWatch:
    """Looks whether reports are behind the current release. Any number of processes may look."""

    portfolio: Portfolio
    queue: Queue

    def look(self) -> int:
        """Put in one job for each tenant that is behind and has none yet; return how many."""
        shelf = self.portfolio.shelf
        shelf.refresh()
        try:
            label = shelf.current.label
        except NothingPublishedError:
            return 0
        with self.portfolio.database.reading() as session:
            behind = AssembliesRepository(session).tenants_behind(label, ENGINE_VERSION)
            jobs, editions = JobsRepository(session), OverlaysRepository(session).editions()
            keys = {tenant: _key(label, tenant, editions.get(tenant, 0)) for tenant in behind}
            new = [tenant for tenant in behind if jobs.named(keys[tenant]) is None]
        for tenant_id in new:
            job = self.portfolio.submit(self.queue, tenant_id, by=BY, dedupe_key=keys[tenant_id])
            logger.info("portfolio looked at", extra={"facts": {"release": label, "job_id": job.id}})
        return len(new)


def _key(label: str, tenant_id: str, edition: int) -> str:
    overlay = f" overlay {edition}" if edition else ""
    return f"portfolio {label} {ENGINE_VERSION} {tenant_id}{overlay}"
