"""How many requests a caller may send: token buckets in the memory of one process.

With several processes each has its own buckets, so the sum of all is the ceiling, and a new process begins
with full ones; a shared count would put a database on the way of every lookup. So an allowance or quota
protects the service and is no basis for an invoice.
"""

from __future__ import annotations

import math
import time
from collections import OrderedDict
from collections.abc import Callable
from typing import NamedTuple

_MOST_BUCKETS = 100_000


class Allowance(NamedTuple):
    """What is left after a request.

    ``reset_s`` is when the bucket is full again, ``retry_after_s`` when the same request would pass; it
    is 0 for one that passed.
    """

    is_granted: bool
    remaining: int
    reset_s: int
    retry_after_s: int


class TokenBuckets:
    """One bucket for each caller: it holds ``burst`` tokens and refills at ``per_minute``.

    ``name`` is what the header fields and problem documents call these buckets, ``window_s`` the seconds in
    which an empty one fills.
    """

    def __init__(
        self,
        per_minute: float,
        burst: int,
        clock: Callable[[], float] = time.monotonic,
        name: str = "requests",
    ) -> None:
        self.name = name
        self.per_minute = per_minute
        self.burst = burst
        self._rate_per_s = per_minute / 60.0
        self.window_s = max(1, round(burst / self._rate_per_s))
        self._clock = clock
        self._buckets: OrderedDict[str, tuple[float, float]] = OrderedDict()

    def take(self, caller: str, tokens: float = 1.0) -> Allowance:
        """Take tokens out of a caller's bucket if it holds enough.

        A request that costs more than a full bucket passes when the bucket is full and leaves a debt;
        otherwise it could never pass.
        """
        now = self._clock()
        level = self._level(caller, now)
        is_granted = level >= min(tokens, self.burst)
        if is_granted:
            level -= tokens
        self._buckets[caller] = (level, now)
        self._buckets.move_to_end(caller)
        # The oldest bucket has had the longest time to refill, so dropping it forgives the least.
        if len(self._buckets) > _MOST_BUCKETS:
            self._buckets.popitem(last=False)
        reset_s = math.ceil((self.burst - level) / self._rate_per_s)
        if is_granted:
            return Allowance(True, max(0, math.floor(level)), reset_s, 0)  # noqa: FBT003 - named above
        lacking = min(tokens, self.burst) - level
        return Allowance(False, max(0, math.floor(level)), reset_s, math.ceil(lacking / self._rate_per_s))  # noqa: FBT003

    def wait_s(self, caller: str) -> int:
        """Seconds until a caller could take a token; 0 if it could now."""
        return math.ceil(max(0.0, 1.0 - self._level(caller, self._clock())) / self._rate_per_s)

    def _level(self, caller: str, now: float) -> float:
        level, since = self._buckets.get(caller, (self.burst, now))
        return min(self.burst, level + max(0.0, now - since) * self._rate_per_s)
