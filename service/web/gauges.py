"""How things stand at the moment of asking, for Prometheus: releases, memories, queues."""

from __future__ import annotations

import logging
from collections.abc import Iterator

from prometheus_client.core import GaugeMetricFamily, Metric
from prometheus_client.registry import Collector

from service.judgement import ENGINE_VERSION
from service.storage.errors import NothingPublishedError
from service.storage.repositories.jobs import UNFINISHED, JobsRepository
from service.web.state import Services

logger = logging.getLogger(__name__)


class Gauges(Collector):
    """Reads what the application holds whenever Prometheus asks."""

    def __init__(self, services: Services) -> None:
        self._held = services

    def describe(self) -> Iterator[Metric]:
        """Name nothing beforehand: registering shall not ask the database."""
        return iter(())

    def collect(self) -> Iterator[Metric]:
        """Give every gauge."""
        yield from self._release()
        yield from self._memory()
        yield from self._database()

    def _release(self) -> Iterator[Metric]:
        info = GaugeMetricFamily(
            "faying_release_info", "The release that is open, and the engine.", labels=("release", "engine")
        )
        try:
            info.add_metric((self._held.shelf.current.label, ENGINE_VERSION), 1)
        except NothingPublishedError:
            pass
        else:
            yield info
        is_open = float(bool(self._held.shelf.current_hash))
        yield GaugeMetricFamily("faying_ready", "Whether a release is open.", value=is_open)

    def _memory(self) -> Iterator[Metric]:
        held = self._held
        memory = GaugeMetricFamily("faying_memory_bytes", "Memory for what is sent again.", labels=("of",))
        memory.add_metric(("answers",), held.answers.size_bytes)
        memory.add_metric(("batch lines",), held.known_lines.size_bytes)
        yield memory
        yield GaugeMetricFamily(
            "faying_questions_waiting", "New couples that wait to be judged.", value=len(held.together)
        )
        yield GaugeMetricFamily(
            "faying_answers_unwritten",
            "Issued answers that are not in the database yet.",
            value=held.answers.unwritten,
        )

    def _database(self) -> Iterator[Metric]:
        up = GaugeMetricFamily("faying_database_up", "Whether the database answers.")
        jobs = GaugeMetricFamily("faying_jobs_unfinished", "Jobs by state.", labels=("state",))
        try:
            with self._held.database.reading() as session:
                counts = JobsRepository(session).counts_of_unfinished()
        except Exception:  # whatever a driver raises when its server is gone
            logger.warning("figures without the database", exc_info=True)
            up.add_metric((), 0)
            yield up
            return
        up.add_metric((), 1)
        for state in UNFINISHED:
            jobs.add_metric((state,), counts.get(state, 0))
        yield up
        yield jobs
