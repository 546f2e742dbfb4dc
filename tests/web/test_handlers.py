"""From exceptions to problems: every bad field at once, with pointers and suggestions."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from tests.factories.http import faults, problem

pytestmark = pytest.mark.anyio

COUPLE: dict[str, Any] = {"first": "zinc", "second": "S235JR", "environment": "harbour"}


async def post(client: httpx.AsyncClient, **changes: Any) -> httpx.Response:
    return await client.post("/v1/couples", json=COUPLE | changes)


async def test_every_bad_field_is_named_at_once(client: httpx.AsyncClient) -> None:
    response = await post(client, first_area_cm2=-1, design_life_years="long", functions=["sael"], firts="x")
    body = problem(response, 422, "invalid-request")
    assert faults(body) == {
        "/first_area_cm2": [],
        "/design_life_years": [],
        "/functions/0": ["seal"],
        "/firts": ["first"],
    }
    assert {fault["location"] for fault in body["errors"]} == {"body"}


async def test_a_blank_text_is_told_in_words(client: httpx.AsyncClient) -> None:
    body = problem(await post(client, first=" "), 422, "invalid-request")
    assert [fault["detail"] for fault in body["errors"]] == ["Give at least one visible character"]


async def test_missing_fields_are_named(client: httpx.AsyncClient) -> None:
    body = problem(await client.post("/v1/couples", json={}), 422, "invalid-request")
    assert set(faults(body)) == {"/first", "/second", "/environment"}
    body = problem(await client.get("/v1/couples?first=zinc"), 422, "invalid-request")
    assert set(faults(body)) == {"/second", "/environment"}


async def test_unknown_members_inside_a_surface_or_place_are_named(client: httpx.AsyncClient) -> None:
    response = await post(
        client,
        first={"material_id": "s235", "layers": [{"finish": "x"}], "conditoin": "worn"},
        environment={"exposuer": "splash"},
    )
    found = faults(problem(response, 422, "invalid-request"))
    assert found["/first/conditoin"] == ["condition"]
    assert "finish_id" in found["/first/layers/0/finish"]
    assert found["/environment/exposuer"] == ["exposure"]


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"[]", b"null", b"1", b'"text"', b"{'first': 1}", b'{"first": NaN}', b"\xff\xfe", b"{} {}"],
)
async def test_bodies_that_are_no_question_are_problems(client: httpx.AsyncClient, body: bytes) -> None:
    headers = {"Content-Type": "application/json"}
    response = await client.post("/v1/couples", content=body, headers=headers)
    assert response.status_code in {400, 422}
    problem(response, response.status_code, response.json()["type"].removeprefix("/problems/"))


async def test_strange_texts_are_problems(client: httpx.AsyncClient) -> None:
    headers = {"Content-Type": "application/json"}
    for body in (
        b'{"first": "\\ud800"}',
        b'{"\\ud800": 1}',
        b'{"first_area_cm2": 1e999}',
        b'{"a": ' + b"9" * 5000 + b"}",
    ):
        response = await client.post("/v1/couples", content=body, headers=headers)
        assert response.status_code in {400, 422}, body[:30]


async def test_deep_nesting_is_a_problem(client: httpx.AsyncClient) -> None:
    headers = {"Content-Type": "application/json"}
    for depth in (30, 900, 100_000):
        body = b'{"first":' + b"[" * depth + b"]" * depth + b"}"
        response = await client.post("/v1/couples", content=body, headers=headers)
        assert response.status_code in {400, 422}, depth


@pytest.mark.parametrize("content_type", ["text/plain", "application/xml", "", "multipart/form-data"])
async def test_other_formats_are_refused(client: httpx.AsyncClient, content_type: str) -> None:
    response = await client.post("/v1/couples", content=b"{}", headers={"Content-Type": content_type})
    problem(response, 415, "unsupported-media-type")
    assert response.headers["accept-post"] == "application/json"


@pytest.mark.parametrize(
    ("accept", "status"), [("text/html", 406), ("application/xml;q=1", 406), ("*/*", 200)]
)
async def test_other_wishes_are_refused(client: httpx.AsyncClient, accept: str, status: int) -> None:
    response = await client.get("/v1/materials", headers={"Accept": accept})
    assert response.status_code == status
    if status == 406:
        problem(response, 406, "not-acceptable")


async def test_an_unknown_path_names_a_near_one(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/material"), 404, "no-such-path")
    assert "/v1/materials" in body["errors"][0]["suggestions"]
    problem(await client.get("/v1/materials/"), 404, "no-such-path")


async def test_all_methods_of_a_path_are_allowed(client: httpx.AsyncClient) -> None:
    response = await client.delete("/v1/couples")
    problem(response, 405, "method-not-allowed")
    assert response.headers["allow"] == "GET, HEAD, POST"
