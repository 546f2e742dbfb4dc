"""Cursors: where a walk through a list stands, and which release it reads.

A cursor names the release, so a walk that began before a new release ends in the old one; and a digest
of the filters, so that it cannot be used on another list.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Self
from urllib.parse import urlencode

import msgspec

from service.storage.errors import BadCursorError as StoredBadCursorError
from service.web.errors import BadCursorError
from service.web.representation import canonical

MAX_PAGE_SIZE = 200
DEFAULT_PAGE_SIZE = 50
_FOREIGN = "This cursor does not come from this list with these filters."
_UNREADABLE = "This is not a cursor that the service gave out."


class _Wire(msgspec.Struct, array_like=True, forbid_unknown_fields=True):
    after: str
    release: str
    filters: str


@dataclass(frozen=True, slots=True)
class Cursor:
    """A place in a list: everything up to ``after`` was given out."""

    after: str
    release: str
    filters: str

    def write(self) -> str:
        """Return the cursor as text for an address."""
        wire = msgspec.json.encode(_Wire(self.after, self.release, self.filters))
        return base64.urlsafe_b64encode(wire).decode().rstrip("=")

    @classmethod
    def read(cls, text: str, filters: str) -> Self:
        """Read a cursor that belongs to these filters.

        Raises
        ------
        BadCursorError
            If it is none, or belongs to other filters.
        """
        try:
            raw = base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
            wire = msgspec.json.decode(raw, type=_Wire)
        except (binascii.Error, ValueError, msgspec.DecodeError) as error:
            raise BadCursorError(_UNREADABLE) from error
        if wire.filters != filters:
            raise BadCursorError(_FOREIGN)
        return cls(wire.after, wire.release, wire.filters)


@contextmanager
def cursors_of(origin: str, *also: type[Exception]) -> Iterator[None]:
    """Say of a cursor that the database cannot read where it does not come from.

    Raises
    ------
    BadCursorError
        In place of what the database, or a reader that raises one of ``also``, says.
    """
    unreadable: tuple[type[Exception], ...] = (StoredBadCursorError, *also)
    try:
        yield
    except unreadable as error:
        message = f"This cursor does not come from {origin}."
        raise BadCursorError(message) from error


def filters_digest(table: str, filters: Mapping[str, Any]) -> str:
    """Return a short digest of a list and its filters."""
    return hashlib.sha256(canonical([table, dict(filters)])).hexdigest()[:16]


def page_address(path: str, query: Mapping[str, Any], cursor: str | None = None) -> str:
    """Return the address of a page, relative to the host."""
    given = {name: _text(value) for name, value in query.items() if value is not None}
    if cursor is not None:
        given["cursor"] = cursor
    return f"{path}?{urlencode(given)}" if given else path


def link_header(links: Mapping[str, str]) -> str:
    """Write the Link header (RFC 8288)."""
    return ", ".join(f'<{address}>; rel="{relation}"' for relation, address in links.items())


def _text(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)
