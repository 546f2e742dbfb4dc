from __future__ import annotations

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.storage.errors import BadCursorError
from service.storage.repositories.pages import Page, encode_cursor, number_cursor, page_of, text_cursor


@given(st.text())
def test_a_text_key_survives_the_cursor(key: str) -> None:
    assert text_cursor(encode_cursor(key)) == key


@given(st.integers())
def test_a_number_survives_the_cursor(key: int) -> None:
    assert number_cursor(encode_cursor(key)) == key


def test_the_empty_cursor_is_the_beginning() -> None:
    assert text_cursor("") == ""
    assert number_cursor("") == 0


@given(st.text(min_size=1))
def test_no_text_makes_a_cursor_fail_in_another_way(cursor: str) -> None:
    for read in (text_cursor, number_cursor):
        with contextlib.suppress(BadCursorError):
            read(cursor)


@pytest.mark.parametrize("cursor", ["!", encode_cursor(3)])
def test_a_cursor_of_another_list_is_refused(cursor: str) -> None:
    with pytest.raises(BadCursorError):
        text_cursor(cursor)


def test_a_number_list_refuses_text() -> None:
    with pytest.raises(BadCursorError):
        number_cursor(encode_cursor("three"))


def test_a_page_holds_the_limit_and_points_at_its_last_item() -> None:
    assert page_of([1, 2, 3], 2, lambda item: item) == Page((1, 2), encode_cursor(2))
    assert page_of([1, 2], 2, lambda item: item) == Page((1, 2))
