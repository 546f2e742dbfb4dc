"""Many couples in one request, answered in a stream."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncGenerator, Callable, Iterator
from contextlib import aclosing
from typing import IO, Annotated, Any

import anyio
from fastapi import APIRouter, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse
from starlette.types import Receive, Send
from starlette.types import Scope as AsgiScope

from service.access.scopes import Scope
from service.storage.errors import UnknownReleaseError
from service.web.allowances import take_weight
from service.web.batch_answers import Answering, Reading, Tally, chunks
from service.web.batch_input import JSON, NDJSON, read_batch
from service.web.batch_questions import Questions
from service.web.operations import Operation
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import NO_STORE
from service.web.schemas.batch import BatchClosing, BatchItem, BatchQuery, BatchRequest
from service.web.spool import content_type_of, size_of, spooled
from service.web.state import principal, services
from service.web.streamed_routing import StreamedRoute, body_in

COUPLES_PER_REQUEST = 100
"""Couples that weigh as much as one request in a caller's allowance."""

READ_AT_ONCE_BYTES = 256 * 1024
"""Bodies that are taken apart in less time than it takes to wake a thread and hear from it."""

logger = logging.getLogger(__name__)

router = APIRouter(prefix="/v1", tags=["Couples"], route_class=StreamedRoute)


class NdjsonResponse(StreamingResponse):
    """Lines of JSON as they come, for as long as the caller is there.

    The parent class looks out for the caller in a group of tasks, which costs as much as 300 known couples.
    """

    media_type = NDJSON
    body_iterator: AsyncGenerator[bytes]

    async def __call__(self, _: AsgiScope, receive: Receive, send: Send) -> None:
        """Send the head and the lines, and stop between two portions once nobody listens."""
        gone = asyncio.ensure_future(self.listen_for_disconnect(receive))
        start = {"type": "http.response.start", "status": self.status_code, "headers": self.raw_headers}
        try:
            await send(start)
            async with aclosing(self.body_iterator) as portions:
                async for content in portions:
                    if gone.done():
                        return
                    await send({"type": "http.response.body", "body": content, "more_body": True})
            await send({"type": "http.response.body", "body": b""})
        finally:
            gone.cancel()


@router.post(
    "/couples/batch",
    operation_id="judge_couples",
    summary="Judge many couples",
    response_class=NdjsonResponse,
    responses={
        200: {
            "model": BatchItem | BatchClosing,
            "description": "A line for each couple, then the closing line.",
        },
        **openapi_responses(UnknownReleaseError, with_body=True),
    },
    openapi_extra={**needs(Scope.JUDGE), **body_in(BatchRequest, NDJSON, JSON)},
)
async def judge_couples(request: Request, query: Annotated[BatchQuery, Query()]) -> NdjsonResponse:
    """Judge up to 100,000 couples and stream their answers back in order.

    A couple that cannot be judged spoils only its own line. The closing line counts the lines and holds
    the SHA-256 of their bytes; an answer has the bytes that the same question gets alone.
    """
    content_type = content_type_of(request, (NDJSON, JSON))
    release = await release_for(request, query.as_of)
    operation = Operation.of(request.app, "/v1/couples", "POST")
    body = await spooled(request)
    try:
        is_short = size_of(body) <= READ_AT_ONCE_BYTES
        batch = (
            read_batch(body, content_type)
            if is_short
            else await run_in_threadpool(read_batch, body, content_type)
        )
        take_allowance(request, batch.count)
    except BaseException:
        body.close()
        raise
    catalogue = release.catalogue
    questions = Questions(batch.head, catalogue, operation)
    answering = Answering(catalogue, query.view, principal(request).tenant_id, services(request).answers)
    reading = Reading.of(questions, answering, services(request).known_lines)
    held = services(request)
    lines = _stream(body, batch.raws, reading, held.batches, held.metrics.batch)
    return NdjsonResponse(lines, headers=NO_STORE)


def take_allowance(request: Request, couples: int) -> None:
    """Let a batch weigh as much as it is large in the allowance of its caller.

    Raises
    ------
    TooManyRequestsError
        If the allowance is used up.
    """
    take_weight(request, couples // COUPLES_PER_REQUEST)


async def _stream(
    body: IO[bytes],
    raws: Iterator[bytes],
    reading: Reading,
    turn: Any,
    note: Callable[[int, int], None],
) -> AsyncGenerator[bytes]:
    """Answer portion by portion; batches of one process take turns, so that lookups find room.

    What is known is looked up here; a thread judges the rest. Lines are on their way while they are hashed.
    """
    tally, catalogue, is_complete = Tally(), reading.answering.catalogue, True
    with body:
        try:
            for portion in chunks(raws):
                lines = reading.known(portion, tally.count)
                if lines is None:
                    lines = await anyio.to_thread.run_sync(reading.lines, portion, tally.count, limiter=turn)
                else:
                    await asyncio.sleep(0)  # nobody shall wait for more than one portion
                note(lines.count, lines.failed)
                yield lines.content
                tally.add(lines)
        except Exception:
            logger.exception("batch broke off", extra={"facts": {"count": tally.count}})
            is_complete = False
        yield tally.closing(catalogue.label, catalogue.content_hash, is_complete=is_complete)
