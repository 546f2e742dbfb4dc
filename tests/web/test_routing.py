"""Bodies are read strictly and not too deeply."""

from __future__ import annotations

import json

import httpx
import orjson
import pytest
from starlette.types import Message

from service.web.errors import InvalidRequestError
from service.web.routing import JsonRequest
from tests.factories.http import Running

pytestmark = pytest.mark.anyio


def request(started: Running, body: bytes) -> JsonRequest:
    async def receive() -> Message:
        return {"type": "http.request", "body": body}

    return JsonRequest({"type": "http", "headers": [], "state": {"services": started.services}}, receive)


def nested(depth: int) -> bytes:
    return b'{"a":' * (depth - 1) + b"[]" + b"}" * (depth - 1)


async def test_bodies_are_read_up_to_the_limit(started: Running) -> None:
    limit = started.services.settings.max_json_depth
    assert await request(started, b'{"a": ["b", 1.5, null]}').json() == {"a": ["b", 1.5, None]}
    assert await request(started, b"1").json() == 1
    assert await request(started, nested(limit)).json() == json.loads(nested(limit))
    with pytest.raises(InvalidRequestError):
        await request(started, nested(limit + 1)).json()


@pytest.mark.parametrize(
    "body", [b"NaN", b"Infinity", b"{'a': 1}", b"[1,]", b"\xff", b'"\\ud800"', b"", b"01", b"[" * 5000]
)
async def test_what_is_no_json_is_refused(started: Running, body: bytes) -> None:
    with pytest.raises(orjson.JSONDecodeError):
        await request(started, body).json()


ASKED = {"first": "S235JR", "second": "A4-80", "environment": "harbour", "view": "decision"}


@pytest.mark.parametrize(
    ("wrong", "pointers"),
    [
        ({"first": ""}, ["/first"]),
        ({"first_area_cm2": "many", "view": "all"}, ["/first_area_cm2", "/view"]),
        ({"functions": ["structural", "decorative"]}, ["/functions/1"]),
    ],
)
async def test_all_that_is_wrong_with_a_query_is_told_at_once(
    client: httpx.AsyncClient, wrong: dict[str, str | list[str]], pointers: list[str]
) -> None:
    refusal = await client.get("/v1/couples", params={**ASKED, **wrong})
    assert refusal.status_code == 422
    assert [(each["location"], each["pointer"]) for each in refusal.json()["errors"]] == [
        ("query", pointer) for pointer in pointers
    ]


async def test_a_name_that_may_be_repeated_gives_a_list(client: httpx.AsyncClient) -> None:
    functions = {"functions": ["structural", "seal"]}
    answer = await client.get("/v1/couples", params={**ASKED, **functions, "view": "full"})
    assert answer.json()["joint"]["functions"] == functions["functions"]
