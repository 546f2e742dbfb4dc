"""Replies that are kept with their entity tag, so that an unchanged one need not be sent again."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass

import httpx

from service.client.requests import JSON, Request

LARGEST_BYTES = 1_000_000
_UNCHANGED = 304
_OK = 200

_Name = tuple[str, tuple[tuple[str, str], ...]]


@dataclass(frozen=True, slots=True)
class _Kept:
    etag: str
    content: bytes


class KeptReplies:
    """The replies to the last questions of one key, the least used going first."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[_Name, _Kept] = OrderedDict()
        self._lock = threading.Lock()

    def condition(self, request: Request) -> dict[str, str]:
        """Return the header that asks for news only, if the reply to a request is kept."""
        with self._lock:
            kept = self._kept.get(_name(request)) if _is_keepable(request) else None
        return {"If-None-Match": kept.etag} if kept else {}

    def settle(self, request: Request, response: httpx.Response) -> httpx.Response:
        """Return the reply that counts: the kept one if it is unchanged. New ones are kept."""
        if not _is_keepable(request):
            return response
        name = _name(request)
        with self._lock:
            if response.status_code == _UNCHANGED and name in self._kept:
                self._kept.move_to_end(name)
                return httpx.Response(_OK, headers={"Content-Type": JSON}, content=self._kept[name].content)
            if _is_worth_keeping(response):
                self._kept[name] = _Kept(response.headers["etag"], response.content)
                self._kept.move_to_end(name)
                while len(self._kept) > self._most:
                    self._kept.popitem(last=False)
        return response


def _is_keepable(request: Request) -> bool:
    return request.method == "GET" and request.accept == JSON


def _is_worth_keeping(response: httpx.Response) -> bool:
    return (
        response.status_code == _OK
        and "etag" in response.headers
        and "no-store" not in response.headers.get("cache-control", "")
        and len(response.content) <= LARGEST_BYTES
    )


def _name(request: Request) -> _Name:
    return request.path, tuple(request.parameters())
