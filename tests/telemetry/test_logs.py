"""Logs are JSON lines that carry the request."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest

from service import telemetry
from service.telemetry.logs import head

NAMES = ("service", "uvicorn", "uvicorn.error", "uvicorn.access")


@pytest.fixture(autouse=True)
def loggers_as_before() -> Iterator[None]:
    before = {}
    for name in NAMES:
        logger = logging.getLogger(name)
        before[name] = (logger.handlers, logger.level, logger.propagate, logger.disabled)
    yield
    for name, values in before.items():
        logger = logging.getLogger(name)
        logger.handlers, logger.level, logger.propagate, logger.disabled = values


def test_a_record_is_one_json_line_with_its_facts_and_request() -> None:
    stream = io.StringIO()
    telemetry.set_up("INFO", stream)
    token = telemetry.request_id.set("r-1")
    try:
        logging.getLogger("service.web").info("two\nlines", extra={"facts": {"status": 200}})
    finally:
        telemetry.request_id.reset(token)
    lines = stream.getvalue().splitlines()
    assert len(lines) == 1
    entry = json.loads(lines[0])
    assert (entry["message"], entry["status"], entry["request_id"]) == ("two\nlines", 200, "r-1")
    assert entry["level"] == "info"


def test_records_below_the_level_are_dropped_and_setting_up_twice_writes_once() -> None:
    stream = io.StringIO()
    telemetry.set_up("WARNING", stream)
    telemetry.set_up("WARNING", stream)
    logging.getLogger("service.web").info("unimportant")
    logging.getLogger("service.web").warning("important")
    assert stream.getvalue().count("\n") == 1


def test_a_failure_keeps_its_traceback_inside_the_line() -> None:
    stream = io.StringIO()
    telemetry.set_up("INFO", stream)
    try:
        _ = 1 / 0
    except ZeroDivisionError:
        logging.getLogger("service").exception("failed")
    assert "ZeroDivisionError" in json.loads(stream.getvalue())["traceback"]


@pytest.mark.parametrize("at_s", [0.0, 1_764_000_000.0, 1_764_000_000.9996, 4_102_444_799.5])
def test_a_line_tells_its_moment_in_milliseconds_of_universal_time(at_s: float) -> None:
    expected = datetime.fromtimestamp(int(at_s * 1000) / 1000, UTC)
    assert head(at_s, "info", "service", "x")["time"] == expected.isoformat(timespec="milliseconds")
