"""The layer in front of the router against none: ids, size limits, key check, rate limit, headers, log.

Both servers answer the same route; the one without the layer is told who asks.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from tests.benchmarks.load import flood
from tests.benchmarks.rows import ROUNDS, Row, row_of
from tests.benchmarks.servers import installation, plain_server

CONNECTIONS = 16
SECONDS = 0.8
PATH = "/v1/limits"
NEW_PATH = "/v1/materials/al-6082-t6"


def measure() -> Iterator[Row]:
    """Take turns and give the ratio."""
    with installation() as service, plain_server("chainless", service.env) as plain:
        for path in (PATH, NEW_PATH):
            requests = itertools.repeat(service.request(path))
            values, with_us, without_us = [], [], []
            for _ in range(ROUNDS):
                own = flood(service.target.port, service.target.pid, requests, CONNECTIONS, SECONDS)
                without = flood(plain.port, plain.pid, requests, CONNECTIONS, SECONDS)
                assert own.statuses == without.statuses == {b"200"}, (own.statuses, without.statuses)
                values.append(own.per_second / without.per_second)
                with_us.append(own.cpu_us)
                without_us.append(without.cpu_us)
            note = f"server {min(with_us):.0f} µs with it, {min(without_us):.0f} without"
            yield row_of("chain", f"with / without, GET {path}", values, goal=0.85, note=note)
