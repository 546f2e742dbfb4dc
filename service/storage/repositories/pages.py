"""Keyset pages: a cursor is the last key of the page before, so no page moves while one reads."""

from __future__ import annotations

import base64
import binascii
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from service.storage.errors import BadCursorError

Item = TypeVar("Item")
DEFAULT_LIMIT = 50


@dataclass(frozen=True, slots=True)
class Page(Generic[Item]):
    """Some items and the cursor of what follows, empty at the end."""

    items: tuple[Item, ...]
    next_cursor: str = ""


def page_of(found: Sequence[Item], limit: int, key: Callable[[Item], str | int]) -> Page[Item]:
    """Make a page of what a query with ``limit + 1`` found."""
    if len(found) <= limit:
        return Page(tuple(found))
    items = tuple(found[:limit])
    return Page(items, encode_cursor(key(items[-1])))


def encode_cursor(key: str | int) -> str:
    """Turn a key into text that nobody is tempted to take apart."""
    return base64.urlsafe_b64encode(json.dumps(key).encode()).decode().rstrip("=")


def text_cursor(cursor: str) -> str:
    """Read a cursor whose key is text; the empty cursor is the beginning.

    Raises
    ------
    BadCursorError
        If no page gave out this cursor.
    """
    key = _decode(cursor)
    if not isinstance(key, str):
        raise BadCursorError(cursor)
    return key


def number_cursor(cursor: str) -> int:
    """Read a cursor whose key is a number; the empty cursor is 0.

    Raises
    ------
    BadCursorError
        If no page gave out this cursor.
    """
    key = _decode(cursor) or 0
    if not isinstance(key, int):
        raise BadCursorError(cursor)
    return key


def _decode(cursor: str) -> object:
    if not cursor:
        return ""
    try:
        return json.loads(base64.urlsafe_b64decode(cursor + "=" * (-len(cursor) % 4)))
    except (binascii.Error, ValueError) as error:
        raise BadCursorError(cursor) from error
