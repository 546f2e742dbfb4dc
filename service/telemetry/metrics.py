"""Figures for Prometheus: counted where things happen, shown on a port of their own.

Each application has a registry of its own. A port of its own keeps the figures away from callers without
a key that a scraper would have to hold; who may reach it is the network's business.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from prometheus_client import CollectorRegistry, Counter, Histogram, start_http_server
from prometheus_client.gc_collector import GCCollector
from prometheus_client.platform_collector import PlatformCollector
from prometheus_client.process_collector import ProcessCollector

from service.telemetry.tally import Tally

_SECONDS = (0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)
_GROUP = (1, 2, 4, 8, 16, 32)
UNROUTED = "unrouted"
"""Route of requests that were turned away before the router or led nowhere; their paths are no labels, so
that nobody can fill the memory with them."""


class Metrics:
    """Everything that one application counts."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        self.tally = Tally(_SECONDS)
        self.registry.register(self.tally)
        self._couples = Counter(
            "faying_batch_couples", "Couples answered in batches.", ("outcome",), registry=self.registry
        )
        self._groups = Histogram(
            "faying_judged_together",
            "New couples judged at once.",
            buckets=_GROUP,
            registry=self.registry,
        )
        self._judging = Histogram(
            "faying_judging_seconds",
            "Time to judge a group.",
            buckets=_SECONDS,
            registry=self.registry,
        )
        self._failed_looks = Counter(
            "faying_release_looks_failed", "Looks for a newer release that failed.", registry=self.registry
        )
        self._of_outcome = {failed: self._couples.labels(name) for failed, name in _OUTCOMES.items()}
        for collector in (ProcessCollector, PlatformCollector, GCCollector):
            collector(registry=self.registry)

    def batch(self, count: int, failed: int) -> None:
        """Count the couples of a part of a batch."""
        self._of_outcome[False].inc(count - failed)
        self._of_outcome[True].inc(failed)

    def group(self, size: int, seconds: float) -> None:
        """Count one group that was judged together."""
        self._groups.observe(size)
        self._judging.observe(seconds)

    def look_failed(self) -> None:
        """Count a look for a newer release that failed."""
        self._failed_looks.inc()


_OUTCOMES = {False: "answered", True: "failed"}


@contextmanager
def exposed(metrics: Metrics, host: str, port: int) -> Iterator[int]:
    """Show the figures at ``/metrics`` of a port as long as the block lasts; give the port."""
    server, thread = start_http_server(port, host, metrics.registry)
    try:
        yield int(server.server_address[1])
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
