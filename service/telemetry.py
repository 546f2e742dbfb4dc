"""Logs of the process, set up once: one JSON object a line, each with the id of its request.

Other modules ask for ``logging.getLogger(__name__)`` and pass facts in ``extra={"facts": {...}}``; texts
stay constant so that they can be counted. Metrics and traces are set up here too when they come.
"""

from __future__ import annotations

import json
import logging
import sys
from contextvars import ContextVar
from datetime import UTC, datetime
from typing import IO, Any

request_id: ContextVar[str] = ContextVar("request_id", default="")
"""Id of the request that this task works on; empty outside a request."""


class JsonFormatter(logging.Formatter):
    """One JSON object for each record, with sorted and stable member names."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the record as one line."""
        entry: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
        }
        if request := request_id.get():
            entry["request_id"] = request
        entry.update(getattr(record, "facts", {}))
        if record.exc_info:
            entry["traceback"] = self.formatException(record.exc_info)
        return json.dumps(entry, default=str)


def set_up(level: str = "INFO", stream: IO[str] | None = None) -> None:
    """Send the records of the service and of its server to one stream of JSON lines.

    Calling it again replaces the handler of the earlier call, so that two applications in one process
    do not log everything twice.
    """
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(JsonFormatter())
    for name in ("service", "uvicorn", "uvicorn.error"):
        logger = logging.getLogger(name)
        logger.handlers = [handler] if name != "uvicorn.error" else []
        logger.setLevel(level)
    # Requests are logged by the web room, with their id and time; a second line would say less.
    logging.getLogger("uvicorn.access").disabled = True
