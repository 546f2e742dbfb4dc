"""Long work for tests that kill: a batch that takes some seconds, and what must be left of it."""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import closing
from typing import Any

import httpx
import orjson
from sqlalchemy import text

from service.storage import Database

NDJSON = {"Content-Type": "application/x-ndjson"}
PATIENCE_S = 25.0
Line = dict[str, Any]


def batch(client: httpx.Client, couples: int) -> bytes:
    """Write so many different couples in five places."""
    found = client.get("/v1/materials", params={"limit": 60}).raise_for_status().json()["items"]
    surfaces = [{"material_id": row["id"]} for row in found if row["electrode_id"]]
    places = ["marine-atmosphere-0-100-m", "heated-indoor", "harbour-quay-spray"]
    head = {"surfaces": surfaces, "defaults": {"design_life_years": 15}}
    lines = []
    for number in range(couples):
        place, pair = divmod(number, len(surfaces) ** 2)
        first, second = divmod(pair, len(surfaces))
        lines.append(
            {"ref": number, "first": first, "second": second, "environment": places[place % len(places)]}
        )
    return b"\n".join(orjson.dumps(line) for line in (head, *lines))


def start_batch(client: httpx.Client, body: bytes) -> str:
    """Put a batch in as a job and return its address."""
    response = client.post("/v1/jobs?kind=batch&view=decision", content=body, headers=NDJSON)
    assert response.status_code == 202, response.text
    return str(response.json()["address"])


def until(client: httpx.Client, address: str, is_reached: Callable[[Line], bool]) -> Line:
    """Wait until a job has come so far; while its server is away, go on asking."""
    deadline = time.monotonic() + PATIENCE_S
    job: Line = {}
    while time.monotonic() < deadline:
        try:
            response = client.get(address)
            if response.is_success:
                job = response.json()
        except httpx.TransportError:
            pass
        if job and is_reached(job):
            return job
        time.sleep(0.05)
    raise AssertionError(job)


def is_under_way(job: Line) -> bool:
    """Whether some of it is done, and not all."""
    return bool(job["state"] == "running" and 0 < job["items_done"] < job["items_total"])


def is_done(job: Line) -> bool:
    """Whether it has ended well."""
    assert job["state"] not in {"failed", "cancelled"}, job
    return bool(job["state"] == "done")


def lines_of(client: httpx.Client, address: str) -> bytes:
    """Read all results."""
    response = client.get(f"{address}/results", headers={"Accept": "application/x-ndjson"}, timeout=60)
    return response.raise_for_status().content


def check_whole(lines: bytes, count: int) -> None:
    """Check that every couple has its one line, in order."""
    *items, closing_line = (orjson.loads(line) for line in lines.splitlines())
    assert [item["ref"] for item in items] == [item["index"] for item in items] == list(range(count))
    assert all("answer" in item for item in items)
    assert (closing_line["complete"], closing_line["count"], closing_line["failed"]) == (True, count, 0)


def rows(url: str, table: str) -> int:
    """Count the rows of a table."""
    with closing(Database.open(url)) as database, database.reading() as session:
        return session.scalar(text(f"SELECT count(*) FROM {table}")) or 0  # noqa: S608 - a name from the test
