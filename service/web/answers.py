"""Answers that were given: kept in memory by digest, written to the database behind the caller's back.

Writing later keeps the database off a lookup's way. What a crash can lose is the last moment's rows; the
same question then gives the same bytes at the same address again, because both follow from the digest.
"""

from __future__ import annotations

import logging
import queue
import threading
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from service.storage.distress import distress
from service.web.conditional import repr_digest

logger = logging.getLogger(__name__)

_MOST_WAITING = 20_000
_MOST_TOGETHER = 500
_PAUSE_S = 1.0
"""Between two attempts to write to a database that is in trouble."""

_OVERHEAD_BYTES = 1_000
"""Memory of an entry besides its bytes, measured roughly; it keeps small answers from being free."""


@dataclass(frozen=True, slots=True)
class KeptAnswer:
    """One issued answer. ``tenant_id`` is set where it depends on what only one tenant may see."""

    digest: str
    release_label: str
    engine: str
    tenant_id: str | None
    overlay_hash: str
    policy_hash: str
    request: bytes
    body: bytes
    decision: bytes
    repr_digests: dict[str, str] = field(default_factory=dict)

    def body_of(self, view: str) -> bytes:
        """Return the bytes of a view."""
        return self.decision if view == "decision" else self.body

    def repr_digest_of(self, view: str) -> str:
        """Return the Repr-Digest of a view, computed once."""
        if view not in self.repr_digests:
            self.repr_digests[view] = repr_digest(self.body_of(view))
        return self.repr_digests[view]

    @property
    def size_bytes(self) -> int:
        """Memory that it takes."""
        return len(self.request) + len(self.body) + len(self.decision) + _OVERHEAD_BYTES


class AnswerBook:
    """Answers by digest: a byte-bounded memory in front of the database."""

    def __init__(
        self,
        limit_bytes: int,
        store: Callable[[Sequence[KeptAnswer]], None],
        fetch: Callable[[str], KeptAnswer | None],
    ) -> None:
        self._limit_bytes = limit_bytes
        self._fetch = fetch
        self._size_bytes = 0
        self._kept: OrderedDict[str, KeptAnswer] = OrderedDict()
        self._lock = threading.Lock()
        self._scribe = Scribe(store)

    @property
    def size_bytes(self) -> int:
        """Memory that is in use."""
        return self._size_bytes

    @property
    def unwritten(self) -> int:
        """Answers that wait to be written."""
        return self._scribe.waiting

    def recall(self, digest: str) -> KeptAnswer | None:
        """Return an answer that is in memory."""
        with self._lock:
            kept = self._kept.get(digest)
            if kept is not None:
                self._kept.move_to_end(digest)
            return kept

    def find(self, digest: str) -> KeptAnswer | None:
        """Return an answer from memory or the database, ``None`` if it was never issued."""
        if kept := self.recall(digest):
            return kept
        fetched = self._fetch(digest)
        if fetched is not None:
            self._remember(fetched)
        return fetched

    def keep(self, answer: KeptAnswer) -> None:
        """Remember a new answer and have it written."""
        self._remember(answer)
        self._scribe.write(answer)

    def keep_many(self, answers: Sequence[KeptAnswer]) -> None:
        """Write answers at once, so that whoever makes many of them goes at the database's pace.

        They are not remembered: a batch would push out what is asked for again.
        """
        self._scribe.write_now(answers)

    def close(self) -> None:
        """Write what is still waiting."""
        self._scribe.close()

    def _remember(self, answer: KeptAnswer) -> None:
        if answer.size_bytes > self._limit_bytes:
            return
        with self._lock:
            before = self._kept.pop(answer.digest, None)
            self._size_bytes += answer.size_bytes - (before.size_bytes if before else 0)
            self._kept[answer.digest] = answer
            while self._size_bytes > self._limit_bytes:
                _, dropped = self._kept.popitem(last=False)
                self._size_bytes -= dropped.size_bytes


class Scribe:
    """A thread that writes answers in batches."""

    def __init__(self, store: Callable[[Sequence[KeptAnswer]], None]) -> None:
        self._store = store
        self._waiting: queue.Queue[KeptAnswer | None] = queue.Queue(_MOST_WAITING)
        self._is_closing = threading.Event()
        self._thread = threading.Thread(target=self._work, name="scribe", daemon=True)
        self._thread.start()

    @property
    def waiting(self) -> int:
        """Answers that wait."""
        return self._waiting.qsize()

    def write(self, answer: KeptAnswer) -> None:
        """Have an answer written; if the database has fallen far behind, it is dropped and logged."""
        try:
            self._waiting.put_nowait(answer)
        except queue.Full:
            logger.warning(
                "answer not stored, too many are waiting", extra={"facts": {"digest": answer.digest}}
            )

    def write_now(self, answers: Sequence[KeptAnswer]) -> None:
        """Write answers before returning; those that a database in trouble does not take wait with others.

        A failure is logged only, as it is behind the caller's back.
        """
        if answers and not self._try_to_store(answers):
            for answer in answers:
                self.write(answer)

    def close(self) -> None:
        """Write what is waiting and stop; what the database does not take now is given up."""
        self._is_closing.set()
        self._waiting.put(None)
        self._thread.join()

    def _work(self) -> None:
        is_open = True
        while is_open:
            batch = [self._waiting.get()]
            while len(batch) < _MOST_TOGETHER and not self._waiting.empty():
                batch.append(self._waiting.get_nowait())
            is_open = None not in batch
            answers = [answer for answer in batch if answer is not None]
            while answers and not self._try_to_store(answers):
                if self._is_closing.is_set():
                    break
                self._is_closing.wait(_PAUSE_S)

    def _try_to_store(self, answers: Sequence[KeptAnswer]) -> bool:
        """Tell whether there is nothing left to do: only the trouble of a database passes."""
        try:
            self._store(answers)
        except Exception as error:
            logger.exception("answers not stored", extra={"facts": {"count": len(answers)}})
            return distress(error) is None
        return True
