"""Logs of the process, set up once: one JSON object a line, each with the id of its request.

Other modules ask for ``logging.getLogger(__name__)`` and pass facts in ``extra={"facts": {...}}``; texts
stay constant so that they can be counted.
"""

from __future__ import annotations

import logging
import sys
import time
from collections.abc import Iterable, Mapping
from contextvars import ContextVar
from datetime import UTC, datetime
from typing import IO, Any

import orjson

from service.telemetry.redaction import Redaction

request_id: ContextVar[str] = ContextVar("request_id", default="")
"""Id of the request that this task works on; empty outside a request."""

_LOGGERS = ("service", "uvicorn", "uvicorn.error")


class JsonFormatter(logging.Formatter):
    """One JSON object for each record, with stable member names."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the record as one line."""
        facts = dict(getattr(record, "facts", {}))
        if record.exc_info:
            facts["traceback"] = self.formatException(record.exc_info)
        return _line(record.created, record.levelname.lower(), record.name, record.getMessage(), facts)


class RequestLog:
    """Writes the line of each request to the handler of the service, without a record in between.

    A request that is answered from memory takes some 20 µs; making a record would double that.
    """

    def __init__(self, name: str) -> None:
        self._name = name
        self._logger = logging.getLogger(name)
        self._service = logging.getLogger(_LOGGERS[0])

    def info(self, message: str, facts: Mapping[str, Any]) -> None:
        """Write a line of level INFO, unless that is switched off."""
        if self._logger.isEnabledFor(logging.INFO):
            for handler in self._service.handlers:
                if isinstance(handler, LineHandler):
                    redact = handler.redact
                    # Only texts can hold a secret, and they are shorter than the line.
                    shown = {
                        name: redact(value) if type(value) is str else value for name, value in facts.items()
                    }
                    handler.write(_line(time.time(), "info", self._name, message, shown))


class LineHandler(logging.StreamHandler[Any]):
    """Writes records, and lines that never were one; no secret gets through."""

    redact = Redaction()

    def format(self, record: logging.LogRecord) -> str:
        """Return a record as a line."""
        return self.redact(super().format(record))

    def write(self, line: str) -> None:
        """Write one line as a whole."""
        self.acquire()
        try:
            self.stream.write(line + self.terminator)
            self.stream.flush()
        finally:
            self.release()


def set_up(level: str = "INFO", stream: IO[str] | None = None, secrets: Iterable[str] = ()) -> None:
    """Send the records of the service and of its server to one stream of JSON lines.

    ``secrets`` are kept out of every line, and so is what looks like one. What other libraries warn of goes
    the same way. Calling it again replaces the handler of the earlier call, so that two applications in one
    process do not log everything twice.
    """
    handler = LineHandler(stream or sys.stderr)
    handler.setFormatter(JsonFormatter())
    handler.redact = Redaction(secrets)
    for name in _LOGGERS:
        logger = logging.getLogger(name)
        logger.handlers = [handler] if name != "uvicorn.error" else []
        logger.setLevel(level)
    logging.lastResort = handler
    # Requests are logged by the web room, with their id and time; a second line would say less.
    logging.getLogger("uvicorn.access").disabled = True


def _line(created_s: float, level: str, name: str, message: str, facts: Mapping[str, Any]) -> str:
    entry: dict[str, Any] = {
        "time": datetime.fromtimestamp(created_s, UTC).isoformat(timespec="milliseconds"),
        "level": level,
        "logger": name,
        "message": message,
    }
    if request := request_id.get():
        entry["request_id"] = request
    entry.update(facts)
    return orjson.dumps(entry, default=str, option=orjson.OPT_NON_STR_KEYS).decode()
