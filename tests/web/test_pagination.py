"""Cursors come back as they were given out, or not at all."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.storage.errors import BadCursorError as StoredBadCursorError
from service.web.errors import BadCursorError
from service.web.pagination import Cursor, cursors_of, filters_digest, link_header, page_address


@given(st.text(), st.text(), st.text(max_size=20))
def test_a_cursor_reads_back(after: str, release: str, filters: str) -> None:
    try:
        text = Cursor(after, release, filters).write()
    except UnicodeEncodeError:
        return  # half a surrogate pair is no key of any record
    assert Cursor.read(text, filters) == Cursor(after, release, filters)


@given(st.text(max_size=300))
def test_any_other_text_is_refused(text: str) -> None:
    with pytest.raises(BadCursorError):
        Cursor.read(text, "filters that no text can hold by chance")


def test_filters_are_told_apart_whatever_their_order() -> None:
    assert filters_digest("a", {"x": 1, "y": 2}) == filters_digest("a", {"y": 2, "x": 1})
    assert filters_digest("a", {"x": 1}) != filters_digest("b", {"x": 1}) != filters_digest("a", {"x": "1"})


def test_addresses_are_relative_and_escaped() -> None:
    assert page_address("/v1/rules", {}) == "/v1/rules"
    address = page_address("/v1/rules", {"q": "a&b ü", "refuses": True, "as_of": None}, "c")
    assert address == "/v1/rules?q=a%26b+%C3%BC&refuses=true&cursor=c"


def test_links_are_written_as_in_rfc_8288() -> None:
    assert link_header({"first": "/a", "next": "/b"}) == '</a>; rel="first", </b>; rel="next"'


@pytest.mark.parametrize("error", [StoredBadCursorError("x"), ValueError()])
def test_a_cursor_that_cannot_be_read_is_told_where_it_does_not_come_from(error: Exception) -> None:
    with pytest.raises(BadCursorError, match="does not come from the audit trail"):  # noqa: SIM117
        with cursors_of("the audit trail", ValueError):
            raise error
