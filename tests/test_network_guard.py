from __future__ import annotations

import socket

import pytest

from tests.network_guard import OutsideNetworkError, is_inside


@pytest.mark.parametrize("host", ["192.0.2.1", "example.org", "2001:db8::1"])
def test_an_outside_address_is_refused(host: str) -> None:
    assert not is_inside(socket.AF_INET, (host, 80))


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "127.8.9.10", "::1"])
def test_the_loopback_is_open(host: str) -> None:
    assert is_inside(socket.AF_INET, (host, 80))


def test_a_real_socket_cannot_leave() -> None:
    with socket.socket() as sock, pytest.raises(OutsideNetworkError, match=r"192\.0\.2\.1"):
        sock.connect(("192.0.2.1", 9))


def test_a_real_socket_may_stay() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server, socket.socket() as sock:
        sock.connect(server.getsockname())
        assert sock.getpeername() == server.getsockname()
