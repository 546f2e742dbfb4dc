"""Logs of the process, set up once: one JSON object a line, each with the id of its request.

Other modules ask for ``logging.getLogger(__name__)`` and pass facts in ``extra={"facts": {...}}``; texts
stay constant so that they can be counted.
"""

from __future__ import annotations

import contextlib
import logging
import sys
from collections.abc import Iterable, Mapping
from contextvars import ContextVar
from datetime import UTC, datetime
from functools import lru_cache
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
        entry = head(record.created, record.levelname.lower(), record.name, record.getMessage())
        if request := request_id.get():
            entry["request_id"] = request
        entry.update(getattr(record, "facts", {}))
        if record.exc_info:
            entry["traceback"] = self.formatException(record.exc_info)
        return written(entry).decode().removesuffix(LineHandler.terminator)


class LineHandler(logging.StreamHandler[Any]):
    """Writes records, and lines that never were one; no secret gets through."""

    redact = Redaction()

    def format(self, record: logging.LogRecord) -> str:
        """Return a record as a line."""
        return self.redact(super().format(record))

    def write(self, lines: str) -> None:
        """Write whole lines; where nothing takes them they are lost, and nothing else is."""
        self.acquire()
        try:
            with contextlib.suppress(OSError, ValueError):  # no room; closed
                self.stream.write(self.redact(lines))
                self.stream.flush()
        finally:
            self.release()


def service_handlers() -> list[LineHandler]:
    """Return where the records of the service go; pytest may listen beside them."""
    handlers = logging.getLogger(_LOGGERS[0]).handlers
    return [handler for handler in handlers if isinstance(handler, LineHandler)]


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


def head(created_s: float, level: str, name: str, message: str) -> dict[str, Any]:
    """Return the members with which every line begins."""
    return {"time": _moment(created_s), "level": level, "logger": name, "message": message}


def written(entry: Mapping[str, Any]) -> bytes:
    """Write a whole line."""
    return orjson.dumps(entry, default=str, option=orjson.OPT_NON_STR_KEYS | orjson.OPT_APPEND_NEWLINE)


def _moment(created_s: float) -> str:
    seconds = int(created_s)
    return f"{_whole_second(seconds)}.{int((created_s - seconds) * 1000):03d}+00:00"


@lru_cache(maxsize=8)
def _whole_second(seconds: int) -> str:
    """Write a second; asking the calendar for each line costs more than all else of it."""
    return datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%M:%S")
