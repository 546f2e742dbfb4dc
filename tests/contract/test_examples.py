"""Every example of the document is sent for real, to a server with the real knowledge base."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import Any

import httpx
import orjson
import pytest

from service.settings import LOCAL_DEVELOPMENT_KEY

DOCUMENT = orjson.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_bytes())
SCHEMAS = DOCUMENT["components"]["schemas"]
HEADERS = {"Authorization": f"Bearer {LOCAL_DEVELOPMENT_KEY}"}
Operation = tuple[str, str, dict[str, Any]]
OPERATIONS: list[Operation] = [
    (method.upper(), path, operation)
    for path, methods in DOCUMENT["paths"].items()
    for method, operation in methods.items()
]


def example_of(schema: dict[str, Any]) -> Any:
    return next((example for example in schema.get("examples", ()) if example is not None), None)


def examples(operation: dict[str, Any], place: str) -> dict[str, Any]:
    found = {
        parameter["name"]: example_of(parameter["schema"])
        for parameter in operation.get("parameters", ())
        if parameter["in"] == place
    }
    return {name: value for name, value in found.items() if value is not None}


def body_of(operation: dict[str, Any]) -> dict[str, Any] | None:
    content = operation.get("requestBody", {}).get("content", {}).get("application/json")
    if content is None:
        return None
    schema = content["schema"]
    properties = (SCHEMAS[schema["$ref"].rpartition("/")[2]] if "$ref" in schema else schema)["properties"]
    return {name: example_of(schema) for name, schema in properties.items() if example_of(schema) is not None}


@pytest.mark.parametrize(
    ("method", "path", "operation"), OPERATIONS, ids=[f"{method} {path}" for method, path, _ in OPERATIONS]
)
def test_every_example_is_accepted(
    seed_server_url: str, method: str, path: str, operation: dict[str, Any]
) -> None:
    address = path.format(**examples(operation, "path"))
    response = httpx.request(
        method,
        seed_server_url + address,
        params=examples(operation, "query"),
        json=body_of(operation),
        headers=HEADERS,
        timeout=30,
    )
    assert response.status_code in expected(method, path), response.text


def expected(method: str, path: str) -> set[int]:
    """Statuses that an example may have: it names jobs, answers and proposals that were never made."""
    if any(name in path for name in ("{digest}", "{job_id}", "{webhook_id}", "{proposal_id}")):
        return {404}
    if "{name}" in path:  # stored by one example and removed by another, in any order
        return {200, 201, 204, 404, 409}
    if method == "POST" and path in ("/v1/proposals", "/v1/withdrawals"):  # the other one may have come first
        return {201, 409}
    return {{"/v1/jobs": 202, "/v1/webhooks": 201}.get(path, 200) if method == "POST" else 200}


SURFACE = SCHEMAS["SurfaceRequest"]["properties"]
PLACE = SCHEMAS["EnvironmentRequest"]["properties"]
WAYS = (["text"], ["material", "finish"], ["material_id", "layers"])
PLACES = (["id"], [name for name in PLACE if name != "id"], list(PLACE))


@pytest.mark.parametrize(("surface", "place"), list(itertools.product(WAYS, PLACES)))
def test_every_way_to_name_surface_and_place_is_accepted(
    seed_server_url: str, surface: list[str], place: list[str]
) -> None:
    body = {
        "first": {name: example_of(SURFACE[name]) for name in [*surface, "condition", "thickness_um"]},
        "second": "A4-80",
        "environment": {name: example_of(PLACE[name]) for name in place},
    }
    response = httpx.post(seed_server_url + "/v1/couples", json=body, headers=HEADERS, timeout=30)
    assert response.status_code == 200, response.text
