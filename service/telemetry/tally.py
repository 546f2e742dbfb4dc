"""What is counted with every request: plain numbers, in the form of Prometheus only when it asks.

A counter of its library takes a lock and a microsecond each time. Only the event loop counts here, so there
is nothing to lock; who asks meanwhile may see a request that is half counted.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from enum import StrEnum
from itertools import accumulate

from prometheus_client.core import CounterMetricFamily, HistogramMetricFamily, Metric
from prometheus_client.registry import Collector


class Source(StrEnum):
    """Where the answer to a couple came from."""

    KNOWN = "known"
    KEPT = "kept"
    JUDGED = "judged"


class Tally(Collector):
    """Requests by method, route and status with the time that they took; couples by their source."""

    def __init__(self, bounds_s: tuple[float, ...]) -> None:
        self._bounds_s = bounds_s
        self._names = [*map(str, bounds_s), "+Inf"]
        self._counts: dict[tuple[str, str, int], list[int]] = {}
        self._seconds: dict[tuple[str, str, int], float] = {}
        self._answers = dict.fromkeys(Source, 0)

    def request(self, method: str, route: str, status: int, seconds: float) -> None:
        """Count one request."""
        key = (method, route, status)
        if key not in self._counts:
            self._counts[key], self._seconds[key] = [0] * len(self._names), 0.0
        self._counts[key][bisect_left(self._bounds_s, seconds)] += 1
        self._seconds[key] += seconds

    def answer(self, source: Source) -> None:
        """Count one couple that was answered singly."""
        self._answers[source] += 1

    def describe(self) -> Iterator[Metric]:
        """Name the figures."""
        return self.collect()

    def collect(self) -> Iterator[Metric]:
        """Give the figures."""
        requests = HistogramMetricFamily(
            "faying_request_seconds",
            "Time from a request to the end of its answer.",
            labels=("method", "route", "status"),
        )
        for key, counts in list(self._counts.items()):
            method, route, status = key
            buckets = list(zip(self._names, accumulate(counts), strict=True))
            requests.add_metric((method, route, str(status)), buckets, self._seconds[key])
        yield requests
        answers = CounterMetricFamily(
            "faying_answers", "Couples answered singly, by where the answer came from.", labels=("source",)
        )
        for source, count in self._answers.items():
            answers.add_metric((source.value,), count)
        yield answers
