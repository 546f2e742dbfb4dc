"""The document in the order in which people read it."""

from __future__ import annotations

from collections.abc import Iterator

from service.web.api import assemble
from service.web.reference.outline import Field, outline

DOCUMENT = assemble().openapi()
SECTIONS = outline(DOCUMENT)
OPERATIONS = {entry.id: entry for section in SECTIONS for entry in section.operations}


def flat(fields: tuple[Field, ...]) -> Iterator[Field]:
    for field in fields:
        yield field
        yield from flat(field.members)


def test_every_operation_is_in_one_section() -> None:
    count = sum(len(methods) for methods in DOCUMENT["paths"].values())
    assert len(OPERATIONS) == count == sum(len(section.operations) for section in SECTIONS)


def test_fields_have_kind_unit_words_and_example() -> None:
    body = {field.name: field for field in OPERATIONS["judge_couple"].body}
    area = body["first_area_cm2"]
    assert (area.unit, area.is_required, area.example) == ("cm²", False, "40.0")
    assert area.kind == "number (≥ 1e-06, ≤ 1e+09) or null"
    assert body["geometry"].kind == "strip | fastener | pipe | immersed"
    assert body["geometry"].description
    assert body["first"].is_required
    assert body["first"].kind == "string (at most 2000 characters) or object"
    assert {"text", "layers"} <= {field.name for field in body["first"].members}
    layers = next(field for field in body["first"].members if field.name == "layers")
    assert next(iter(layers.members)).name == "finish_id"


def test_every_field_anybody_can_see_has_words() -> None:
    for entry in OPERATIONS.values():
        replies = tuple(field for reply in entry.replies for field in reply.fields)
        for field in flat((*entry.parameters, *entry.body, *replies)):
            assert field.description, (entry.id, field.name)


def test_problems_are_linked() -> None:
    replies = {reply.status: reply for reply in OPERATIONS["list_materials"].replies}
    assert replies["404"].problems == ("/problems/bad-cursor", "/problems/unknown-release")
    assert replies["200"].problems == ()
