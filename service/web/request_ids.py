"""Identifiers of requests: the caller's own, or a random one."""

from __future__ import annotations

import os
import uuid
from collections.abc import Iterator

_AT_ONCE = 256
_BYTES = 16


def request_id(chosen: bytes | None) -> str:
    """Take the caller's id if it is a UUID, so that two systems can speak of the same request."""
    if chosen is not None:
        try:
            return str(uuid.UUID(chosen.decode("ascii")))
        except ValueError:
            pass
    return next(_random_ids)


def _made_ids() -> Iterator[str]:
    """Make random UUIDs (RFC 9562, version 4), asking the system for the randomness of many at once."""
    while True:
        digits = os.urandom(_AT_ONCE * _BYTES).hex()
        for at in range(0, len(digits), 2 * _BYTES):
            each = digits[at : at + 2 * _BYTES]
            variant = "89ab"[int(each[16], 16) & 3]
            yield f"{each[:8]}-{each[8:12]}-4{each[13:16]}-{variant}{each[17:20]}-{each[20:]}"


_random_ids = _made_ids()
