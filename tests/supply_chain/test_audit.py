"""An audit that could look nothing up is no good news."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.supply_chain.audit import SOUND, UNKNOWN, VULNERABLE, main, outcome

WELL: dict[str, Any] = {"name": "msgspec", "version": "1.0", "vulns": []}
ILL: dict[str, Any] = {
    "name": "orjson",
    "version": "1.0",
    "vulns": [{"id": "PYSEC-1", "fix_versions": ["1.1"]}, {"id": "PYSEC-2", "fix_versions": []}],
}
SKIPPED = {"name": "rich", "skip_reason": "Dependency not found and could not be audited"}


@pytest.mark.parametrize(
    ("found", "status", "last"),
    [
        ([WELL], SOUND, "audit: 0 of 1 packages have known vulnerabilities"),
        ([WELL, ILL], VULNERABLE, "audit: 1 of 2 packages have known vulnerabilities"),
        ([WELL, SKIPPED], UNKNOWN, "audit: 1 of 2 packages could not be looked up"),
        ([ILL, SKIPPED], UNKNOWN, "audit: 1 of 2 packages could not be looked up"),
        ([], UNKNOWN, "audit: 0 of 0 packages could not be looked up"),
    ],
)
def test_what_was_not_looked_up_is_a_failure(found: list[Any], status: int, last: str) -> None:
    told, lines = outcome(json.dumps({"dependencies": found}), "")
    assert told == status
    assert lines[-1].startswith(last)


def test_each_advisory_is_a_line() -> None:
    _, lines = outcome(json.dumps({"dependencies": [ILL]}), "")
    assert lines[:2] == ["orjson 1.0: PYSEC-1, mended in 1.1", "orjson 1.0: PYSEC-2, mended in no version"]


@pytest.mark.parametrize(("report", "said"), [("", "Traceback\nConnectionError: no route\n"), ("[]", "")])
def test_a_service_that_cannot_be_reached_is_told_in_one_line(report: str, said: str) -> None:
    status, (line,) = outcome(report, said)
    assert status == UNKNOWN
    assert line.endswith("ConnectionError: no route" if said else "it said nothing")


def test_the_tool_is_run_and_its_silence_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main("true") == UNKNOWN
    assert capsys.readouterr().out.count("\n") == 1
