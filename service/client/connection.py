"""What both clients know: where the service is, whose key is used, how long to wait."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator
from dataclasses import dataclass, field
from urllib.parse import urlencode

import httpx

from service.client.kept_replies import KeptReplies
from service.client.requests import Request
from service.client.retries import Retries

Http = httpx.Client | httpx.AsyncClient
TIMEOUT_S = 30.0
KEPT_REPLIES = 256


@dataclass(frozen=True)
class Connection:
    """Where the service is, and how it is spoken to."""

    address: str
    key: str = field(repr=False)
    timeout_s: float
    retries: Retries
    kept: KeptReplies = field(repr=False)

    def built(self, http: Http, request: Request) -> httpx.Request:
        """Turn a call into a request of httpx, with what an own client adds to each."""
        headers = {"User-Agent": "faying-client", **request.sent_headers(), **self.kept.condition(request)}
        if self.key:
            headers["Authorization"] = f"Bearer {self.key}"
        url = httpx.URL(self.address.rstrip("/") + request.path)
        if parameters := request.parameters():
            url = url.copy_with(query=urlencode(parameters).encode())
        content = request.content()
        return http.build_request(
            request.method,
            url,
            headers=headers,
            content=_written(http, content),
            timeout=self.timeout_s,
        )


def _written(
    http: Http, content: bytes | Iterator[bytes] | None
) -> bytes | Iterator[bytes] | AsyncIterator[bytes] | None:
    """The body in the form that the kind of client takes."""
    if content is None or isinstance(content, bytes) or isinstance(http, httpx.Client):
        return content
    return _awaited(content)


async def _awaited(pieces: Iterator[bytes]) -> AsyncIterator[bytes]:
    for piece in pieces:
        yield piece
