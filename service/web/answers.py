"""Answers that were given: kept in memory by digest, written to the database behind the caller's back.

Writing later keeps the database off a lookup's way. What a crash can lose is the last moment's rows; the
same question then gives the same bytes at the same address again, because both follow from the digest.
"""

from __future__ import annotations

import logging
import threading
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import islice

from service.storage.distress import distress
from service.web.conditional import repr_digest

logger = logging.getLogger(__name__)

_MOST_WAITING = 20_000
_MOST_TOGETHER = 512
_PAUSE_S = 1.0
"""Between two attempts to write to a database that is in trouble."""

_GATHER_S = 0.05
"""How long an answer waits for others to be written with it: each transaction has its price."""

_PATIENCE_S = 10.0
"""How long those who make many answers wait for them to be written."""

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
        if kept := self.recall(digest) or self._scribe.find(digest):
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
        """Have answers written while their maker makes more, no faster than the database takes them.

        They are not remembered: a batch would push out what is asked for again.
        """
        self._scribe.wait(_MOST_TOGETHER)
        for answer in answers:
            self._scribe.write(answer)

    def settle(self) -> None:
        """Wait until all answers are written: what is kept for good shall name none that a crash can lose."""
        self._scribe.wait(0)

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
    """A thread that writes answers in batches; until they are written they can be found here."""

    def __init__(self, store: Callable[[Sequence[KeptAnswer]], None]) -> None:
        self._store = store
        self._unwritten: dict[str, KeptAnswer] = {}
        self._change = threading.Condition()
        self._awaiting = 0
        self._is_in_trouble = False
        self._is_closing = False
        self._thread = threading.Thread(target=self._work, name="scribe", daemon=True)
        self._thread.start()

    @property
    def waiting(self) -> int:
        """Answers that wait."""
        return len(self._unwritten)

    def find(self, digest: str) -> KeptAnswer | None:
        """Return an answer that waits."""
        return self._unwritten.get(digest)

    def write(self, answer: KeptAnswer) -> None:
        """Have an answer written; if the database has fallen far behind, it is dropped and logged."""
        with self._change:
            if len(self._unwritten) < _MOST_WAITING:
                self._unwritten[answer.digest] = answer
                self._change.notify_all()
                return
        logger.warning("answer not stored, too many are waiting", extra={"facts": {"digest": answer.digest}})

    def wait(self, most: int) -> None:
        """Wait until at most so many answers wait; not while the database is in trouble."""
        with self._change:
            self._awaiting += 1
            self._change.notify_all()
            self._change.wait_for(lambda: len(self._unwritten) <= most or self._is_in_trouble, _PATIENCE_S)
            self._awaiting -= 1

    def close(self) -> None:
        """Write what is waiting and stop; what the database does not take now is given up."""
        with self._change:
            self._is_closing = True
            self._change.notify_all()
        self._thread.join()

    def _work(self) -> None:
        while answers := self._next():
            is_done = self._try_to_store(answers) or self._is_closing
            with self._change:
                self._is_in_trouble = not is_done
                for answer in answers if is_done else ():
                    del self._unwritten[answer.digest]
                self._change.notify_all()
                self._change.wait_for(lambda: self._is_closing, 0.0 if is_done else _PAUSE_S)

    def _next(self) -> list[KeptAnswer]:
        """Wait for answers and a little for more; return those that have waited longest, none at the end."""
        with self._change:
            self._change.wait_for(lambda: self._unwritten or self._is_closing)
            self._change.wait_for(self._is_urgent, _GATHER_S)
            return list(islice(self._unwritten.values(), _MOST_TOGETHER))

    def _is_urgent(self) -> bool:
        return self._awaiting > 0 or self._is_closing or len(self._unwritten) >= _MOST_TOGETHER

    def _try_to_store(self, answers: Sequence[KeptAnswer]) -> bool:
        """Tell whether there is nothing left to do: only the trouble of a database passes."""
        try:
            self._store(answers)
        except Exception as error:
            logger.exception("answers not stored", extra={"facts": {"count": len(answers)}})
            return distress(error) is None
        return True
