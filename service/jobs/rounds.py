"""What has to be done again and again beside jobs: the watch, the webhooks, the tidying up."""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Self

from service.storage.engine import Database
from service.storage.repositories.jobs import JobsRepository
from service.storage.tables import utc_now

logger = logging.getLogger(__name__)

TIDY_EVERY_S = 3600.0


@dataclass(frozen=True, slots=True)
class Chore:
    """Something to do every so many seconds; ``do`` returns how much it found to do."""

    name: str
    every_s: float
    do: Callable[[], int]


class Rounds:
    """A thread for each chore. One that fails is logged and done again at its next time."""

    def __init__(self, chores: Sequence[Chore]) -> None:
        self._is_closing = threading.Event()
        self._threads = [
            threading.Thread(target=self._repeat, args=(chore,), name=chore.name, daemon=True)
            for chore in chores
        ]

    def start(self) -> Self:
        """Begin the rounds."""
        for thread in self._threads:
            thread.start()
        return self

    def close(self, patience_s: float = 15.0) -> None:
        """End after what is being done."""
        self._is_closing.set()
        deadline = time.monotonic() + patience_s
        for thread in self._threads:
            if thread.is_alive():
                thread.join(max(0.0, deadline - time.monotonic()))

    def _repeat(self, chore: Chore) -> None:
        while not self._is_closing.is_set():
            try:
                found = chore.do()
            except Exception:
                logger.exception("chore failed", extra={"facts": {"chore": chore.name}})
                found = 0
            if not found:
                self._is_closing.wait(chore.every_s)


def tidying(database: Database, keep_days: float) -> Chore:
    """Return the chore that forgets jobs whose results nobody needs any more."""

    def forget() -> int:
        with database.writing() as session:
            JobsRepository(session).forget(utc_now() - timedelta(days=keep_days))
        return 0

    return Chore("tidying", TIDY_EVERY_S, forget)
