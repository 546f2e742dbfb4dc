"""Callers over real connections that stay open: as many requests as they can, or at a given rate.

The client is as plain as it can be, so that it takes little of the processor that the server needs.
"""

from __future__ import annotations

import asyncio
import time
from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from tests.scale.cluster import cpu_s

Requests = Iterator[bytes]


@dataclass(slots=True)
class Load:
    """What came of it."""

    seconds: float = 0.0
    server_cpu_s: float = 0.0
    latencies_s: list[float] = field(default_factory=list)
    statuses: set[bytes] = field(default_factory=set)

    @property
    def per_second(self) -> float:
        """Responses a second."""
        return len(self.latencies_s) / self.seconds

    @property
    def cpu_us(self) -> float:
        """Processor time of the server for one response [µs]."""
        return self.server_cpu_s / max(len(self.latencies_s), 1) * 1e6

    def quantile_ms(self, share: float) -> float:
        """Latency that this share of the requests stayed below [ms]."""
        ordered = sorted(self.latencies_s)
        return ordered[min(int(share * len(ordered)), len(ordered) - 1)] * 1e3


class Caller(asyncio.Protocol):
    """One connection: sends a request, waits for the whole response, tells that it is free."""

    def __init__(self, load: Load, when_free: Callable[[Caller], None]) -> None:
        self._load = load
        self._when_free = when_free
        self._got = bytearray()
        self._since_s = 0.0
        self.transport: asyncio.Transport | None = None

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        assert isinstance(transport, asyncio.Transport)
        self.transport = transport

    def send(self, request: bytes, since_s: float) -> None:
        """Ask; the latency counts from ``since_s``, when the request was due."""
        assert self.transport
        self._since_s = since_s
        self.transport.write(request)

    def data_received(self, data: bytes) -> None:
        self._got += data
        end = self._got.find(b"\r\n\r\n")
        if end < 0 or len(self._got) < end + 4 + self._body_bytes(end):
            return
        self._load.statuses.add(bytes(self._got[9:12]))
        self._load.latencies_s.append(time.perf_counter() - self._since_s)
        self._got.clear()
        self._when_free(self)

    def _body_bytes(self, end: int) -> int:
        start = self._got.find(b"content-length: ", 0, end)
        if start < 0:
            return 0
        return int(self._got[start + 16 : self._got.find(b"\r", start)])


def flood(port: int, pid: int, requests: Requests, connections: int, seconds: float) -> Load:
    """Ask on all connections as fast as answers come."""
    return asyncio.run(_flood(port, pid, requests, connections, seconds))


async def _flood(port: int, pid: int, requests: Requests, connections: int, seconds: float) -> Load:
    load, busy, done = Load(), connections, asyncio.Event()
    deadline = time.perf_counter() + seconds

    def next_one(caller: Caller) -> None:
        nonlocal busy
        now = time.perf_counter()
        if now < deadline:
            caller.send(next(requests), now)
            return
        busy -= 1
        if not busy:
            done.set()

    callers = await _connect(port, connections, load, next_one)
    start, cpu = time.perf_counter(), cpu_s(pid)
    deadline = start + seconds
    for caller in callers:
        caller.send(next(requests), start)
    await done.wait()
    load.seconds, load.server_cpu_s = time.perf_counter() - start, cpu_s(pid) - cpu
    _close(callers)
    return load


def pour(port: int, pid: int, requests: Requests, rate_per_s: float, seconds: float) -> Load:
    """Ask at a rate, whether answers come or not; latency counts from when a request was due."""
    return asyncio.run(_pour(port, pid, requests, rate_per_s, seconds))


async def _pour(port: int, pid: int, requests: Requests, rate_per_s: float, seconds: float) -> Load:
    load, total, sent = Load(), int(rate_per_s * seconds), 0
    free: deque[Caller] = deque()
    callers = await _connect(port, 128, load, free.append)
    free.extend(callers)
    start, cpu = time.perf_counter(), cpu_s(pid)
    while len(load.latencies_s) < total and time.perf_counter() - start < 4 * seconds:
        due = min(int((time.perf_counter() - start) * rate_per_s) + 1, total)
        while sent < due and free:
            free.popleft().send(next(requests), start + sent / rate_per_s)
            sent += 1
        await asyncio.sleep(0.0005)
    load.seconds, load.server_cpu_s = time.perf_counter() - start, cpu_s(pid) - cpu
    _close(callers)
    return load


async def _connect(
    port: int, connections: int, load: Load, when_free: Callable[[Caller], None]
) -> list[Caller]:
    loop, callers = asyncio.get_running_loop(), []
    for _ in range(connections):
        _, caller = await loop.create_connection(lambda: Caller(load, when_free), "127.0.0.1", port)
        callers.append(caller)
    return callers


def _close(callers: list[Caller]) -> None:
    for caller in callers:
        if caller.transport:
            caller.transport.close()
