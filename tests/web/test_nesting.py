"""Nesting is limited wherever JSON comes in."""

from __future__ import annotations

import httpx
import orjson
import pytest

from service.web.batch_input import MAX_DEPTH, NDJSON
from service.web.errors import InvalidRequestError
from service.web.nesting import check_nesting, is_deeper
from tests.factories.http import faults, problem

COUPLE = b'{"first":"A4-80","second":"S235JR","environment":"harbour"}'


def nested(depth: int) -> bytes:
    return b'{"a":' * (depth - 1) + b"[]" + b"}" * (depth - 1)


@pytest.mark.parametrize("depth", [1, 2, 24, 400])
def test_levels_are_counted(depth: int) -> None:
    value = orjson.loads(nested(depth))
    assert not is_deeper(value, depth)
    assert is_deeper(value, depth - 1)
    check_nesting(value, depth)
    with pytest.raises(InvalidRequestError):
        check_nesting(value, depth - 1)


def test_width_is_no_depth() -> None:
    assert not is_deeper([[index] for index in range(1000)], 2)
    assert not is_deeper("[[[[", 1)


@pytest.mark.anyio
@pytest.mark.parametrize(
    "path", ["/v1/couples", "/v1/assemblies/check", "/v1/resolve", "/v1/jobs?kind=assembly"]
)
@pytest.mark.parametrize("depth", [25, 900, 100_000])
async def test_no_body_is_nested_without_end(client: httpx.AsyncClient, path: str, depth: int) -> None:
    response = await client.post(path, content=nested(depth), headers={"Content-Type": "application/json"})
    assert response.status_code in {400, 422}, response.text
    if depth < 1000:
        assert problem(response, 422, "invalid-request")["errors"][0]["code"] == "too_deep"


@pytest.mark.anyio
async def test_what_couples_of_a_batch_share_is_not_nested_without_end(client: httpx.AsyncClient) -> None:
    for depth in (MAX_DEPTH + 1, 900, 100_000):
        head = b'{"defaults":{"environment":%s}}' % nested(depth)
        whole = b'{"couples":[],"surfaces":[%s]}' % nested(depth)
        for body, content_type in ((head + b"\n" + COUPLE, NDJSON), (whole, "application/json")):
            for path in ("/v1/couples/batch", "/v1/jobs?kind=batch"):
                response = await client.post(path, content=body, headers={"Content-Type": content_type})
                # Past the reach of the parser the first line is no head but a couple that cannot be read.
                assert response.status_code in {400, 422, 200, 202}, response.text
                if depth < 1000:
                    assert faults(problem(response, 422, "invalid-request")) == {"": []}


@pytest.mark.anyio
async def test_a_couple_nested_too_deeply_spoils_only_itself(client: httpx.AsyncClient) -> None:
    deep = [b'{"first":%s}' % nested(depth) for depth in (MAX_DEPTH + 1, 900, 10_000)]
    response = await client.post(
        "/v1/couples/batch", content=b"\n".join([*deep, COUPLE]), headers={"Content-Type": NDJSON}
    )
    *lines, closing = [orjson.loads(line) for line in response.content.splitlines()]
    assert len(lines) == 4
    assert closing["complete"]
