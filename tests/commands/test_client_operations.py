from __future__ import annotations

import inspect
from typing import Any

import pytest
from fastapi.routing import APIRoute

from service.commands.client_operations import (
    MAY_REPEAT,
    VIEWS,
    WRITTEN_BY_HAND,
    calls,
    methods,
    operations,
)
from service.web.api import assemble

THING = {"$ref": "#/components/schemas/Thing"}


def document(**changes: Any) -> dict[str, Any]:
    """A document with one operation that does everything."""
    text = {"type": "string"}
    entry = {
        "operationId": "store_assembly",
        "summary": "Keep a thing",
        "description": "For a while.",
        "parameters": [
            {"in": "path", "name": "id", "required": True, "schema": text, "description": "Its name."},
            {
                "in": "query",
                "name": "kind",
                "description": "Its kind.",
                "schema": {"anyOf": [text, {"type": "null"}]},
            },
            {"in": "header", "name": "if-match", "schema": text},
            {"in": "header", "name": "Idempotency-Key", "schema": text},
        ],
        "requestBody": {"content": {"application/json": {"schema": THING}}},
        "responses": {"201": {"content": {"application/json": {"schema": THING}}}},
        **changes,
    }
    page = {"properties": {"items": {"type": "array", "items": THING}, "next": text}}
    thing = {"properties": {"size": {"type": "integer", "description": "How large it is."}}}
    schemas = {"Thing": thing, "ThingPage": page, "Answer": thing, "Decision": thing}
    return {"paths": {"/v1/things/{id}": {"put": entry}}, "components": {"schemas": schemas}}


def test_a_call_has_what_the_operation_takes() -> None:
    written = calls(document())
    assert (
        "def store_assembly(id: str, *, kind: str | None = None, if_match: str | None = None, "
        "idempotency_key: str | None = None, **body: Unpack[bodies.Thing]) -> Flow[results.Thing]:"
    ) in written
    assert (
        '"""Keep a thing.\n\n    For a while.\n\n    id: Its name. Required.\n    kind: Its kind.\n'
        in written
    )
    assert "    size: How large it is.\n" in written
    assert (
        'request = Request("PUT", address("/v1/things/{id}", id=id), query={"kind": kind}, body=body, '
        'headers={"if-match": if_match}, key=idempotency_key or new_key())'
    ) in written
    assert "return ask(request, results.Thing)" in written


def test_help_names_the_words_that_may_be_used_and_what_is_needed_first() -> None:
    made = document()
    schemas = made["components"]["schemas"]
    schemas["Colour"] = {"enum": ["red", "green"], "description": "Its colour."}
    schemas["Thing"]["properties"]["colour"] = {"$ref": "#/components/schemas/Colour"}
    schemas["Thing"]["required"] = ["colour"]
    written = calls(made)
    assert "    colour: Its colour. One of: red, green. Required.\n" in written
    assert written.index("colour: Its") < written.index("size: How")


def test_a_body_with_the_name_of_a_parameter_is_one_argument() -> None:
    made = document()
    made["components"]["schemas"]["Thing"]["properties"]["id"] = {"type": "string"}
    assert "(id: str, body: bodies.Thing, *," in calls(made)


def test_a_page_becomes_a_listing() -> None:
    made = document(
        responses={
            "200": {"content": {"application/json": {"schema": {"$ref": "#/components/schemas/ThingPage"}}}}
        }
    )
    made["paths"]["/v1/things/{id}"]["put"]["parameters"] += [
        {"in": "query", "name": name, "schema": {"type": "integer"}} for name in ("limit", "cursor")
    ]
    assert "page_size: int | None = None" in calls(made)
    assert '"limit": page_size}' in calls(made)
    assert "cursor" not in calls(made)
    assert "-> Listing[results.Thing]:" in calls(made)
    assert "return Listing(request, results.ThingPage)" in calls(made)
    assert "store_assembly = BlockingListing(calls.store_assembly)" in methods(made)
    assert "store_assembly = AwaitedListing(calls.store_assembly)" in methods(made)


def test_nothing_comes_back_where_nothing_is_said() -> None:
    written = calls(document(responses={"204": {}}))
    assert "-> Flow[None]:" in written
    assert "return ask_nothing(request)" in written


def test_an_operation_with_a_view_becomes_two() -> None:
    made = document(operationId="judge_couple", parameters=[])
    made["paths"] = {"/v1/couples": {"post": made["paths"]["/v1/things/{id}"]["put"]}}
    written = calls(made)
    assert 'body={**body, "view": "full"}, may_repeat=True' in written
    assert 'body={**body, "view": "decision"}, may_repeat=True' in written
    assert "-> Flow[results.Answer]:" in written
    assert "-> Flow[results.Decision]:" in written


def test_several_results_have_to_be_told_apart_by_hand() -> None:
    both = {"anyOf": [THING, {"$ref": "#/components/schemas/ThingPage"}]}
    made = document(responses={"200": {"content": {"application/json": {"schema": both}}}})
    with pytest.raises(ValueError, match="store_assembly has several results"):
        calls(made)


def test_every_name_in_a_list_is_one_of_the_service() -> None:
    names = {operation.name for operation in operations(assemble().openapi())}
    assert names >= {*MAY_REPEAT, *VIEWS, *WRITTEN_BY_HAND}


def test_writes_that_are_done_once_are_described_so() -> None:
    endpoints = {
        route.operation_id: inspect.getsource(route.endpoint)
        for route in assemble().routes
        if isinstance(route, APIRoute)
    }
    once = {name for name, source in endpoints.items() if "await once(request" in source}
    described = [operation for operation in operations(assemble().openapi()) if operation.is_done_once]
    assert {operation.name for operation in described} == once
    for operation in described:
        kinds = str(operation.entry["responses"])
        assert "idempotency-conflict" in kinds
        assert "idempotency-in-progress" in kinds
