"""A pytest plugin that closes every socket but the loopback ones.

A test that reaches for the outside world fails with the address that it asked for. Unix sockets
stay open: the PostgreSQL of the tests listens on one.
"""

from __future__ import annotations

import ipaddress
import socket

import pytest

ORIGINAL_CONNECT = socket.socket.connect
ORIGINAL_CONNECT_EX = socket.socket.connect_ex


class OutsideNetworkError(OSError):
    """A test tried to leave this machine."""


def is_inside(family: int, address: object) -> bool:
    """Tell whether an address stays on this machine."""
    if family not in {socket.AF_INET, socket.AF_INET6}:
        return True
    host = str(address[0]) if isinstance(address, tuple) else str(address)
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _guard(sock: socket.socket, address: object) -> None:
    if not is_inside(sock.family, address):
        message = f"a test tried to reach {address!r}"
        raise OutsideNetworkError(message)


def _connect(self: socket.socket, address: socket._Address) -> None:
    _guard(self, address)
    ORIGINAL_CONNECT(self, address)


def _connect_ex(self: socket.socket, address: socket._Address) -> int:
    _guard(self, address)
    return ORIGINAL_CONNECT_EX(self, address)


def pytest_configure(config: pytest.Config) -> None:
    """Close the sockets for the whole run."""
    patch = pytest.MonkeyPatch()
    patch.setattr(socket.socket, "connect", _connect)
    patch.setattr(socket.socket, "connect_ex", _connect_ex)
    config.add_cleanup(patch.undo)
