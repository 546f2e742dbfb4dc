"""A lookup against a bare ASGI application that returns the same bytes on the same server.

Key check and rate limit are on. The servers take turns; a ratio is that of responses a second within one
round. Beside it stand the processor time of the server for one response, which others on the machine
disturb less, and what one call of the application costs inside one process, without any server.
"""

from __future__ import annotations

import itertools
import re
from collections import defaultdict
from collections.abc import Iterator
from urllib.parse import urlencode

from tests.benchmarks.in_process import Costs, costs
from tests.benchmarks.load import Load, flood
from tests.benchmarks.plain_server import Recorded
from tests.benchmarks.rows import ROUNDS, Row, row_of
from tests.benchmarks.servers import Installation, Target, installation, plain_server

SECTION = "lookup"
COUPLE = {
    "first": "EN AW-6082-T6, anodized 15 µm",
    "second": "A4-80",
    "environment": "marine-atmosphere-0-100-m",
    "view": "decision",
}
TEXTS = (
    "EN AW-6082-T6, anodized 15 µm",
    "EN AW-5083 H116",
    "A4-80",
    "1.4404",
    "CW024A",
    "CuZn39Pb3, Ni 5 µm",
    "S355J2+N, hot dip galvanized ISO 1461",
    "8.8 Fe//Zn8//A",
)
PATH = "/v1/couples?"
CONNECTIONS = 16
SECONDS = 0.8
OWN_HEADERS = re.compile(rb"^(date|server)$")


def new_couples(run: int) -> Iterator[str]:
    """Couples that nobody asked for before: eight surfaces, another area each time."""
    pairs = itertools.cycle(itertools.combinations(TEXTS, 2))
    for number in itertools.count():
        first, second = next(pairs)
        area_cm2 = 10 + run * 1000 + number * 1e-3
        asked = {**COUPLE, "first": first, "second": second, "first_area_cm2": f"{area_cm2:.3f}"}
        yield PATH + urlencode(asked)


def measure() -> Iterator[Row]:
    """Take turns and give the ratios."""
    with installation() as service:
        recorded, tag = record(service)
        with plain_server("bare", service.env, recorded) as plain:
            yield from compare(service, plain, tag)


def record(service: Installation) -> tuple[dict[str, Recorded], str]:
    """Ask the service once and note the bytes that it returned."""
    address = PATH + urlencode(COUPLE)
    with service.client() as client:
        client.get(address).raise_for_status()
        whole = client.get(address)
        tag = whole.headers["etag"]
        unchanged = client.get(address, headers={"If-None-Match": tag})
    noted = {}
    for path, response in (("/200", whole), ("/304", unchanged)):
        headers = [
            (name.lower(), value)
            for name, value in response.headers.raw
            if not OWN_HEADERS.match(name.lower())
        ]
        noted[path] = (response.status_code, headers, response.content)
    return {**noted, "/": noted["/200"]}, tag


def compare(service: Installation, plain: Target, tag: str) -> Iterator[Row]:
    """Let the service and the bare application take turns."""
    address = PATH + urlencode(COUPLE)
    again, unchanged = service.request(address), service.request(address, f"if-none-match: {tag}")
    others = {path: itertools.repeat(service.request(path)) for path in ("/200", "/304")}
    rounds = defaultdict(list)
    for number in range(ROUNDS):
        new = map(service.request, new_couples(number))
        bare = flood(plain.port, plain.pid, others["/200"], CONNECTIONS, SECONDS)
        cached = _own(service, itertools.repeat(again), b"200")
        bare_304 = flood(plain.port, plain.pid, others["/304"], CONNECTIONS, SECONDS)
        own_304 = _own(service, itertools.repeat(unchanged), b"304")
        rounds["cached"].append((cached, bare))
        rounds["304"].append((own_304, bare))
        rounds["304 / 304"].append((own_304, bare_304))
        rounds["new"].append((_own(service, new, b"200"), bare))
    inside = costs()
    yield ratio("cached 200 / bare", rounds["cached"], inside, "cached", 0.50)
    yield ratio("304 / bare 200", rounds["304"], inside, "304", 0.90)
    yield ratio("304 / bare 304", rounds["304 / 304"], inside, "304")
    yield ratio("first-time couple / bare", rounds["new"], inside, "new", 0.05)


def _own(service: Installation, requests: Iterator[bytes], status: bytes) -> Load:
    load = flood(service.target.port, service.target.pid, requests, CONNECTIONS, SECONDS)
    assert load.statuses == {status}, load.statuses
    return load


def ratio(
    name: str, rounds: list[tuple[Load, Load]], inside: Costs, kind: str, goal: float | None = None
) -> Row:
    """One row out of the rounds of one comparison."""
    own_cpu = min(own.cpu_us for own, _ in rounds)
    bare_cpu = min(bare.cpu_us for _, bare in rounds)
    per_s = max(own.per_second for own, _ in rounds)
    note = (
        f"{inside.of[kind]:.0f} µs a call in process, bare {inside.bare_us:.1f}; "
        f"server {own_cpu:.0f} µs, bare {bare_cpu:.0f}: {bare_cpu / own_cpu:.2f}; {per_s:,.0f}/s"
    )
    values = [own.per_second / bare.per_second for own, bare in rounds]
    return row_of(SECTION, name, values, goal=goal, note=note)
