"""What was found for lanes before: the same metals meet again from question to question.

What is found for a lane depends on that lane alone, so an answer is the same whether its lanes were
remembered or solved.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable, Sequence
from typing import Generic, TypeVar

MOST_LANES = 512
"""Lanes remembered in one environment; their samples take 3 MB."""

T = TypeVar("T")


class LaneMemory(Generic[T]):
    """The latest lanes with what was found for each; threads may share it."""

    def __init__(self, most: int = MOST_LANES) -> None:
        self._most = most
        self._found: dict[bytes, T] = {}
        self._lock = threading.Lock()

    def each(self, keys: Sequence[bytes], solve: Callable[[list[int]], Iterable[T]]) -> list[T]:
        """What belongs to each lane, of which only those that are not remembered are solved.

        Parameters
        ----------
        keys : sequence of bytes
            One for each lane, no two alike.
        solve : callable
            Gives what is found for the lanes of which it gets the places in ``keys``.

        Returns
        -------
        list
            In the order of ``keys``.
        """
        with self._lock:
            known = {key: self._found[key] for key in keys if key in self._found}
        missing = [place for place, key in enumerate(keys) if key not in known]
        if missing:
            fresh = {keys[place]: found for place, found in zip(missing, solve(missing), strict=True)}
            self._remember(fresh)
            known |= fresh
        return [known[key] for key in keys]

    def _remember(self, fresh: dict[bytes, T]) -> None:
        """Keep the latest lanes and let the oldest go."""
        with self._lock:
            self._found |= fresh
            for key in list(self._found)[: max(len(self._found) - self._most, 0)]:
                del self._found[key]
