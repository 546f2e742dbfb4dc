"""A batch of couples over HTTP: known ones against reading the same body, new ones by the second."""

from __future__ import annotations

import itertools
import socket
import time
from collections.abc import Iterator, Sequence

import httpx
import orjson

from tests.benchmarks.lookup import TEXTS
from tests.benchmarks.rows import ROUNDS, Row, clock_s, row_of
from tests.benchmarks.servers import Installation, installation
from tests.scale.cluster import peak_mb

KNOWN, NEW, LARGE = 1_000, 2_000, 10_000
PLACES = ("marine-atmosphere-0-100-m", "heated-indoor", "harbour-quay-spray")
PATH = "/v1/couples/batch?view=decision"
NDJSON = {"Content-Type": "application/x-ndjson"}
SINGLES = 100
END = b"\r\n0\r\n\r\n"
"""Last chunk of a response."""


def measure() -> Iterator[Row]:
    """Ask and ask again."""
    with installation() as service, service.client() as client:
        yield known(service, client)
        surfaces = materials(client)
        yield from new(client, surfaces)
        large = lines(surfaces, range(20 * NEW, 20 * NEW + LARGE))
        seconds, first_s = sent(client, large)
        yield Row(
            "batch", f"{LARGE:,} new couples", LARGE / seconds, "couples/s",
            note=f"first line after {first_s:.2f} s; {peak_mb(service.target.pid)} MB of memory at most",
        )  # fmt: skip


def known(service: Installation, client: httpx.Client) -> Row:
    """A batch whose couples were all asked before, as people write them: texts and an environment."""
    pairs = itertools.cycle(itertools.combinations(TEXTS, 2))
    couples = [
        {
            "ref": f"J{number}",
            "first": first,
            "second": second,
            "environment": PLACES[number % len(PLACES)],
            "first_area_cm2": 40 + number % 50,
            "functions": ["structural", "electrical bond"],
            "design_life_years": 15,
        }
        for number, (first, second) in zip(range(KNOWN), pairs, strict=False)
    ]
    body = b"\n".join(map(orjson.dumps, couples))
    document = orjson.dumps({"couples": couples})
    first = client.post(PATH, content=body, headers=NDJSON)
    assert orjson.loads(first.content.splitlines()[-1])["failed"] == 0, first.content[:500]
    values, reads, spent = [], [], []
    with socket.create_connection(("127.0.0.1", service.target.port)) as connection:
        for _ in range(3 * ROUNDS):
            read_s = min(clock_s(lambda: orjson.loads(document)) for _ in range(20))
            took_s, answered = exchange(connection, service.post(PATH, body, NDJSON))
            assert answered.count(b"\n{") >= KNOWN, answered[:500]
            spent.append(took_s)
            values.append(spent[-1] / read_s)
            reads.append(read_s)
    best_ms, read_ms = min(spent) * 1e3, min(reads) * 1e3
    note = f"{best_ms:.1f} ms at best, orjson.loads {read_ms:.2f} ms of {len(document)} B"
    name = f"{KNOWN:,} known couples / orjson.loads of the body"
    return row_of("batch", name, values, goal=5.0, is_more_better=False, note=note)


def exchange(connection: socket.socket, request: bytes) -> tuple[float, bytes]:
    """Send a request and take its chunked response; a client that does more would be measured with it."""
    start, got = time.perf_counter(), bytearray()
    connection.sendall(request)
    while not got.endswith(END):
        got += connection.recv(2**20)
    return time.perf_counter() - start, bytes(got)


def new(client: httpx.Client, surfaces: Sequence[object]) -> Iterator[Row]:
    """Batches that nobody asked before, and the same one by one."""
    rates, alone = [], []
    for turn in range(3):
        body = lines(surfaces, range(turn * NEW, (turn + 1) * NEW))
        rates.append(NEW / sent(client, body)[0])
        start = time.perf_counter()
        for number in range(SINGLES):
            client.post(
                "/v1/couples", json=single(surfaces, 10**6 + turn * SINGLES + number)
            ).raise_for_status()
        alone.append(SINGLES / (time.perf_counter() - start))
    ratios = [rate / one for rate, one in zip(rates, alone, strict=True)]
    yield row_of("batch", f"{NEW:,} new couples", rates, unit="couples/s", goal=2_000.0)
    note = f"{max(alone):.0f}/s one by one on one connection"
    yield row_of("batch", "batch / one by one", ratios, note=note)


def sent(client: httpx.Client, body: bytes) -> tuple[float, float]:
    """Send a batch; return seconds to the last and to the first line."""
    start, first_s = time.perf_counter(), 0.0
    with client.stream("POST", PATH, content=body, headers=NDJSON) as response:
        assert response.is_success, response.read()
        for _ in response.iter_raw():
            first_s = first_s or time.perf_counter() - start
    return time.perf_counter() - start, first_s


def materials(client: httpx.Client) -> list[object]:
    """Bare materials that have kinetics."""
    found = client.get("/v1/materials", params={"limit": 60}).raise_for_status().json()["items"]
    return [{"material_id": row["id"]} for row in found if row["electrode_id"]]


def lines(surfaces: Sequence[object], numbers: Sequence[int]) -> bytes:
    """Write couples of a table of surfaces, one a line; each number is another couple."""
    head = {"surfaces": surfaces, "defaults": {"design_life_years": 15}}
    couples = (indices(len(surfaces), number) for number in numbers)
    return b"\n".join(map(orjson.dumps, (head, *couples)))


def single(surfaces: Sequence[object], number: int) -> dict[str, object]:
    """The couple of a number as a question of its own."""
    couple = indices(len(surfaces), number)
    sides = {side: surfaces[int(str(couple[side]))] for side in ("first", "second")}
    return {**couple, **sides, "design_life_years": 15, "view": "decision"}


def indices(count: int, number: int) -> dict[str, object]:
    """Two surfaces, a place and an area that together name a number."""
    pair, place = number % (count * count), PLACES[number % len(PLACES)]
    first, second = divmod(pair, count)
    area_cm2 = 10 + (number // (count * count)) * 0.01
    return {"first": first, "second": second, "environment": place, "first_area_cm2": area_cm2}
