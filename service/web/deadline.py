"""The time that an answer may take until it begins: after that the caller is told so instead.

What was begun in a thread goes on to its end, because no thread can be stopped; its result is dropped.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from types import TracebackType
from typing import Self


class Deadline:
    """Calls somebody if a block is not left in time; the clock starts anew with each ``restart``."""

    def __init__(self, patience_s: float, give_up: Callable[[], object]) -> None:
        self._patience_s = patience_s
        self._give_up = give_up
        self._timer: asyncio.TimerHandle | None = None

    def __enter__(self) -> Self:
        """Start the clock."""
        self.restart()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        """Stop the clock."""
        if self._timer is not None:
            self._timer.cancel()

    def restart(self) -> None:
        """Start the clock anew: the request is still coming in."""
        if self._timer is not None:
            self._timer.cancel()
        self._timer = asyncio.get_running_loop().call_later(self._patience_s, self._give_up)
