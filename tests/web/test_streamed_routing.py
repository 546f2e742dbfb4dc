"""Routes that read their own bodies are in the document, and checked, like any other."""

from __future__ import annotations

import httpx
import pytest

from service.web.batch_input import JSON, NDJSON
from service.web.schemas.batch import BatchRequest
from service.web.streamed_routing import body_in
from tests.factories.http import problem

pytestmark = pytest.mark.anyio


def test_a_body_is_described_in_all_its_formats() -> None:
    body = body_in(BatchRequest, NDJSON, JSON)["requestBody"]
    assert body["required"]
    assert list(body["content"]) == [NDJSON, JSON]
    assert set(body["content"][JSON]["schema"]["properties"]) == {"couples", "surfaces", "defaults"}
    assert "$defs" not in body["content"][JSON]["schema"]


async def test_queries_and_formats_are_checked_all_the_same(client: httpx.AsyncClient) -> None:
    typed = {"Content-Type": NDJSON}
    misspelt = await client.post("/v1/couples/batch?viev=full", content=b"", headers=typed)
    assert problem(misspelt, 422, "invalid-request")["errors"][0]["suggestions"] == ["view"]
    unacceptable = await client.post(
        "/v1/couples/batch", content=b"", headers={**typed, "Accept": "text/csv"}
    )
    problem(unacceptable, 406, "not-acceptable")
