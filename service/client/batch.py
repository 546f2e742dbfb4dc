"""Many couples in one request: the call, and the lines that are sent."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Generic, TypeVar

import msgspec

from service.client.document.bodies import SurfaceRequest
from service.client.document.results import Answer, Decision
from service.client.flows import Flow, send
from service.client.lines import BatchItem, LineReader
from service.client.requests import NDJSON, Request

T = TypeVar("T")

Couple = Mapping[str, object] | Sequence[int | str]
"""A couple as ``CoupleRequest``, perhaps with a ``ref`` and with places in ``surfaces`` instead of surfaces;
or ``(first, second)`` or ``(first, second, ref)`` with such places."""

PIECE_BYTES = 65_536


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

    result: type[T]
    view: str
    couples: Iterable[Couple]
    surfaces: Sequence[str | SurfaceRequest]
    defaults: Mapping[str, object] | None
    as_of: str | None

    @property
    def request(self) -> Request:
        """The call for all couples."""
        return self.after(0, None)

    def after(self, count: int, release: str | None) -> Request:
        """Return the call for what follows some couples, in the release of their answers if that is known."""
        return Request(
            "POST",
            "/v1/couples/batch",
            query={"view": self.view, "as_of": self.as_of or release},
            body=lambda: batch_lines(islice(self.couples, count, None), self.surfaces, self.defaults),
            may_repeat=isinstance(self.couples, Collection),
            accept=NDJSON,
            content_type=NDJSON,
        )


def judge_couples(
    couples: Iterable[Couple],
    *,
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    as_of: str | None = None,
) -> Batch[Answer]:
    """Judge up to 100,000 couples; their answers come in order while the service is at work.

    ``surfaces`` are sent once, and couples name them by their place; ``defaults`` are what every couple has
    unless it says otherwise. After a broken connection the rest is asked for, from the first couple without
    an answer and in the same release, as often as the client retries a call. Couples that can be gone through
    only once are sent only once: the batch of a generator is not resumed.
    """
    return Batch(Answer, "full", couples, surfaces, defaults, as_of)


def decide_couples(
    couples: Iterable[Couple],
    *,
    surfaces: Sequence[str | SurfaceRequest] = (),
    defaults: Mapping[str, object] | None = None,
    as_of: str | None = None,
) -> Batch[Decision]:
    """Judge up to 100,000 couples like ``judge_couples``, for the core of each answer only."""
    return Batch(Decision, "decision", couples, surfaces, defaults, as_of)


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
