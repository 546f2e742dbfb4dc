"""The time that an answer may take until it begins: after that the caller is told so instead.

What was begun in a thread goes on to its end, because no thread can be stopped; its result is dropped.
"""

from __future__ import annotations

import asyncio
import time
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
        """Start the clock of somebody."""
        self._ends_s[waiting] = time.monotonic() + self._patience_s
        if self._timer is None:
            self._set_timer(self._patience_s)

    def restart(self, waiting: Waiting) -> None:
        """Start the clock of somebody anew: the request is still coming in."""
        self.stop(waiting)
        self.start(waiting)

    def stop(self, waiting: Waiting) -> None:
        """Stop the clock of somebody."""
        self._ends_s.pop(waiting, None)

    def _set_timer(self, left_s: float) -> None:
        self._timer = asyncio.get_running_loop().call_later(left_s, self._look)

    def _look(self) -> None:
        self._timer = None
        while self._ends_s:
            waiting, ends_s = next(iter(self._ends_s.items()))
            left_s = ends_s - time.monotonic()
            if left_s > 0:
                self._set_timer(left_s)
                return
            del self._ends_s[waiting]
            waiting.give_up(self._patience_s)
