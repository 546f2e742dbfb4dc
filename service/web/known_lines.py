"""Lines of batches that come again as they were: the same bytes in, the same bytes out.

A bill of materials is checked every night, and most of it has not changed. A line that was answered
before is found by its own bytes, without being read. Batches have a memory of their own, so that a
large one does not push out what is asked for singly.
"""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict, deque
from collections.abc import Sequence

_OVERHEAD_BYTES = 300
"""Memory of an entry besides its bytes, measured roughly."""

_SCOPE_BYTES = 700
"""Memory of a scope with one line, besides that line."""

Scope = bytes


def scope_of(*parts: str | bytes) -> Scope:
    """Name everything but the line itself that an answer depends on."""
    digest = hashlib.sha256()
    for part in parts:
        content = part.encode() if isinstance(part, str) else part
        digest.update(len(content).to_bytes(8, "big") + content)
    return digest.digest()


class KnownLines:
    """Answers by scope and line, bounded by the memory that they take.

    The scope that rested longest loses its lines first, and of those the one that rested longest.
    """

    def __init__(self, limit_bytes: int) -> None:
        self._limit_bytes = limit_bytes
        self._size_bytes = 0
        self._kept: OrderedDict[Scope, OrderedDict[bytes, bytes]] = OrderedDict()
        self._lock = threading.Lock()

    @property
    def size_bytes(self) -> int:
        """Memory that is in use."""
        return self._size_bytes

    def recall(self, scope: Scope, lines: Sequence[bytes]) -> list[bytes | None]:
        """Return for each line what was answered to it, ``None`` where that is not known."""
        with self._lock:
            kept = self._kept.get(scope)
            if kept is None:
                return [None] * len(lines)
            self._kept.move_to_end(scope)
            found = list(map(kept.get, lines))
            known = lines if None not in found else filter(kept.__contains__, lines)
            deque(map(kept.move_to_end, known), maxlen=0)
        return found

    def keep(self, scope: Scope, line: bytes, answer: bytes) -> None:
        """Remember what was answered to a line."""
        size = _size(line, answer)
        if size + _SCOPE_BYTES > self._limit_bytes:
            return
        with self._lock:
            kept = self._scope(scope)
            before = kept.pop(line, None)
            if before is not None:
                self._size_bytes -= _size(line, before)
            kept[line] = answer
            self._size_bytes += size
            while self._size_bytes > self._limit_bytes:
                self._drop_oldest()

    def _scope(self, scope: Scope) -> OrderedDict[bytes, bytes]:
        """Lines of a scope, which thereby is the last to lose some."""
        kept = self._kept.get(scope)
        if kept is None:
            kept = self._kept[scope] = OrderedDict()
            self._size_bytes += _SCOPE_BYTES
        self._kept.move_to_end(scope)
        return kept

    def _drop_oldest(self) -> None:
        scope, kept = next(iter(self._kept.items()))
        self._size_bytes -= _size(*kept.popitem(last=False))
        if not kept:
            del self._kept[scope]
            self._size_bytes -= _SCOPE_BYTES


def _size(line: bytes, answer: bytes) -> int:
    return len(line) + len(answer) + _OVERHEAD_BYTES
