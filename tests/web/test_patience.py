"""One connection and its two alarms, on a server that waits for half a second."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import orjson
import pytest
import uvicorn
from starlette.types import Receive, Scope, Send

from service.web.patience import MOST_DISCARDED_BYTES, SLOWEST_BYTES_PER_S, patient

STALL_S = 0.5
LARGE = b"x" * 50_000_000


async def application(scope: Scope, receive: Receive, send: Send) -> None:
    """Answer with the length of the body, with much of it to whoever asks for /large, or late."""
    length, more = 0, scope["path"] != "/refuses"
    while more:
        message = await receive()
        if message["type"] != "http.request":
            return
        length += len(message["body"])
        more = message.get("more_body", False)
        if scope["path"] == "/reads-slowly":
            time.sleep(0.1)  # noqa: ASYNC251 - the loop itself is held up, as by a server at work
    body = LARGE if scope["path"] == "/large" else b"%d" % length
    headers = [(b"content-length", b"%d" % len(body))]
    await send({"type": "http.response.start", "status": 200, "headers": headers})
    await send({"type": "http.response.body", "body": body})


@pytest.fixture(scope="module")
def address() -> Iterator[tuple[str, int]]:
    with socket.create_server(("127.0.0.1", 0)) as listening:
        config = uvicorn.Config(
            application, http=patient(STALL_S), log_config=None, lifespan="off", timeout_keep_alive=5
        )
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.01)
        yield listening.getsockname()
        server.should_exit = True
        thread.join(10)


@contextmanager
def connected(address: tuple[str, int]) -> Iterator[socket.socket]:
    with socket.create_connection(address, timeout=10) as sock:
        yield sock


def rest(sock: socket.socket) -> bytes:
    """Everything until the other side closes."""
    parts = []
    while part := sock.recv(65536):
        parts.append(part)
    return b"".join(parts)


def answer(sock: socket.socket) -> bytes:
    """The one byte of a short answer."""
    received = b""
    while b"\r\n\r\n" not in received or received.endswith(b"\r\n\r\n"):
        received += sock.recv(65536)
    return received.partition(b"\r\n\r\n")[2]


def post(path: str, length: int) -> bytes:
    return f"POST {path} HTTP/1.1\r\nhost: here\r\ncontent-length: {length}\r\n\r\n".encode()


@pytest.mark.parametrize(
    "sent", [b"", b"GET / HT", b"GET / HTTP/1.1\r\nhost: here\r\n", post("/", 10), post("/", 10) + b"12345"]
)
def test_a_request_that_stalls_is_told_so_and_closed(address: tuple[str, int], sent: bytes) -> None:
    with connected(address) as sock:
        began_s = time.monotonic()
        sock.sendall(sent)
        head, _, body = rest(sock).partition(b"\r\n\r\n")
    assert time.monotonic() - began_s >= STALL_S * 0.9
    assert head.startswith(b"HTTP/1.1 408 ")
    assert b"application/problem+json" in head
    problem = orjson.loads(body)
    assert (problem["type"], problem["status"]) == ("/problems/too-slow", 408)
    assert problem["instance"].removeprefix("urn:uuid:").encode() in head


@pytest.mark.parametrize("head", [b"GET / HTTP/1.1\r\nx: ", post("/", 100)])
def test_a_trickle_earns_no_more_time(address: tuple[str, int], head: bytes) -> None:
    with connected(address) as sock:
        began_s = time.monotonic()
        sock.sendall(head)
        with suppress(ConnectionError):
            while time.monotonic() - began_s < 20 * STALL_S:
                sock.sendall(b"x")
                time.sleep(STALL_S / 6)
    assert time.monotonic() - began_s < 10 * STALL_S


def test_a_body_that_comes_steadily_may_take_long(address: tuple[str, int]) -> None:
    portion, portions = SLOWEST_BYTES_PER_S // 4, 8
    with connected(address) as sock:
        sock.sendall(post("/", portion * portions))
        for _ in range(portions):
            time.sleep(STALL_S / 2)
            sock.sendall(b"x" * portion)
        assert sock.recv(65536).startswith(b"HTTP/1.1 200 ")


def test_a_body_that_waits_for_the_server_is_not_late(address: tuple[str, int]) -> None:
    length = 3_000_000
    with connected(address) as sock:
        sock.sendall(post("/reads-slowly", length) + b"x" * length)
        assert sock.recv(65536).startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize("length", [1000, 10 * MOST_DISCARDED_BYTES])
def test_a_body_that_was_refused_is_not_read_to_its_end(address: tuple[str, int], length: int) -> None:
    with connected(address) as sock:
        sock.sendall(post("/refuses", length) + b"x")
        assert answer(sock) == b"0"
        sent = 1
        with suppress(ConnectionError):
            while sent < length:
                sent += sock.send(b"x" * min(50_000, length - sent))
        if length > MOST_DISCARDED_BYTES:
            assert sent < length
        else:
            sock.sendall(post("/", 0))
            assert answer(sock) == b"0"


def test_whoever_does_not_take_the_answer_is_let_go(address: tuple[str, int]) -> None:
    with connected(address) as sock:
        sock.sendall(b"GET /large HTTP/1.1\r\nhost: here\r\n\r\n")
        time.sleep(STALL_S * 3)
        with suppress(ConnectionResetError):
            assert len(rest(sock)) < len(LARGE)


def test_a_connection_goes_on_between_requests_that_arrive_whole(address: tuple[str, int]) -> None:
    with connected(address) as sock:
        for _ in range(3):
            sock.sendall(post("/", 3) + b"abc")
            assert answer(sock) == b"3"
            time.sleep(STALL_S * 1.5)
        sock.sendall(b"POST / HTTP/1.1\r\nho")
        assert rest(sock).startswith(b"HTTP/1.1 408 ")
