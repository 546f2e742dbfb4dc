"""The time that an answer may take until it begins: after that the caller is told so instead.

What was begun in a thread goes on to its end, because no thread can be stopped; its result is dropped.
"""

from __future__ import annotations

import asyncio
from typing import Protocol


class Waiting(Protocol):
    """Somebody whose answer has to begin in time."""

    def give_up(self, patience_s: float) -> None:
        """Hear that it has not."""


class Deadlines:
    """All who wait, the one who has waited longest first; all have the same patience, so one timer will do.

    A timer for each request would cost more than all else that the edge does for it.
    """

    def __init__(self, patience_s: float) -> None:
        self._patience_s = patience_s
        self._ends_s: dict[Waiting, float] = {}
        self._timer: asyncio.TimerHandle | None = None

    def start(self, waiting: Waiting) -> None:
        """Start the clock of somebody, or start it anew because the request is still coming in."""
        loop = asyncio.get_running_loop()
        self._ends_s.pop(waiting, None)
        self._ends_s[waiting] = ends_s = loop.time() + self._patience_s
        if self._timer is None:
            self._timer = loop.call_at(ends_s, self._look)

    def stop(self, waiting: Waiting) -> None:
        """Stop the clock of somebody."""
        self._ends_s.pop(waiting, None)

    def _look(self) -> None:
        loop, self._timer = asyncio.get_running_loop(), None
        while self._ends_s:
            waiting, ends_s = next(iter(self._ends_s.items()))
            if ends_s > loop.time():
                self._timer = loop.call_at(ends_s, self._look)
                return
            del self._ends_s[waiting]
            waiting.give_up(self._patience_s)
