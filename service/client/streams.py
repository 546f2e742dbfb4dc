"""The answers of a batch while they come, for either kind of client."""

from __future__ import annotations

import time
from abc import ABC, abstractmethod
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from types import TracebackType
from typing import Any, Generic, Self, TypeVar, cast

import anyio
import httpx

from service.client.batch import Batch
from service.client.document.results import BatchClosing
from service.client.errors import BrokenStreamError, FayingError
from service.client.lines import ENDED, BatchItem, LineReader
from service.client.requests import Request
from service.client.retries import Attempts, Retries

T = TypeVar("T")
Ask = TypeVar("Ask")


class _Answers(ABC, Generic[T, Ask]):
    """What both kinds have in common: how far they are, and how they go on after a break.

    Parameters
    ----------
    batch : Batch
    response : httpx.Response
        Reply to the call of the batch.
    ask : callable
        Sends a call and returns its reply, to be streamed.
    retries : Retries
        How often the rest is asked for after a break.
    """

    def __init__(self, batch: Batch[T], response: httpx.Response, ask: Ask, retries: Retries) -> None:
        self._batch = batch
        self._response = response
        self._ask = ask
        self._retries = retries
        self._attempts: Attempts | None = None
        self._reader = LineReader(batch.result)
        self._items = self._read()
        self.closing: BatchClosing | None = None

    @abstractmethod
    def _read(self) -> Any:
        """Give the items, of as many responses as it takes."""

    def _rest(self, reason: str) -> tuple[Request, float]:
        """Return the call for the rest after a break, and how long to wait before it [s].

        Raises
        ------
        BrokenStreamError
            If it is not asked for (again).
        """
        request = self._batch.after(self._reader.received, self._reader.release)
        self._attempts = self._attempts or Attempts(self._retries, request)
        pause_s = self._attempts.pause_after_break()
        if pause_s is None:
            raise BrokenStreamError(reason, self._reader.received)
        self._reader.resume()
        return request, pause_s

    def _lost(self, error: FayingError) -> BrokenStreamError:
        return BrokenStreamError(f"the rest cannot be had: {error}", self._reader.received)


class BatchAnswers(_Answers[T, Callable[[Request], httpx.Response]]):
    """The answers of a batch as they come. After the last one ``closing`` holds the closing line.

    Going through them raises ``BrokenStreamError`` if the stream is not whole and the rest cannot be had.
    """

    def __iter__(self) -> Iterator[BatchItem[T]]:
        return cast("Iterator[BatchItem[T]]", self._items)

    def __next__(self) -> BatchItem[T]:
        return next(iter(self))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Do without the rest."""
        self._response.close()

    def _read(self) -> Iterator[BatchItem[T]]:
        while True:
            reason = ENDED
            try:
                for piece in self._response.iter_bytes():
                    yield from self._reader.feed(piece)
            except httpx.TransportError as error:
                reason = str(error) or type(error).__name__
            finally:
                self._response.close()
            if self._reader.has_ended:
                break
            request, pause_s = self._rest(reason)
            time.sleep(pause_s)
            try:
                self._response = self._ask(request)
            except FayingError as error:
                raise self._lost(error) from error
        self.closing = self._reader.close()


class AsyncBatchAnswers(_Answers[T, Callable[[Request], Awaitable[httpx.Response]]]):
    """The answers of a batch as they come. After the last one ``closing`` holds the closing line.

    Going through them raises ``BrokenStreamError`` if the stream is not whole and the rest cannot be had.
    """

    def __aiter__(self) -> AsyncIterator[BatchItem[T]]:
        return cast("AsyncIterator[BatchItem[T]]", self._items)

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self.close()

    async def close(self) -> None:
        """Do without the rest."""
        await self._response.aclose()

    async def _read(self) -> AsyncIterator[BatchItem[T]]:
        while True:
            reason = ENDED
            try:
                async for piece in self._response.aiter_bytes():
                    for item in self._reader.feed(piece):
                        yield item
            except httpx.TransportError as error:
                reason = str(error) or type(error).__name__
            finally:
                await self._response.aclose()
            if self._reader.has_ended:
                break
            request, pause_s = self._rest(reason)
            await anyio.sleep(pause_s)
            try:
                self._response = await self._ask(request)
            except FayingError as error:
                raise self._lost(error) from error
        self.closing = self._reader.close()
