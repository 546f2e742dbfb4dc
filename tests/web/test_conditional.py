"""Entity tags and digests as the standards write them."""

from __future__ import annotations

import pytest

from service.web.conditional import is_match, may_replace, quoted, repr_digest


@pytest.mark.parametrize(
    ("header", "expected"),
    [
        (None, False),
        ("", False),
        ('"a"', True),
        ('W/"a"', True),
        ('"b", "a"', True),
        ('"b"', False),
        ("a", False),
        ("*", True),
        (" * ", True),
    ],
)
def test_if_none_match_is_compared_weakly(header: str | None, *, expected: bool) -> None:
    assert is_match(header, quoted("a")) is expected


def test_the_digest_is_written_as_in_rfc_9530() -> None:
    # RFC 9530, appendix B.1: the content {"hello": "world"} with a line feed.
    expected = "sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:"
    assert repr_digest(b'{"hello": "world"}\n') == expected


@pytest.mark.parametrize(
    ("if_match", "expected"), [(None, True), ("*", True), (' "3" ', True), ('"2"', False), ("3", False)]
)
def test_what_a_caller_has_seen_may_be_replaced(if_match: str | None, *, expected: bool) -> None:
    assert may_replace(if_match, "3") is expected
