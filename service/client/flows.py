"""What is done with calls and replies, without a connection.

A flow is a generator: it gives the calls that it wants to have sent and the pauses that it wants to make, is
given the replies, and returns a result. A blocking and an asynchronous client drive the same flows.
"""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace
from typing import Any, Generic, Protocol, TypeVar

import httpx
import msgspec

from service.client.document.results import Problem
from service.client.errors import UnexpectedReplyError, problem_class
from service.client.requests import Request
from service.client.retries import retry_after_s

T = TypeVar("T")
Item_co = TypeVar("Item_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Pause:
    """A wish to wait."""

    seconds: float


Flow = Generator[Request | Pause, httpx.Response | None, T]


def send(request: Request) -> Flow[httpx.Response]:
    """Have a call sent and return its reply, if it is a good one.

    Raises
    ------
    ProblemError
        If the service refuses.
    """
    response = yield request
    if response is None:
        message = "a flow was resumed without the reply that it waits for"
        raise RuntimeError(message)
    check(response)
    return response


def ask(request: Request, result: type[T]) -> Flow[T]:
    """Have a call sent and read its reply."""
    response = yield from send(request)
    return read(response.content, result)


def ask_nothing(request: Request) -> Flow[None]:
    """Have a call sent whose reply is empty."""
    yield from send(request)


def ask_bytes(request: Request) -> Flow[bytes]:
    """Have a call sent and return its reply as it came."""
    response = yield from send(request)
    return response.content


def check(response: httpx.Response) -> None:
    """Refuse a reply that is none: a problem, or a redirection to somewhere else.

    Raises
    ------
    ProblemError
    """
    if response.is_success:
        return
    problem = _problem(response)
    raise problem_class(problem.status)(problem, retry_after_s(response.headers.get("retry-after")))


def _problem(response: httpx.Response) -> Problem:
    try:
        return msgspec.json.decode(response.content, type=Problem)
    except (msgspec.DecodeError, UnicodeDecodeError):
        # Not from the service: a proxy, a captive portal, a wrong address.
        return Problem(
            type="about:blank",
            title=response.reason_phrase or "Unknown status",
            status=response.status_code,
            detail="The reply is not from the service itself.",
            instance="",
        )


def read(content: bytes, result: type[T]) -> T:
    """Read a result.

    Raises
    ------
    UnexpectedReplyError
        If it is not as the document says.
    """
    try:
        return msgspec.json.decode(content, type=result)
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        name = getattr(result, "__name__", str(result))
        message = f"the reply is no {name}: {error}"
        raise UnexpectedReplyError(message) from error


class Page(Protocol[Item_co]):
    """One page of a listing."""

    @property
    def items(self) -> tuple[Item_co, ...]:
        """What is on the page."""

    @property
    def next(self) -> str | None:
        """Address of the next page."""


@dataclass(frozen=True, slots=True)
class Listing(Generic[T]):
    """A listing that comes in pages."""

    first: Request
    page: Any
    """Class of a page: ``type[Page[T]]``."""

    def ask(self, request: Request) -> Flow[Page[T]]:
        """Ask for one page."""
        page: Page[T] = yield from ask(request, self.page)
        return page

    def after(self, page: Page[T]) -> Request | None:
        """Return the call for the page after one; None at the end.

        Raises
        ------
        UnexpectedReplyError
            If it leads to another server, which would be shown the key.
        """
        if page.next is None or not page.items:
            return None
        if not page.next.startswith("/"):
            message = f"the next page is said to be at {page.next}"
            raise UnexpectedReplyError(message)
        return replace(self.first, path=page.next, query={})
