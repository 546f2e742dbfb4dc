"""The service and what it is compared with, each in a process of its own."""

from __future__ import annotations

import pickle
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx

from tests.acceptance.processes import PATIENCE_S, PROJECT, environment, faying, free_port, serving

GENEROUS = {"FAYING_REQUESTS_PER_MINUTE": "100000000", "FAYING_REQUEST_BURST": "100000000"}
"""Limits that are counted as ever and never reached."""


@dataclass(frozen=True, slots=True)
class Target:
    """A server to be asked."""

    pid: int
    port: int


@dataclass(frozen=True, slots=True)
class Installation:
    """A running service with a stored key."""

    target: Target
    key: str
    env: dict[str, str]

    def client(self) -> httpx.Client:
        """Return a client with the stored key."""
        headers = {"Authorization": f"Bearer {self.key}"}
        return httpx.Client(
            base_url=f"http://127.0.0.1:{self.target.port}", headers=headers, timeout=60, trust_env=False
        )

    def request(self, target: str, *headers: str) -> bytes:
        """Write a GET as it goes over the wire."""
        lines = [
            f"GET {target} HTTP/1.1",
            f"host: 127.0.0.1:{self.target.port}",
            f"authorization: Bearer {self.key}",
            "accept: application/json",
            *headers,
        ]
        return "\r\n".join(lines).encode() + b"\r\n\r\n"

    def post(self, target: str, body: bytes, headers: Mapping[str, str]) -> bytes:
        """Write a POST as it goes over the wire."""
        lines = [
            f"POST {target} HTTP/1.1",
            f"host: 127.0.0.1:{self.target.port}",
            f"authorization: Bearer {self.key}",
            f"content-length: {len(body)}",
            *(f"{name}: {value}" for name, value in headers.items()),
        ]
        return "\r\n".join(lines).encode() + b"\r\n\r\n" + body


@contextmanager
def installation() -> Iterator[Installation]:
    """Set a service up from nothing and run it, with its log in a file."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        env = environment(folder / "faying.sqlite3", **GENEROUS)
        assert faying("setup", env=env).status == 0
        key = faying("key", "create", "benchmark", env=env).output.strip()
        with serving(env, log=folder / "server.log") as server:
            port = int(server.address.rpartition(":")[2])
            yield Installation(Target(server.process.pid, port), key, env)


@contextmanager
def plain_server(kind: str, env: dict[str, str], recorded: object = None) -> Iterator[Target]:
    """Run an application to compare with."""
    port = free_port()
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        log = stack.enter_context((folder / "server.log").open("wb"))
        (folder / "recorded").write_bytes(pickle.dumps(recorded))
        command = [sys.executable, "-m", "tests.benchmarks.plain_server", kind, str(port)]
        process = subprocess.Popen(
            [*command, str(folder / "recorded")], cwd=PROJECT, env=env, stdout=log, stderr=log
        )
        stack.callback(process.wait)
        stack.callback(process.kill)
        _wait(port)
        yield Target(process.pid, port)


def _wait(port: int) -> None:
    deadline = time.monotonic() + PATIENCE_S
    while time.monotonic() < deadline:
        try:
            httpx.get(f"http://127.0.0.1:{port}/healthz", trust_env=False)
        except httpx.TransportError:
            time.sleep(0.05)
        else:
            return
    raise TimeoutError(port)
