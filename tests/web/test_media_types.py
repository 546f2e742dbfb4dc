"""Content negotiation as RFC 9110 has it."""

from __future__ import annotations

import pytest

from service.web.media_types import is_acceptable, is_json


@pytest.mark.parametrize(
    ("accept", "expected"),
    [
        ("*/*", True),
        ("application/*", True),
        ("application/json", True),
        ("APPLICATION/JSON;charset=utf-8", True),
        ("text/html, application/json;q=0.1", True),
        ("text/html", False),
        ("application/json;q=0", False),
        ("application/json;q=0, */*", False),
        ("*/*;q=0", False),
        ("*/*;q=none", True),
        ("", False),
    ],
)
def test_the_most_specific_range_decides(accept: str, *, expected: bool) -> None:
    assert is_acceptable(accept, ["application/json"]) is expected


@pytest.mark.parametrize(
    ("content_type", "expected"),
    [
        ("application/json", True),
        ("Application/JSON; charset=utf-8", True),
        ("application/merge-patch+json", True),
        ("text/json", False),
        ("text/plain", False),
        ("", False),
    ],
)
def test_json_is_recognised(content_type: str, *, expected: bool) -> None:
    assert is_json(content_type) is expected
