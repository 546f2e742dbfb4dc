"""The line of each request, written together for all that one turn of the event loop has answered.

A line costs little and writing it costs a system call, so a busy process makes one call for many lines and
an idle one writes at once. A process that is killed loses the lines of the turn in which that happens.
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Mapping
from typing import Any

from service.telemetry.logs import head, service_handlers, written


class RequestLog:
    """Lines of one application that wait for the end of the turn; only its event loop may add to them."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._logger = logging.getLogger(name)
        self._waiting: list[tuple[float, Mapping[str, Any]]] = []

    def add(self, facts: Mapping[str, Any]) -> None:
        """Have a line of level INFO written, unless that is switched off."""
        if self._logger.isEnabledFor(logging.INFO):
            if not self._waiting:
                asyncio.get_running_loop().call_soon(self.flush)
            self._waiting.append((time.time(), facts))

    def flush(self) -> None:
        """Write what is waiting."""
        waiting, self._waiting = self._waiting, []
        entries = [{**head(at_s, "info", self._name, "request"), **facts} for at_s, facts in waiting]
        lines = b"".join([written(entry) for entry in entries]).decode()
        for handler in service_handlers():
            handler.write(lines)
