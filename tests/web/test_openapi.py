"""The document is committed, complete and the same each time."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import orjson
import pytest

from service.access import Scope
from service.web.api import assemble
from service.web.openapi import TAGS, build, export, write

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.json"
OPEN = {"/healthz", "/readyz"}


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return assemble().openapi()


def operations(document: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def test_the_committed_file_is_the_document_of_this_version(tmp_path: Path) -> None:
    fresh = export(tmp_path / "openapi.json").read_bytes()
    assert COMMITTED.read_bytes() == fresh, "run: make openapi"


def test_the_document_is_the_same_each_time() -> None:
    assert write(build(assemble())) == write(build(assemble()))


def test_it_is_openapi_3_1(document: dict[str, Any]) -> None:
    assert document["openapi"].startswith("3.1")
    assert [tag["name"] for tag in document["tags"]] == [tag["name"] for tag in TAGS]


def test_operations_have_fixed_names_words_and_a_known_tag(document: dict[str, Any]) -> None:
    names = [operation["operationId"] for _, _, operation in operations(document)]
    assert len(set(names)) == len(names)
    known = {tag["name"] for tag in TAGS}
    for path, _, operation in operations(document):
        assert operation["summary"], path
        assert operation["description"], path
        assert "_v1_" not in operation["operationId"], path
        assert set(operation["tags"]) <= known, path


def test_every_operation_under_v1_names_its_scope(document: dict[str, Any]) -> None:
    for path, _, operation in operations(document):
        if path in OPEN:
            assert "security" not in operation
        else:
            ((scheme, scopes),) = operation["security"][0].items()
            assert scheme in document["components"]["securitySchemes"]
            assert scopes
            assert set(scopes) <= set(Scope)


def test_every_operation_under_v1_names_its_problems(document: dict[str, Any]) -> None:
    for path, _, operation in operations(document):
        if path in OPEN:
            continue
        assert {"401", "403", "422", "429", "500"} <= set(operation["responses"]), path
        for status, response in operation["responses"].items():
            if not status.startswith("2"):
                name = response["$ref"].removeprefix("#/components/responses/")
                assert "application/problem+json" in document["components"]["responses"][name]["content"]


def test_parameters_have_words_and_units(document: dict[str, Any]) -> None:
    for path, _, operation in operations(document):
        for parameter in operation.get("parameters", ()):
            assert parameter.get("description"), (path, parameter["name"])
    by_name = {
        parameter["name"]: parameter for parameter in document["paths"]["/v1/couples"]["get"]["parameters"]
    }
    assert by_name["first_area_cm2"]["schema"]["x-unit"] == "cm²"


def test_every_reference_leads_somewhere(document: dict[str, Any]) -> None:
    def references(node: object) -> Iterator[str]:
        if isinstance(node, dict):
            if isinstance(node.get("$ref"), str):
                yield node["$ref"]
            for member in node.values():
                yield from references(member)
        elif isinstance(node, list):
            for member in node:
                yield from references(member)

    for reference in set(references(document)):
        place: Any = document
        for step in reference.removeprefix("#/").split("/"):
            place = place[step]


def test_bounds_are_written_as_json_schema_writes_them(document: dict[str, Any]) -> None:
    """Pydantic leaves a bound beside a validator under its own name, where no reader looks."""
    written = write(document)
    for name in (b'"ge":', b'"le":', b'"gt":', b'"lt":', b'"multiple_of":', b'"min_length":'):
        assert name not in written.replace(b'": ', b'":')


def test_what_is_written_reads_back(document: dict[str, Any]) -> None:
    assert orjson.loads(write(document)) == orjson.loads(orjson.dumps(document))
