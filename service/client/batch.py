"""Many couples in one request: the lines that are sent, and the lines that come back.

The closing line holds the number of lines and the SHA-256 of their bytes; a stream without it, or one that
differs from it, is not whole and raises.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import msgspec

from service.client.document.bodies import SurfaceRequest
from service.client.document.results import Answer, BatchClosing, Decision, ItemProblem
from service.client.errors import BrokenStreamError, ItemError
from service.client.flows import Flow, read, send
from service.client.requests import NDJSON, Request

T = TypeVar("T")

Couple = Mapping[str, object] | Sequence[int | str]
"""A couple as ``CoupleRequest``, perhaps with a ``ref`` and with places in ``surfaces`` instead of surfaces;
or ``(first, second)`` or ``(first, second, ref)`` with such places."""

PIECE_BYTES = 65_536


class BatchItem(msgspec.Struct, Generic[T], frozen=True, kw_only=True):
    """What became of one couple: its answer, or why there is none."""

    index: int
    ref: str | int | None = None
    answer: T | None = None
    error: ItemProblem | None = None

    def value(self) -> T:
        """Return the answer.

        Raises
        ------
        ItemError
            If there is none.
        """
        if self.error is not None:
            raise ItemError(self.error, self.index, self.ref)
        if self.answer is None:
            message = "neither answer nor error"
            raise BrokenStreamError(message, self.index)
        return self.answer


def batch_lines(
    couples: Iterable[Couple],
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
) -> Iterator[bytes]:
    """Write a batch as NDJSON, in pieces of a size that is worth sending."""
    piece = bytearray()
    if surfaces or defaults:
        piece += msgspec.json.encode({"surfaces": surfaces, "defaults": defaults or {}}) + b"\n"
    for couple in couples:
        piece += msgspec.json.encode(couple) + b"\n"
        if len(piece) >= PIECE_BYTES:
            yield bytes(piece)
            piece.clear()
    yield bytes(piece)


@dataclass(frozen=True, slots=True)
class Batch(Generic[T]):
    """The call of a batch, and what its answers are."""

    request: Request
    result: type[T]


def judge_couples(
    couples: Iterable[Couple],
    *,
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    as_of: str | None = None,
) -> Batch[Answer]:
    """Judge up to 100,000 couples; their answers come in order while the service is at work.

    ``surfaces`` are sent once, and couples name them by their place; ``defaults`` are what every couple has
    unless it says otherwise. Couples that can be gone through only once are sent only once.
    """
    return Batch(_request("full", couples, surfaces, defaults, as_of), Answer)


def decide_couples(
    couples: Iterable[Couple],
    *,
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    as_of: str | None = None,
) -> Batch[Decision]:
    """Judge up to 100,000 couples like ``judge_couples``, for the core of each answer only."""
    return Batch(_request("decision", couples, surfaces, defaults, as_of), Decision)


def _request(
    view: str,
    couples: Iterable[Couple],
    surfaces: Sequence[str | SurfaceRequest],
    defaults: Mapping[str, object] | None,
    as_of: str | None,
) -> Request:
    return Request(
        "POST",
        "/v1/couples/batch",
        query={"view": view, "as_of": as_of},
        body=lambda: batch_lines(couples, surfaces, defaults),
        may_repeat=isinstance(couples, Collection),
        accept=NDJSON,
        content_type=NDJSON,
    )


class LineReader(Generic[T]):
    """Reads the lines of a batch from pieces of bytes, and checks them against the closing line."""

    def __init__(self, result: type[T]) -> None:
        self._decoder: msgspec.json.Decoder[BatchItem[T]] = msgspec.json.Decoder(BatchItem[result])  # type: ignore[valid-type]
        self._rest = b""
        self._hash = hashlib.sha256()
        self._closing: BatchClosing | None = None
        self.received = 0

    def feed(self, piece: bytes) -> Iterator[BatchItem[T]]:
        """Give the items that a further piece completes."""
        *lines, self._rest = (self._rest + piece).split(b"\n")
        for line in lines:
            if self._closing is not None:
                reason = "something follows the closing line"
                raise BrokenStreamError(reason, self.received)
            if line.startswith(b'{"index":'):
                self._hash.update(line + b"\n")
                item = self._item(line)
                self.received += 1
                yield item
            else:
                self._closing = read(line, BatchClosing)

    def _item(self, line: bytes) -> BatchItem[T]:
        try:
            return self._decoder.decode(line)
        except (msgspec.DecodeError, UnicodeDecodeError) as error:
            reason = f"a line cannot be read: {error}"
            raise BrokenStreamError(reason, self.received) from error

    def close(self) -> BatchClosing:
        """Return the closing line after the last piece.

        Raises
        ------
        BrokenStreamError
            If the stream was not whole.
        """
        closing = self._closing
        reason = ""
        if closing is None or self._rest:
            reason = "it ended without its closing line"
        elif not closing.complete:
            reason = "the service broke off"
        elif closing.count != self.received:
            reason = f"the closing line counts {closing.count}"
        elif closing.digest != self._hash.hexdigest():
            reason = "the digest of the lines is another one"
        if closing is None or reason:
            raise BrokenStreamError(reason, self.received)
        return closing


def decide_all(
    couples: Collection[Couple],
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    as_of: str | None = None,
) -> Flow[list[BatchItem[Decision]]]:
    """Decide many couples and return all at once, in their order."""
    batch = decide_couples(couples, surfaces=surfaces, defaults=defaults, as_of=as_of)
    response = yield from send(batch.request)
    reader: LineReader[Decision] = LineReader(Decision)
    items = list(reader.feed(response.content))
    reader.close()
    return items
