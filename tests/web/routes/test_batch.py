"""Many couples in one request."""

from __future__ import annotations

import hashlib
import json

import pytest

from service.settings import Settings
from tests.factories.http import running

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
NDJSON = {"Content-Type": "application/x-ndjson"}


async def test_lines_come_back_in_order_and_one_fault_spoils_only_its_own(seed_url: str) -> None:
    couples = [
        {"ref": "a", "first": "EN AW-6082-T6", "second": "A4-80", "environment": PLACE},
        {"ref": "b", "first": "EN AW-6082-T6", "second": "A4-80", "environment": "nowhere"},
        {"ref": "c", "first": "S235JR", "second": "A4-80", "environment": PLACE},
    ]
    body = "\n".join(json.dumps(couple) for couple in couples)
    async with running(Settings(database_url=seed_url)) as application:
        response = await application.client.post("/v1/couples/batch", content=body, headers=NDJSON)
    lines = [json.loads(line) for line in response.text.splitlines()]
    assert [line.get("ref") for line in lines[:3]] == ["a", "b", "c"]
    assert "error" in lines[1]
    assert (lines[3]["complete"], lines[3]["count"], lines[3]["failed"]) == (True, 3, 1)


async def test_the_closing_line_holds_the_digest_of_the_others(seed_url: str) -> None:
    body = json.dumps({"first": "S235JR", "second": "A4-80", "environment": PLACE})
    async with running(Settings(database_url=seed_url)) as application:
        response = await application.client.post("/v1/couples/batch", content=body, headers=NDJSON)
    *lines, closing = response.content.splitlines(keepends=True)
    assert json.loads(closing)["digest"] == hashlib.sha256(b"".join(lines)).hexdigest()


async def test_an_answer_has_the_bytes_that_the_same_question_gets_alone(seed_url: str) -> None:
    couple = {"first": "S235JR", "second": "A4-80", "environment": PLACE}
    async with running(Settings(database_url=seed_url)) as application:
        batch = await application.client.post("/v1/couples/batch", content=json.dumps(couple), headers=NDJSON)
        alone = await application.client.post("/v1/couples", json=couple)
    assert alone.content in batch.content
