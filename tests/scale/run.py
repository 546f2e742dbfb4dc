"""How judging a portfolio scales with workers, on one machine: ``.venv/bin/python -m tests.scale.run``.

Starts PostgreSQL, API processes behind a proxy and workers; stores assemblies; then publishes, for each
number of workers, a release that touches all of them, and measures from the job's start to its end.
"""

from __future__ import annotations

import argparse
import os
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from typing import Any

import httpx
from sqlalchemy import text

from service.judgement import ENGINE_VERSION
from service.storage import Database, publish
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.scale.cluster import Cluster, cluster
from tests.scale.portfolio import JOINTS_PER_ASSEMBLY, PLACE, assemblies

Say = Callable[[str], object]
SENDERS = 4
SIZES = """
SELECT relname, pg_total_relation_size(oid) FROM pg_class
WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' ORDER BY 2 DESC LIMIT 6
"""


def main() -> None:
    """Read the options and run."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--joints", type=int, default=4_000, help="stored joints (200000 for the real run)")
    parser.add_argument("--workers", default="1,2", help="numbers of workers to compare")
    parser.add_argument("--apis", type=int, default=2, help="API processes behind the proxy")
    given = parser.parse_args()
    run(given.joints, [int(number) for number in given.workers.split(",")], given.apis, print)


def run(joints: int, workers: list[int], apis: int, say: Say) -> dict[int, float]:
    """Measure, say what was found, and return joints per second by number of workers."""
    say(f"{joints} joints, {JOINTS_PER_ASSEMBLY} in each assembly")
    say(f"{apis} API processes, {os.cpu_count()} cores")
    with cluster(apis) as running:
        running.scale_to(max(workers))
        load(running, joints, say)
        rates = {}
        for step, number in enumerate(workers):
            running.scale_to(number)
            wait(running, "SELECT count(*) < :number FROM procrastinate_workers", number=number)
            rates[number] = measure(running, joints, step, say)
        for number in workers[1:]:
            say(f"speed-up from {workers[0]} to {number} workers: {rates[number] / rates[workers[0]]:.2f}")
        sizes(running, joints, say)
        say(f"peak memory in MB: {running.memory_mb()}")
        limits(joints, rates, say)
    return rates


def load(running: Cluster, joints: int, say: Say) -> None:
    """Store all assemblies through the proxy and wait until they are judged."""
    started = time.perf_counter()

    def send(entry: tuple[str, dict[str, Any]]) -> None:
        name, body = entry
        with running.client() as client:
            client.put(f"/v1/assemblies/stored/{name}", json=body).raise_for_status()

    with ThreadPoolExecutor(SENDERS) as senders:
        list(senders.map(send, assemblies(joints)))
    stored_s = time.perf_counter() - started
    wait(running, "SELECT count(*) FROM assemblies WHERE holds_under IS NULL")
    judged_s = time.perf_counter() - started
    say(f"stored in {stored_s:.1f} s ({joints / stored_s:.0f} joints/s), judged after {judged_s:.1f} s")


def measure(running: Cluster, joints: int, step: int, say: Say) -> float:
    """Publish a release that touches everything; return joints per second."""
    with closing(Database.open(running.url)) as database, database.writing() as session:
        knowledge = KnowledgeRepository(session)
        (row,) = [row for row in knowledge.all_rows()["environments"] if row["id"] == PLACE]
        knowledge.update("environments", [row | {"temperature_C": row["temperature_C"] + 0.5 + 0.01 * step}])
        label = publish(session, by="scale", engine=ENGINE_VERSION).label
    used_s = running.worker_cpu_s()
    with running.client() as client:
        job = ended(client, label)
    used_s = running.worker_cpu_s() - used_s
    took_s = 60 * job["items_done"] / job["items_per_minute"]
    rate = float(joints / took_s)
    say(f"{len(running.workers)} workers: {job['items_done']} joints in {took_s:.1f} s, {rate:.0f} joints/s")
    say(f"  {used_s / took_s:.2f} cores at work, {joints / used_s:.0f} joints/s each")
    return rate


def ended(client: httpx.Client, label: str) -> dict[str, Any]:
    """Wait for the portfolio job of a release."""
    while True:
        for job in client.get("/v1/jobs?kind=portfolio&limit=20").raise_for_status().json()["items"]:
            if job["release"] == label and job["state"] == "done" and job["items_total"]:
                found: dict[str, Any] = job
                return found
        time.sleep(0.25)


def wait(running: Cluster, left: str, **values: object) -> None:
    """Wait until a query gives zero or false."""
    with closing(Database.open(running.url)) as database:
        while True:
            with database.reading() as session:
                if not session.scalar(text(left), values):
                    return
            time.sleep(0.25)


def sizes(running: Cluster, joints: int, say: Say) -> None:
    """Say how large the database is, and what in it."""
    with closing(Database.open(running.url)) as database, database.reading() as session:
        total = session.scalar(text("SELECT pg_database_size(current_database())")) or 0
        tables = session.execute(text(SIZES)).all()
    say(f"database: {total / 2**20:.0f} MB, {total / joints:.0f} bytes per joint")
    for name, size in tables:
        say(f"  {name}: {size / 2**20:.1f} MB")


def limits(joints: int, rates: dict[int, float], say: Say) -> None:
    """Say what a hundred times as many joints would take."""
    most = max(rates)
    hours = 100 * joints / rates[most] / 3600
    per_core = rates[min(rates)] / min(rates)
    say(f"a hundred times as many take {hours:.1f} h with {most} workers; judging is the limit:")
    cores = 100 * joints / per_core / 3600
    say(f"  one core judges {per_core:.0f} joints/s, so that an hour needs {cores:.1f} cores")


if __name__ == "__main__":
    main()
