"""From starting the process to its first answer, and what memory it takes then and under load."""

from __future__ import annotations

import itertools
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

import httpx

from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.acceptance.processes import PROJECT, environment, faying, free_port
from tests.benchmarks.load import flood
from tests.benchmarks.lookup import COUPLE, PATH, new_couples
from tests.benchmarks.rows import ROUNDS, Row, row_of
from tests.benchmarks.servers import GENEROUS, installation
from tests.scale.cluster import cpu_s, peak_mb


def measure() -> Iterator[Row]:
    """Start some times, then load one process."""
    with tempfile.TemporaryDirectory() as folder:
        env = environment(Path(folder) / "faying.sqlite3", **GENEROUS)
        assert faying("setup", env=env).status == 0
        times, cpus = zip(*(started(env) for _ in range(ROUNDS)), strict=True)
    note = f"{min(cpus):.2f} s of processor time"
    yield row_of(
        "start", "process to first answer over HTTP", times, unit="s", is_more_better=False, note=note
    )
    with installation() as service:
        service.client().get(PATH + urlencode(COUPLE)).raise_for_status()
        first = resident_mb(service.target.pid)
        requests = map(service.request, new_couples(900))
        flood(service.target.port, service.target.pid, requests, 16, 4.0)
        yield Row(
            "start", "memory after the first answer", first, "MB", is_more_better=False,
            note=f"{resident_mb(service.target.pid):.0f} MB after 4 s of new questions, "
            f"at most {peak_mb(service.target.pid)} MB",
        )  # fmt: skip


def started(env: dict[str, str]) -> tuple[float, float]:
    """Seconds and processor seconds until a couple was judged."""
    port, start = free_port(), time.perf_counter()
    command = [sys.executable, "-m", "service", "serve", "--port", str(port)]
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(command, cwd=PROJECT, env=env, stdout=quiet, stderr=quiet)
    try:
        headers = {"Authorization": f"Bearer {LOCAL_DEVELOPMENT_KEY}"}
        for _ in itertools.count():
            try:
                url = f"http://127.0.0.1:{port}{PATH}{urlencode(COUPLE)}"
                httpx.get(url, headers=headers, trust_env=False, timeout=30).raise_for_status()
            except httpx.TransportError:
                time.sleep(0.01)
            else:
                break
        return time.perf_counter() - start, cpu_s(process.pid)
    finally:
        process.kill()
        process.wait()


def resident_mb(pid: int) -> float:
    """Resident memory, as Linux counts it."""
    pages = int(Path(f"/proc/{pid}/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
