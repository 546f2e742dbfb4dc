"""Browsers that signed in: a random session id in a cookie stands for a key that stays in this process.

A session ends with the process and holds in one process only; several processes need a balancer that
sends a browser to the same one.
"""

from __future__ import annotations

import secrets
import threading
import time
from collections import OrderedDict
from collections.abc import Callable

COOKIE = "faying_session"
LIFETIME_S = 12 * 3600
_MOST_SESSIONS = 10_000


class Sessions:
    """Keys of those who signed in, by session id; the oldest go when there are too many."""

    def __init__(self, clock: Callable[[], float] = time.monotonic, most: int = _MOST_SESSIONS) -> None:
        self._clock = clock
        self._most = most
        self._held: OrderedDict[str, tuple[str, float]] = OrderedDict()
        self._lock = threading.Lock()

    def open(self, key: str) -> str:
        """Begin a session and return its id."""
        session_id = secrets.token_urlsafe(32)
        with self._lock:
            self._held[session_id] = key, self._clock() + LIFETIME_S
            while len(self._held) > self._most:
                self._held.popitem(last=False)
        return session_id

    def key_of(self, session_id: str) -> str | None:
        """Return the key of a session that has not ended."""
        key, ends_s = self._held.get(session_id, ("", 0.0))
        return key if key and self._clock() < ends_s else None

    def close(self, session_id: str) -> None:
        """End a session."""
        with self._lock:
            self._held.pop(session_id, None)
