"""Latency of known and of a few new questions while the load rises towards what the server can do.

Requests are sent when they are due, whether earlier ones were answered or not, and their latency counts
from then: a server that falls behind is not spared.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from urllib.parse import urlencode

from tests.benchmarks.load import flood, pour
from tests.benchmarks.lookup import COUPLE, PATH, new_couples
from tests.benchmarks.rows import Row
from tests.benchmarks.servers import Installation, installation

SHARES = (0.1, 0.25, 0.5, 0.75, 0.9)
NEW_AMONG = 200
SECONDS = 3.0


def measure() -> Iterator[Row]:
    """Find the ceiling, then ask at shares of it."""
    with installation() as service:
        known = service.request(PATH + urlencode(COUPLE))
        service.client().get(PATH + urlencode(COUPLE)).raise_for_status()
        found = flood(service.target.port, service.target.pid, itertools.repeat(known), 16, 1.5)
        ceiling = found.per_second
        yield Row("load", "ceiling, all known", ceiling, "requests/s")
        for share in SHARES:
            load = pour(
                service.target.port,
                service.target.pid,
                mixed(service, known, share),
                share * ceiling,
                SECONDS,
            )
            p50, p99 = load.quantile_ms(0.5), load.quantile_ms(0.99)
            note = (
                f"p50 {p50:.2f} ms, 99.9 % {load.quantile_ms(0.999):.1f} ms; {load.per_second:,.0f}/s reached"
            )
            name = f"p99 at {share:.0%} of the ceiling, 1 in {NEW_AMONG} new"
            yield Row("load", name, p99, "ms", is_more_better=False, note=note)


def mixed(service: Installation, known: bytes, share: float) -> Iterator[bytes]:
    """Known questions with a new one among so many."""
    new = map(service.request, new_couples(100 + int(share * 100)))
    for number in itertools.count(1):
        yield next(new) if number % NEW_AMONG == 0 else known
