"""Lines of batches that come again as they were: the same bytes in, the same bytes out.

A bill of materials is checked every night, and most of it has not changed. A line that was answered
before is found by its own bytes, without being read. Batches have a memory of their own, so that a
large one does not push out what is asked for singly.
"""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from collections.abc import Sequence

_OVERHEAD_BYTES = 300
"""Memory of an entry besides its bytes, measured roughly."""

Scope = bytes


def scope_of(*parts: str | bytes) -> Scope:
    """Name everything but the line itself that an answer depends on."""
    digest = hashlib.sha256()
    for part in parts:
        content = part.encode() if isinstance(part, str) else part
        digest.update(len(content).to_bytes(8, "big") + content)
    return digest.digest()


class KnownLines:
    """Answers by line, bounded by the memory that they take; the one that rested longest goes first."""

    def __init__(self, limit_bytes: int) -> None:
        self._limit_bytes = limit_bytes
        self._size_bytes = 0
        self._kept: OrderedDict[tuple[Scope, bytes], bytes] = OrderedDict()
        self._lock = threading.Lock()

    @property
    def size_bytes(self) -> int:
        """Memory that is in use."""
        return self._size_bytes

    def recall(self, scope: Scope, lines: Sequence[bytes]) -> list[bytes | None]:
        """Return for each line what was answered to it, ``None`` where that is not known."""
        found: list[bytes | None] = []
        with self._lock:
            kept, to_end = self._kept, self._kept.move_to_end
            for line in lines:
                key = (scope, line)
                answer = kept.get(key)
                if answer is not None:
                    to_end(key)
                found.append(answer)
        return found

    def keep(self, scope: Scope, line: bytes, answer: bytes) -> None:
        """Remember what was answered to a line."""
        size = _size(line, answer)
        if size > self._limit_bytes:
            return
        with self._lock:
            before = self._kept.pop((scope, line), None)
            if before is not None:
                self._size_bytes -= _size(line, before)
            self._kept[scope, line] = answer
            self._size_bytes += size
            while self._size_bytes > self._limit_bytes:
                (_, oldest), dropped = self._kept.popitem(last=False)
                self._size_bytes -= _size(oldest, dropped)


def _size(line: bytes, answer: bytes) -> int:
    return len(line) + len(answer) + _OVERHEAD_BYTES
