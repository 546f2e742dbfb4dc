"""Hearing of new releases and overlays at once: an acceleration on PostgreSQL, where looking would do.

Whoever publishes, or changes an overlay, notifies a channel in the same transaction; each process listens
on a connection of its own. A notice that is lost costs only the time to the next look.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from contextlib import closing
from typing import Any

from sqlalchemy import text
from sqlalchemy.orm import Session

from service.storage.engine import Database

logger = logging.getLogger(__name__)

CHANNEL = "faying_releases"
_BREATH_S = 0.5
"""Seconds for which listening does not look whether it shall stop."""
_PAUSE_S = 5.0


def announce(session: Session) -> None:
    """Tell all processes of a new release or overlay as soon as the transaction is committed."""
    if session.get_bind().dialect.name == "postgresql":
        session.execute(text(f"NOTIFY {CHANNEL}"))


class Hearing:
    """A thread that calls ``heard`` whenever something is announced; on SQLite there is nothing to hear."""

    def __init__(self, database: Database, heard: Callable[[], object]) -> None:
        self._database = database
        self._heard = heard
        self._is_closing = threading.Event()
        self._thread = threading.Thread(target=self._work, name="hearing", daemon=True)
        if not database.is_sqlite:
            self._thread.start()

    def close(self) -> None:
        """Stop listening."""
        self._is_closing.set()
        if self._thread.is_alive():
            self._thread.join()

    def _work(self) -> None:
        while not self._is_closing.is_set():
            try:
                self._listen()
            except Exception:  # whatever a driver raises when its server is gone
                logger.warning("cannot hear of releases, looking for them goes on", exc_info=True)
                self._is_closing.wait(_PAUSE_S)

    def _listen(self) -> None:
        """Listen on a connection that leaves the pool, which is not there to be held."""
        pooled = self._database.engine.raw_connection()
        driver: Any = pooled.driver_connection
        pooled.detach()
        with closing(driver) as connection:
            connection.autocommit = True
            connection.execute(f"LISTEN {CHANNEL}")
            while not self._is_closing.is_set():
                for _ in connection.notifies(timeout=_BREATH_S, stop_after=1):
                    self._heard()
