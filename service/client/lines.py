"""The lines that answer a batch: each is read and counted, and the closing line must agree with them.

The closing line holds the number of lines and the SHA-256 of their bytes. What comes in several parts,
because a connection broke, is put together as if it had come in one. A part with a closing line is checked
against it; a part that broke off has none, so of that only lines count that are whole and in order. The
closing line that the caller gets counts and hashes the lines of all parts, numbered through: it is the one
that the service would have sent at once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Any, Generic, TypeVar

import msgspec

from service.client.document.results import BatchClosing, ItemProblem
from service.client.errors import BrokenStreamError, ItemError
from service.client.flows import read

T = TypeVar("T")

ENDED = "it ended without its closing line"

_START = b'{"index":'


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


class LineReader(Generic[T]):
    """Reads the lines of a batch from pieces of bytes, and checks them against the closing line."""

    def __init__(self, result: type[T]) -> None:
        self._decoder: msgspec.json.Decoder[BatchItem[T]] = msgspec.json.Decoder(BatchItem[result])  # type: ignore[valid-type]
        self._rest = b""
        self._before = 0
        self._part = hashlib.sha256()
        self._whole: hashlib._Hash | None = None
        self._closing: BatchClosing | None = None
        self._failed = 0
        self._release: str | None = None
        self.received = 0

    @property
    def has_ended(self) -> bool:
        """Whether the closing line is there."""
        return self._closing is not None and not self._rest

    @property
    def release(self) -> str | None:
        """Label of the release that the answers come from, as far as one of them says so."""
        return self._release

    def resume(self) -> None:
        """Expect another stream, which begins with what follows the last whole line of this one."""
        self._whole = self._whole or self._part
        self._part = hashlib.sha256()
        self._before, self._rest = self.received, b""

    def feed(self, piece: bytes) -> Iterator[BatchItem[T]]:
        """Give the items that a further piece completes."""
        *lines, self._rest = (self._rest + piece).split(b"\n")
        for line in lines:
            if self._closing is not None:
                reason = "something follows the closing line"
                raise BrokenStreamError(reason, self.received)
            if line.startswith(_START):
                yield self._item(line)
            else:
                self._closing = read(line, BatchClosing)

    def _item(self, line: bytes) -> BatchItem[T]:
        self._part.update(line + b"\n")
        try:
            item = self._decoder.decode(line)
        except (msgspec.DecodeError, UnicodeDecodeError) as error:
            reason = f"a line cannot be read: {error}"
            raise BrokenStreamError(reason, self.received) from error
        if item.index != self.received - self._before:
            reason = f"line {item.index} is out of order"
            raise BrokenStreamError(reason, self.received)
        if self._whole is not None:
            self._whole.update(b"%s%d,%s\n" % (_START, self.received, line.partition(b",")[2]))
            item = msgspec.structs.replace(item, index=self.received)
        self.received += 1
        self._failed += item.error is not None
        self._release = self._release or _release_of(item.answer)
        return item

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
            reason = ENDED
        elif not closing.complete:
            reason = "the service broke off"
        elif closing.count != self.received - self._before:
            reason = f"the closing line counts {closing.count}"
        elif closing.digest != self._part.hexdigest():
            reason = "the digest of the lines is another one"
        if closing is None or reason:
            raise BrokenStreamError(reason, self.received)
        if self._whole is None:
            return closing
        whole = self._whole.hexdigest()
        return msgspec.structs.replace(closing, count=self.received, failed=self._failed, digest=whole)


def _release_of(answer: Any) -> str | None:
    """The label in an answer (an object) or in a decision (a text)."""
    release = getattr(answer, "release", None)
    return getattr(release, "label", release)
