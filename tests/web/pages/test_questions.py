from __future__ import annotations

from typing import Any

import pytest
from fastapi import Request

from service.web.pages.questions import Question, citation_of, curl_of, question_of

QUERY = "first=EN+AW-6082-T6&second=A4-80&environment=seawater-quiescent"


def question(query: str) -> Question:
    return question_of(Request({"type": "http", "query_string": query.encode(), "headers": []}))


def test_fields_left_blank_count_as_not_given() -> None:
    read = question(f"{QUERY}&design_life_years=&first_area_cm2=+&view=decision&utm_source=x")
    assert read.couple
    assert read.couple.design_life_years is None
    assert [name for name, _ in read.given] == ["first", "second", "environment", "view"]


def test_functions_may_be_several() -> None:
    read = question(f"{QUERY}&functions=seal&functions=rf")
    assert read.couple
    assert [function.value for function in read.couple.functions] == ["seal", "rf"]
    assert read.functions == ["seal", "rf"]


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("first=A4-80&second=A2-70", "environment"),
        (f"{QUERY}&design_life_years=-3", "design_life_years"),
        (f"{QUERY}&functions=flying", "functions"),
    ],
)
def test_what_cannot_be_used_is_told_by_field(query: str, field: str) -> None:
    read = question(query)
    assert read.couple is None
    assert field in read.faults


def test_the_address_keeps_everything_and_takes_changes() -> None:
    address = question(f"{QUERY}&functions=seal&functions=rf").address("/ask", first="Ti-6Al-4V", as_of="r1")
    assert address.startswith("/ask?second=A4-80")
    assert address.count("functions=") == 2
    assert "first=Ti-6Al-4V" in address
    assert address.endswith("as_of=r1")


def test_the_first_of_repeated_values_fills_the_form() -> None:
    assert question("first=one&first=two").first_values["first"] == "one"


def test_a_command_quotes_what_the_shell_would_read() -> None:
    command = curl_of(question("first=it's+%24HOME&second=x&environment=y"), "http://host")
    assert """'first=it'"'"'s $HOME'""" in command
    assert "$FAYING_KEY" in command


def test_a_citation_names_release_hash_and_address(document: dict[str, Any]) -> None:
    text = citation_of(document, "http://host/ask?x")
    assert document["release"]["content_hash"][:12] in text
    assert document["verdict"] in text
    assert text.endswith("http://host/ask?x")
