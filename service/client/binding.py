"""How the description of a call becomes a method: one that waits, or one that is awaited.

Each is a descriptor: the description is a plain function, and the method that it becomes has the
same parameters, so that type checkers and editors know them.
"""

from __future__ import annotations

import functools
from collections.abc import AsyncIterator, Callable, Coroutine, Iterator
from typing import Any, Generic, ParamSpec, Protocol, TypeVar

from service.client.batch import Batch
from service.client.flows import Flow, Listing, Page
from service.client.requests import Request
from service.client.streams import AsyncBatchAnswers, BatchAnswers

P = ParamSpec("P")
T = TypeVar("T")


class RunsBlocking(Protocol):
    """A client that waits."""

    def run(self, flow: Flow[T]) -> T:
        """Run a flow to its end."""

    def stream(self, batch: Batch[T]) -> BatchAnswers[T]:
        """Send a batch."""


class RunsAwaited(Protocol):
    """A client that is awaited."""

    async def run(self, flow: Flow[T]) -> T:
        """Run a flow to its end."""

    async def stream(self, batch: Batch[T]) -> AsyncBatchAnswers[T]:
        """Send a batch."""


class BlockingCall(Generic[P, T]):
    """A method that makes a call and returns its result."""

    def __init__(self, call: Callable[P, Flow[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(self, client: RunsBlocking, owner: type[Any] | None = None) -> Callable[P, T]:
        @functools.wraps(self._call)
        def method(*args: P.args, **kwargs: P.kwargs) -> T:
            return client.run(self._call(*args, **kwargs))

        return method


class AwaitedCall(Generic[P, T]):
    """A method that makes a call; its result is awaited."""

    def __init__(self, call: Callable[P, Flow[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(
        self, client: RunsAwaited, owner: type[Any] | None = None
    ) -> Callable[P, Coroutine[Any, Any, T]]:
        @functools.wraps(self._call)
        async def method(*args: P.args, **kwargs: P.kwargs) -> T:
            return await client.run(self._call(*args, **kwargs))

        return method


class BlockingListing(Generic[P, T]):
    """A method that gives the items of a listing, asking for page after page."""

    def __init__(self, call: Callable[P, Listing[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(self, client: RunsBlocking, owner: type[Any] | None = None) -> Callable[P, Iterator[T]]:
        @functools.wraps(self._call)
        def method(*args: P.args, **kwargs: P.kwargs) -> Iterator[T]:
            listing = self._call(*args, **kwargs)
            request: Request | None = listing.first
            while request is not None:
                page: Page[T] = client.run(listing.ask(request))
                yield from page.items
                request = listing.after(page)

        return method


class AwaitedListing(Generic[P, T]):
    """A method that gives the items of a listing to ``async for``."""

    def __init__(self, call: Callable[P, Listing[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(self, client: RunsAwaited, owner: type[Any] | None = None) -> Callable[P, AsyncIterator[T]]:
        @functools.wraps(self._call)
        async def method(*args: P.args, **kwargs: P.kwargs) -> AsyncIterator[T]:
            listing = self._call(*args, **kwargs)
            request: Request | None = listing.first
            while request is not None:
                page: Page[T] = await client.run(listing.ask(request))
                for item in page.items:
                    yield item
                request = listing.after(page)

        return method


class BlockingBatch(Generic[P, T]):
    """A method that sends a batch and gives its answers as they come."""

    def __init__(self, call: Callable[P, Batch[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(self, client: RunsBlocking, owner: type[Any] | None = None) -> Callable[P, BatchAnswers[T]]:
        @functools.wraps(self._call)
        def method(*args: P.args, **kwargs: P.kwargs) -> BatchAnswers[T]:
            return client.stream(self._call(*args, **kwargs))

        return method


class AwaitedBatch(Generic[P, T]):
    """A method that sends a batch when it is awaited; its answers are given to ``async for``."""

    def __init__(self, call: Callable[P, Batch[T]]) -> None:
        self._call = call
        self.__doc__ = call.__doc__

    def __get__(
        self, client: RunsAwaited, owner: type[Any] | None = None
    ) -> Callable[P, Coroutine[Any, Any, AsyncBatchAnswers[T]]]:
        @functools.wraps(self._call)
        async def method(*args: P.args, **kwargs: P.kwargs) -> AsyncBatchAnswers[T]:
            return await client.stream(self._call(*args, **kwargs))

        return method
