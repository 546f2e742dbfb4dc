"""The lines of requests are written together, at once, and never at the cost of an answer."""

from __future__ import annotations

import asyncio
import io
import json
import logging
from collections.abc import Iterator

import pytest

from service import telemetry

NAMES = ("service", "uvicorn", "uvicorn.error")
pytestmark = pytest.mark.anyio


class Stream(io.StringIO):
    """Counts how often it is written to; may be full."""

    writes = 0
    is_full = False

    def write(self, text: str) -> int:
        self.writes += 1
        if self.is_full:
            raise OSError(28, "No space left on device")
        return super().write(text)


@pytest.fixture
def stream() -> Iterator[Stream]:
    loggers = [logging.getLogger(name) for name in NAMES]
    before = [(logger.handlers, logger.level) for logger in loggers]
    stream = Stream()
    telemetry.set_up("INFO", stream, secrets=["grains-of-paradise"])
    yield stream
    for logger, (handlers, level) in zip(loggers, before, strict=True):
        logger.handlers, logger.level = handlers, level


async def test_what_one_turn_answers_is_written_at_its_end_in_one_go(stream: Stream) -> None:
    log = telemetry.RequestLog("service.web")
    for number in range(3):
        log.add({"request_id": f"r-{number}", "status": 200 + number})
    assert stream.writes == 0
    await asyncio.sleep(0)
    assert stream.writes == 1
    entries = [json.loads(line) for line in stream.getvalue().splitlines()]
    assert [(entry["request_id"], entry["status"]) for entry in entries] == [
        ("r-0", 200), ("r-1", 201), ("r-2", 202)
    ]  # fmt: skip
    assert {(entry["level"], entry["logger"], entry["message"]) for entry in entries} == {
        ("info", "service.web", "request")
    }
    log.add({"request_id": "r-3"})
    await asyncio.sleep(0)
    assert stream.writes == 2


async def test_nothing_is_left_when_the_service_stops(stream: Stream) -> None:
    log = telemetry.RequestLog("service.web")
    log.add({"request_id": "r-1"})
    log.flush()
    await asyncio.sleep(0)
    assert stream.getvalue().count("r-1") == 1


async def test_no_secret_gets_through(stream: Stream) -> None:
    log = telemetry.RequestLog("service.web")
    log.add({"path": "/grains-of-paradise/fay_abcdefghjk_" + "A" * 43})
    log.flush()
    assert "grains-of-paradise" not in stream.getvalue()
    assert "AAAA" not in stream.getvalue()


async def test_a_full_disk_costs_lines_and_nothing_else(stream: Stream) -> None:
    log = telemetry.RequestLog("service.web")
    stream.is_full = True
    log.add({"request_id": "r-1"})
    log.flush()
    stream.is_full = False
    log.add({"request_id": "r-2"})
    log.flush()
    assert json.loads(stream.getvalue())["request_id"] == "r-2"


async def test_nothing_is_written_below_the_level(stream: Stream) -> None:
    telemetry.set_up("WARNING", stream)
    log = telemetry.RequestLog("service.web")
    log.add({"request_id": "r-1"})
    log.flush()
    assert stream.getvalue() == ""


async def test_a_stream_that_was_closed_stops_nothing(stream: Stream) -> None:
    log = telemetry.RequestLog("service.web")
    stream.close()
    log.add({"request_id": "r-1"})
    log.flush()
    assert stream.closed
