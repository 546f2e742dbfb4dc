"""The client is in step with the OpenAPI document: its types, its calls, and what it is answered."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal, Required, get_args, get_origin, get_type_hints

import httpx
import msgspec
import pytest

from service.client import Client
from service.client.document import bodies, results, terms
from service.client.jobs import ResultPage
from service.client.lines import BatchItem
from service.commands.client_document import client_files
from service.commands.client_operations import WRITTEN_BY_HAND, operations
from service.commands.client_schemas import python_name
from service.web.api import assemble

DOCUMENT = assemble().openapi()
SCHEMAS: dict[str, Any] = DOCUMENT["components"]["schemas"]
FOLDER = Path(__file__).parents[2] / "service" / "client" / "document"


def test_what_is_written_from_the_document_is_up_to_date() -> None:
    committed = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.py")}
    assert committed == client_files(DOCUMENT), "run `make openapi` and commit the difference"


def structs() -> dict[str, type]:
    """Results by the name of their schema."""
    found = {name: getattr(results, python_name(name), None) for name in SCHEMAS}
    return {name: kind for name, kind in found.items() if kind} | {"BatchItem": BatchItem[Any]}


@pytest.mark.parametrize("name", sorted(structs()))
def test_a_result_has_the_members_of_its_schema_and_no_others(name: str) -> None:
    fields = {field.encode_name: field for field in msgspec.structs.fields(structs()[name])}
    assert fields.keys() == SCHEMAS[name].get("properties", {}).keys()
    required = {name for name, field in fields.items() if field.required}
    assert required == set(SCHEMAS[name].get("required", []))


@pytest.mark.parametrize("name", sorted(name for name in SCHEMAS if hasattr(bodies, python_name(name))))
def test_a_body_has_the_members_of_its_schema_but_for_the_view(name: str) -> None:
    hints = get_type_hints(getattr(bodies, python_name(name)), include_extras=True)
    assert hints.keys() == SCHEMAS[name]["properties"].keys() - {"view"}
    required = {field for field, hint in hints.items() if get_origin(hint) is Required}
    assert required == set(SCHEMAS[name].get("required", []))


@pytest.mark.parametrize("name", sorted(name for name in SCHEMAS if "enum" in SCHEMAS[name]))
def test_a_closed_set_holds_the_words_of_its_schema(name: str) -> None:
    alias = getattr(terms, python_name(name), None)
    if alias is not None:
        assert get_origin(alias) is Literal
        assert list(get_args(alias)) == SCHEMAS[name]["enum"]


def test_every_operation_is_a_method() -> None:
    by_hand = {"get_job_results": "job_results", "start_job": "start_batch"}
    for operation in operations(DOCUMENT):
        assert hasattr(Client, by_hand.get(operation.name, operation.name)), operation.name
    assert set(by_hand) <= set(WRITTEN_BY_HAND)


def test_pages_of_results_are_like_those_of_the_document() -> None:
    fields = {field.name for field in msgspec.structs.fields(ResultPage[Any])}
    assert fields == SCHEMAS["ResultPage"]["properties"].keys()


def examples() -> list[tuple[str, Any]]:
    """Every example of a JSON result in the document, with the name of its schema."""
    found = []
    for operation in operations(DOCUMENT):
        for name in operation.results():
            example = _example({"$ref": f"#/components/schemas/{name}"})
            found.append((name, example))
    return found


def _example(schema: dict[str, Any]) -> Any:
    """The example of a schema, put together from those of its members."""
    if "$ref" in schema:
        return _example(SCHEMAS[schema["$ref"].rpartition("/")[2]])
    if "properties" in schema:
        return {name: _example(member) for name, member in schema["properties"].items()}
    if isinstance(schema.get("additionalProperties"), dict):
        return {"x": _example(schema["additionalProperties"])}
    if given := [*schema.get("examples", ()), *schema.get("enum", ())]:
        return given[0]
    if "anyOf" in schema:
        return _example(schema["anyOf"][0])
    return {"object": {}, "array": _items(schema), "string": "x", "null": None}.get(schema.get("type", ""), 1)


def _items(schema: dict[str, Any]) -> list[Any]:
    return [_example(schema["items"])] if "items" in schema else []


@pytest.mark.parametrize(
    ("name", "example"), examples(), ids=lambda value: value if isinstance(value, str) else ""
)
def test_an_answer_made_of_the_examples_is_read(name: str, example: Any) -> None:
    kind = structs()[name]
    read: object = msgspec.json.decode(msgspec.json.encode(example), type=kind)
    assert isinstance(read, kind)


def test_every_result_of_the_catalogue_is_read(seed_server_url: str) -> None:
    """Whole listings, so that every record of the delivered release is read once."""
    from service.settings import LOCAL_DEVELOPMENT_KEY

    with httpx.Client(trust_env=False) as http:
        client = Client(seed_server_url, LOCAL_DEVELOPMENT_KEY, http=http)
        for name in (
            "compounds", "electrodes", "electrolytes", "environments", "finishes", "kinetics", "materials",
            "measurements", "mitigations", "permissible_differences", "rules", "scales", "sources",
        ):  # fmt: skip
            assert sum(1 for _ in getattr(client, f"list_{name}")(page_size=200)) > 0
