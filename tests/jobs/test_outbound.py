"""Nothing is sent to an address that was not checked, and nothing to a private one."""

from __future__ import annotations

import ipaddress
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import httpx
import pytest

from service.jobs.errors import ForbiddenAddressError
from service.jobs.outbound import Outbound, is_public

PRIVATE = Outbound(allow_private=True, timeout_s=2)


class Receiver(BaseHTTPRequestHandler):
    """Answers by the path, and remembers what came."""

    seen: list[tuple[str, dict[str, str], bytes]]

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers["content-length"]))
        type(self).seen.append((self.path, dict(self.headers), body))
        status = int(self.path.strip("/") or 204)
        self.send_response(status)
        if status == 302:
            self.send_header("Location", "/204")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def log_message(self, *_: Any) -> None:
        """Keep quiet."""


@contextmanager
def receiving() -> Iterator[tuple[str, list[tuple[str, dict[str, str], bytes]]]]:
    Receiver.seen = []
    with ThreadingHTTPServer(("127.0.0.1", 0), Receiver) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://localhost:{server.server_port}", Receiver.seen
        server.shutdown()
        thread.join()


def test_a_body_is_sent_to_the_address_of_the_name() -> None:
    with receiving() as (address, seen):
        assert PRIVATE.post(f"{address}/204", {"X-Sign": "s"}, b"hello") == 204
    ((path, headers, body),) = seen
    assert (path, body, headers["X-Sign"]) == ("/204", b"hello", "s")
    assert headers["Host"] == address.removeprefix("http://")


def test_redirects_are_told_and_not_followed() -> None:
    with receiving() as (address, seen):
        assert PRIVATE.post(f"{address}/302", {}, b"") == 302
    assert len(seen) == 1


def test_nobody_there_is_an_error() -> None:
    with socket.create_server(("127.0.0.1", 0)) as unused:
        port = unused.getsockname()[1]
    with pytest.raises((httpx.HTTPError, OSError)):
        PRIVATE.post(f"http://127.0.0.1:{port}/", {}, b"")


@pytest.mark.parametrize(
    "url",
    [
        "https://127.0.0.1/", "https://127.1/", "https://2130706433/", "https://0x7f000001/", "https://0/",
        "https://10.1.2.3/", "https://172.16.0.1/", "https://192.168.1.1/", "https://100.64.0.1/",
        "https://169.254.169.254/latest/meta-data", "https://[::1]/", "https://[fe80::1]/", "https://[fd00::1]/",
        "https://[::ffff:10.0.0.1]/", "https://[64:ff9b::a00:1]/", "https://[2002:a00:1::]/",
        "https://224.0.0.1/", "https://255.255.255.255/", "https://localhost/", "https://db.internal/",
        "https://printer.local/", "http://example.org/", "gopher://example.org/", "https://a:b@example.org/",
        "https://example.org/#x", "https:///x", "example.org", "https://exa mple.org/", "https://[::1",
        "x" * 3000,
    ],
)  # fmt: skip
def test_addresses_that_are_not_public_are_refused_before_anything_happens(url: str) -> None:
    with pytest.raises(ForbiddenAddressError):
        Outbound().check(url)


@pytest.mark.parametrize(
    "url", ["https://example.org/hook?x=1", "https://example.org:8443/", "https://[2606:4700::1]/"]
)
def test_public_addresses_pass(url: str) -> None:
    assert str(Outbound().check(url)) == url


def test_a_name_that_leads_inside_is_refused_when_it_is_resolved(monkeypatch: pytest.MonkeyPatch) -> None:
    def resolve(host: str, port: int, **_: object) -> list[tuple[Any, ...]]:
        assert host == "rebound.example.org"
        return [(2, 1, 6, "", ("93.184.215.14", port)), (2, 1, 6, "", ("192.168.0.10", port))]

    monkeypatch.setattr(socket, "getaddrinfo", resolve)  # the outer network, which tests must not ask
    with pytest.raises(ForbiddenAddressError, match="not public"):
        Outbound().post("https://rebound.example.org/", {}, b"")


def test_the_connection_goes_to_the_checked_address_under_the_name(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []

    def resolve(host: str, port: int, *_: object, **__: object) -> list[tuple[Any, ...]]:
        asked.append(host)
        return [(socket.AF_INET, socket.SOCK_STREAM, 6, "", ("127.0.0.1", port))]

    with receiving() as (address, seen):
        port = address.rpartition(":")[2]
        monkeypatch.setattr(socket, "getaddrinfo", resolve)
        assert PRIVATE.post(f"http://plm.skerrivoe.example:{port}/204", {}, b"x") == 204
    assert [name for name in asked if "skerrivoe" in name] == ["plm.skerrivoe.example"]
    assert seen[0][1]["Host"] == f"plm.skerrivoe.example:{port}"


@pytest.mark.parametrize(
    ("address", "expected"),
    [("93.184.215.14", True), ("2606:4700::1", True), ("::ffff:8.8.8.8", True), ("64:ff9b::808:808", True),
     ("10.0.0.1", False), ("0.0.0.0", False), ("::", False), ("2001::1", False), ("240.0.0.1", False)],  # noqa: S104
)  # fmt: skip
def test_wrapped_addresses_count_as_what_they_wrap(address: str, expected: bool) -> None:  # noqa: FBT001
    assert is_public(ipaddress.ip_address(address)) is expected
