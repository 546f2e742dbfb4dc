"""What a model refuses is blamed field by field."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from service.web.api import assemble
from service.web.errors import Fault
from service.web.faults import invalid_request, pointer_to
from service.web.operations import Operation
from service.web.schemas.couples import CoupleRequest


def refusal(body: dict[str, object]) -> tuple[Fault, ...]:
    operation = Operation.of(assemble(), "/v1/couples", "POST")
    with pytest.raises(ValidationError) as raised:
        CoupleRequest.model_validate(body)
    entries = [{**entry, "loc": ("body", *entry["loc"])} for entry in raised.value.errors()]
    return invalid_request(entries, operation).faults


def refused(body: dict[str, object]) -> dict[str, tuple[str, tuple[str, ...]]]:
    return {fault.pointer: (fault.code, fault.suggestions) for fault in refusal(body)}


def test_an_unknown_name_and_an_unknown_word_come_with_near_ones() -> None:
    body: dict[str, object] = {
        "first": "A4-80",
        "second": {"tekst": "x"},
        "environment": "x",
        "geometry": "stripe",
    }
    found = refused(body)
    assert found["/second/tekst"] == ("extra_forbidden", ("text",))
    assert found["/geometry"] == ("enum", ("strip", "pipe"))


def test_where_no_name_is_near_the_fields_are_named() -> None:
    body = {"first": "a", "second": "b", "environment": "x", "zzz": 1}
    (fault,) = refusal(body)
    assert fault.suggestions == ()
    assert "no field 'zzz'" in fault.detail
    assert all(name in fault.detail for name in body if name != "zzz")


def test_a_list_is_not_blamed_for_its_members_as_well() -> None:
    found = refused({"first": "a", "second": "b", "environment": "x", "functions": ["structral"]})
    assert list(found) == ["/functions/0"]


def test_pointers_escape_what_they_have_to() -> None:
    assert pointer_to(["a/b", 0, "c~d"]) == "/a~1b/0/c~0d"
    assert pointer_to([]) == ""
