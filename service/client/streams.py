"""The answers of a batch while they come, for either kind of client."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator
from types import TracebackType
from typing import Generic, Self, TypeVar

import httpx

from service.client.batch import BatchItem, LineReader
from service.client.document.results import BatchClosing
from service.client.errors import BrokenStreamError

T = TypeVar("T")


class BatchAnswers(Generic[T]):
    """The answers of a batch as they come. After the last one ``closing`` holds the closing line.

    Going through them raises ``BrokenStreamError`` if the stream is not whole.
    """

    def __init__(self, response: httpx.Response, reader: LineReader[T]) -> None:
        self._response = response
        self._reader = reader
        self._items = self._read()
        self.closing: BatchClosing | None = None

    def __iter__(self) -> Iterator[BatchItem[T]]:
        return self._items

    def __next__(self) -> BatchItem[T]:
        return next(self._items)

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
        try:
            for piece in self._response.iter_bytes():
                yield from self._reader.feed(piece)
        except httpx.TransportError as error:
            raise BrokenStreamError(str(error) or type(error).__name__, self._reader.received) from error
        finally:
            self._response.close()
        self.closing = self._reader.close()


class AsyncBatchAnswers(Generic[T]):
    """The answers of a batch as they come. After the last one ``closing`` holds the closing line.

    Going through them raises ``BrokenStreamError`` if the stream is not whole.
    """

    def __init__(self, response: httpx.Response, reader: LineReader[T]) -> None:
        self._response = response
        self._reader = reader
        self._items = self._read()
        self.closing: BatchClosing | None = None

    def __aiter__(self) -> AsyncIterator[BatchItem[T]]:
        return self._items

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
        try:
            async for piece in self._response.aiter_bytes():
                for item in self._reader.feed(piece):
                    yield item
        except httpx.TransportError as error:
            raise BrokenStreamError(str(error) or type(error).__name__, self._reader.received) from error
        finally:
            await self._response.aclose()
        self.closing = self._reader.close()
