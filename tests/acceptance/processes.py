"""Starting the program as a person would: its own process, a real port, a file of its own."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import httpx

from service.settings import LOCAL_DEVELOPMENT_KEY

PROJECT = Path(__file__).resolve().parents[2]
PATIENCE_S = 60.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a finished command left behind."""

    status: int
    output: str
    complaint: str


@dataclass(frozen=True, slots=True)
class Server:
    """A server that answers."""

    process: subprocess.Popen[bytes]
    address: str
    log: Path

    def output(self) -> str:
        """What the server has written so far."""
        return self.log.read_text(encoding="utf-8", errors="replace")

    def client(self) -> httpx.Client:
        """Return a client with the development key."""
        headers = {"Authorization": f"Bearer {LOCAL_DEVELOPMENT_KEY}"}
        return httpx.Client(base_url=self.address, headers=headers, timeout=PATIENCE_S, trust_env=False)

    def terminate(self) -> int:
        """Ask the server to stop and return its exit status."""
        self.process.send_signal(signal.SIGTERM)
        return self.process.wait(PATIENCE_S)


def environment(database: Path | str, **more: str) -> dict[str, str]:
    """Return an environment with nothing but what a program needs."""
    address = database if isinstance(database, str) else f"sqlite:///{database}"
    kept = {name: os.environ[name] for name in ("PATH", "HOME") if name in os.environ}
    return {
        **kept,
        "FAYING_DATABASE_URL": address,
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        **more,
    }


def faying(*arguments: str, env: dict[str, str]) -> Outcome:
    """Run a command to its end."""
    done = subprocess.run(
        [sys.executable, "-m", "service", *arguments],
        cwd=PROJECT, env=env, capture_output=True, text=True, timeout=PATIENCE_S, check=False,
    )  # fmt: skip
    return Outcome(done.returncode, done.stdout, done.stderr)


@contextmanager
def serving(env: dict[str, str], *options: str, log: Path | None = None) -> Iterator[Server]:
    """Start a server, wait until it is ready, and end it.

    It writes into a file, its own unless ``log`` names one: a pipe that nobody empties would stop it.
    """
    port = free_port()
    with ExitStack() as places:
        if log is None:
            log = Path(places.enter_context(TemporaryDirectory())) / "server.log"
        with log.open("ab") as output:
            process = subprocess.Popen(
                [sys.executable, "-m", "service", "serve", "--port", str(port), *options],
                cwd=PROJECT, env=env, stdout=output, stderr=subprocess.STDOUT,
            )  # fmt: skip
        places.callback(kill, process)
        server = Server(process, f"http://127.0.0.1:{port}", log)
        _wait(server)
        yield server


def free_port() -> int:
    """Return a port that nobody listens on."""
    with socket.create_server(("127.0.0.1", 0)) as sock:
        return int(sock.getsockname()[1])


def _wait(server: Server) -> None:
    deadline = time.monotonic() + PATIENCE_S
    while time.monotonic() < deadline:
        if server.process.poll() is not None:
            message = f"the server ended: {server.output()}"
            raise AssertionError(message)
        try:
            if httpx.get(f"{server.address}/readyz", trust_env=False).is_success:
                return
        except httpx.TransportError:
            pass
        time.sleep(0.05)
    message = "the server never got ready"
    raise AssertionError(message)


@contextmanager
def working(env: dict[str, str]) -> Iterator[subprocess.Popen[bytes]]:
    """Start a worker and end it; what it logs is thrown away."""
    process = subprocess.Popen(
        [sys.executable, "-m", "service", "worker"],
        cwd=PROJECT, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        yield process
    finally:
        kill(process)


def kill(process: subprocess.Popen[Any]) -> None:
    """End a process as a power cut would."""
    process.kill()
    process.wait()
