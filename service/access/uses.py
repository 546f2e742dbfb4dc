"""When keys were last used: noted in memory by every request, written for all keys at once now and then."""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable, Mapping
from datetime import UTC, datetime

from sqlalchemy.exc import SQLAlchemyError

logger = logging.getLogger(__name__)

WRITTEN_EVERY_S = 30.0
"""How late the last use of a key may be known; a process that is killed forgets as much."""


class UseLog:
    """Uses that are not written yet, the latest of each key."""

    def __init__(
        self, write: Callable[[Mapping[str, datetime]], None], clock: Callable[[], float] = time.time
    ) -> None:
        self._write = write
        self._clock = clock
        self._pending: dict[str, float] = {}
        self._lock = threading.Lock()

    def note(self, key_id: str) -> None:
        """Remember that a key is in use, without any writing."""
        self._pending[key_id] = self._clock()

    def flush(self) -> None:
        """Write what was noted. What cannot be written is kept for the next time."""
        with self._lock:
            uses, self._pending = self._pending, {}
            if not uses:
                return
            try:
                self._write({key_id: datetime.fromtimestamp(s, UTC) for key_id, s in uses.items()})
            except SQLAlchemyError as error:
                self._pending = {**uses, **self._pending}
                facts = {"keys": len(uses), "reason": type(error).__name__}
                logger.warning("use of keys not noted", extra={"facts": facts})
