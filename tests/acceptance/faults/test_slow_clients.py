"""Many callers that stall cost the others nothing, and are let go."""

from __future__ import annotations

import os
import socket
import time
from contextlib import ExitStack
from pathlib import Path

import httpx
import orjson

from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.acceptance.processes import environment, serving

COUPLE = {"first": "A4-80", "second": "EN AW-6082-T6", "environment": "heated-indoor"}
STALLED = 60
AUTHORIZED = f"host: here\r\nauthorization: Bearer {LOCAL_DEVELOPMENT_KEY}\r\n"
SLOW = (
    b"",
    b"GET /v1/couples HTT",
    f"GET /v1/couples HTTP/1.1\r\n{AUTHORIZED}".encode(),
    f"POST /v1/couples HTTP/1.1\r\n{AUTHORIZED}content-type: application/json\r\n"
    'content-length: 100\r\n\r\n{"first"'.encode(),
    f"POST /v1/couples/batch HTTP/1.1\r\n{AUTHORIZED}content-type: application/x-ndjson\r\n"
    "content-length: 100000\r\n\r\n{}\n".encode(),
)


def test_callers_that_stall_are_let_go_and_harm_nobody(database_file: Path) -> None:
    env = environment(database_file, FAYING_SLOW_CLIENT_S="1.5")
    with (
        serving(env, log=Path(os.devnull)) as server,
        server.client() as client,
        ExitStack() as stack,
    ):
        client.get("/v1/couples", params=COUPLE).raise_for_status()
        place = (httpx.URL(server.address).host, httpx.URL(server.address).port or 0)
        slow = [stack.enter_context(socket.create_connection(place, timeout=30)) for _ in range(STALLED)]
        for number, sock in enumerate(slow):
            sock.sendall(SLOW[number % len(SLOW)])
        began_s = time.monotonic()
        for _ in range(20):
            assert client.get("/v1/couples", params=COUPLE).status_code == 200
        assert time.monotonic() - began_s < 5
        for sock in slow:
            response = sock.makefile("rb").read()
            head, _, body = response.partition(b"\r\n\r\n")
            assert head.startswith(b"HTTP/1.1 408 ")
            assert orjson.loads(body)["type"] == "/problems/too-slow"
        assert client.get("/readyz").status_code == 200
