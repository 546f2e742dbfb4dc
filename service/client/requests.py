"""One call of the service as data: what is sent, and whether it may be sent twice."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from urllib.parse import quote
from uuid import uuid4

import msgspec

JSON = "application/json"
NDJSON = "application/x-ndjson"
_REPEATABLE = {"GET", "PUT", "DELETE"}

Chunks = Callable[[], Iterator[bytes]]
"""A body that is written piece by piece, from its start at each call."""


@dataclass(frozen=True, slots=True)
class Request:
    """A call that can be sent over any connection.

    ``key`` is the ``Idempotency-Key``: with one the service does a write once however often it is sent.
    ``may_repeat`` is said of a POST that only computes.
    """

    method: str
    path: str
    query: Mapping[str, object] = field(default_factory=dict)
    body: Mapping[str, object] | bytes | Chunks | None = None
    headers: Mapping[str, str | None] = field(default_factory=dict)
    key: str | None = None
    may_repeat: bool = False
    accept: str = JSON
    content_type: str = JSON

    @property
    def is_repeatable(self) -> bool:
        """Whether sending it again does no harm even if the first sending was done."""
        return self.may_repeat or self.key is not None or self.method in _REPEATABLE

    def parameters(self) -> list[tuple[str, str]]:
        """Return the query; what is ``None`` is left out, several values stand one after another."""
        pairs = []
        for name, value in self.query.items():
            several = value if isinstance(value, list | tuple) else [value]
            pairs += [(name, _shown(each)) for each in several if each is not None]
        return pairs

    def sent_headers(self) -> dict[str, str]:
        """Return the headers that this call needs besides those of every call."""
        headers = {name: value for name, value in self.headers.items() if value is not None}
        headers["Accept"] = self.accept
        if self.key is not None:
            headers["Idempotency-Key"] = self.key
        if self.body is not None:
            headers["Content-Type"] = self.content_type
        return headers

    def content(self) -> bytes | Iterator[bytes] | None:
        """Return the body, as bytes or in pieces."""
        if self.body is None or isinstance(self.body, bytes):
            return self.body
        if isinstance(self.body, Mapping):
            return msgspec.json.encode(self.body)
        return self.body()


def _shown(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def address(template: str, **names: str) -> str:
    """Fill the names into a path."""
    return template.format(**{name: quote(value, safe="") for name, value in names.items()})


def new_key() -> str:
    """Return an ``Idempotency-Key`` that nobody has used."""
    return str(uuid4())
