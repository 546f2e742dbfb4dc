"""A network that breaks: it passes connections on to a service, and cuts each off after some bytes."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import httpx

_PIECE_BYTES = 4096


@contextmanager
def cutting(address: str, limits_bytes: list[int]) -> Iterator[str]:
    """Give the address of a way to a service on which one connection after another lets so much through.

    A limit is taken out of the list when its connection is made; those after the last let everything through.
    """
    target = httpx.URL(address)
    with socket.create_server(("127.0.0.1", 0)) as listener:
        thread = threading.Thread(
            target=_accept, args=(listener, (target.host, target.port), limits_bytes), daemon=True
        )
        thread.start()
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
        listener.shutdown(socket.SHUT_RDWR)
        thread.join()


def _accept(listener: socket.socket, target: tuple[str, int | None], limits_bytes: list[int]) -> None:
    with suppress(OSError):
        while True:
            caller, _ = listener.accept()
            service = socket.create_connection(target)
            limit_bytes = limits_bytes.pop(0) if limits_bytes else None
            for source, sink, limit in ((caller, service, None), (service, caller, limit_bytes)):
                threading.Thread(target=_pass_on, args=(source, sink, limit), daemon=True).start()


def _pass_on(source: socket.socket, sink: socket.socket, limit_bytes: int | None) -> None:
    left = float("inf") if limit_bytes is None else limit_bytes
    with suppress(OSError):
        while left > 0 and (piece := source.recv(int(min(left, _PIECE_BYTES)))):
            sink.sendall(piece)
            left -= len(piece)
    for end in (source, sink):
        with suppress(OSError):
            end.shutdown(socket.SHUT_RDWR)
        end.close()
