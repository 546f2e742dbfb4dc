from __future__ import annotations

import socket

import pytest

from service.commands import Failure
from service.commands.serving import listen
from service.settings import Settings


def test_a_free_port_is_taken_before_anything_is_built() -> None:
    with listen(Settings(port=0)) as sock:
        host, port = sock.getsockname()
        assert host == "127.0.0.1"
        with socket.create_connection((host, port)):
            pass


def test_a_busy_port_is_refused() -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(Failure, match=f"cannot listen on 127.0.0.1:{port}: .*FAYING_PORT"):
            listen(Settings(port=port))


def test_an_address_of_another_machine_is_refused() -> None:
    with pytest.raises(Failure, match=r"192\.0\.2\.1"):
        listen(Settings(host="192.0.2.1", port=0))


def test_the_loopback_of_version_6_is_known() -> None:
    if not socket.has_ipv6:
        pytest.fail("this machine has no IPv6 at all")
    try:
        with listen(Settings(host="::1", port=0)) as sock:
            assert sock.family is socket.AF_INET6
    except Failure as refused:
        assert "::1" in str(refused)  # noqa: PT017 - a machine without IPv6 addresses


def test_an_answer_does_not_wait_for_the_caller_to_acknowledge_its_head() -> None:
    # The event loop switches Nagle's delay off for sockets that say that they speak TCP.
    with listen(Settings(port=0)) as sock, socket.create_connection(sock.getsockname()):
        accepted, _ = sock.accept()
        with accepted:
            assert accepted.proto == socket.IPPROTO_TCP
