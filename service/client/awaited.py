"""The client whose replies are awaited."""

from __future__ import annotations

from dataclasses import replace
from types import TracebackType
from typing import Self, TypeVar

import anyio
import httpx

from service.client import files, jobs, proof
from service.client.batch import Batch, decide_couples, judge_couples
from service.client.binding import AwaitedBatch, AwaitedCall, AwaitedListing
from service.client.connection import KEPT_REPLIES, TIMEOUT_S, Connection
from service.client.document.methods import AwaitedMethods
from service.client.flows import Flow, Pause, check
from service.client.kept_replies import KeptReplies
from service.client.requests import Request
from service.client.retries import Attempts, Retries
from service.client.streams import AsyncBatchAnswers

T = TypeVar("T")


class AsyncClient(AwaitedMethods):
    """The service over HTTP, one method for each of its operations, each to be awaited.

    The parameters are those of :class:`Client`; ``http`` is an ``httpx.AsyncClient``.
    """

    judge_couples = AwaitedBatch(judge_couples)
    decide_couples = AwaitedBatch(decide_couples)
    batch_answers = AwaitedListing(jobs.batch_answers)
    batch_decisions = AwaitedListing(jobs.batch_decisions)
    job_results = AwaitedListing(jobs.job_results)
    start_batch = AwaitedCall(jobs.start_batch)
    start_assembly = AwaitedCall(jobs.start_assembly)
    start_portfolio = AwaitedCall(jobs.start_portfolio)
    wait_for_job = AwaitedCall(jobs.wait_for_job)
    assembly_result = AwaitedCall(jobs.assembly_result)
    get_answer_bytes = AwaitedCall(files.get_answer_bytes)
    export_assembly = AwaitedCall(files.export_assembly)
    get_assembly_template = AwaitedCall(files.get_assembly_template)
    export_release = AwaitedCall(files.export_release)
    find_envelope = AwaitedCall(proof.find_envelope)
    prove_envelope = AwaitedCall(proof.prove_envelope)

    def __init__(
        self,
        address: str,
        key: str = "",
        *,
        timeout_s: float = TIMEOUT_S,
        retries: Retries | None = None,
        kept_replies: int = KEPT_REPLIES,
        http: httpx.AsyncClient | None = None,
    ) -> None:
        self._connection = Connection(
            address, key, timeout_s, retries or Retries(), KeptReplies(kept_replies)
        )
        self._http = http or httpx.AsyncClient()
        self._is_own = http is None

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self.close()

    async def close(self) -> None:
        """Give up the connections."""
        if self._is_own:
            await self._http.aclose()

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self._connection.address!r})"

    def within(self, timeout_s: float, retries: Retries | None = None) -> AsyncClient:
        """Return the same client with another time-out, on the same connections."""
        other = AsyncClient("", http=self._http)
        other._connection = replace(
            self._connection, timeout_s=timeout_s, retries=retries or self._connection.retries
        )
        return other

    async def run(self, flow: Flow[T]) -> T:
        """Run a flow to its end and return its result."""
        reply: httpx.Response | None = None
        while True:
            try:
                step = flow.send(reply) if reply is not None else next(flow)
            except StopIteration as end:
                result: T = end.value
                return result
            if isinstance(step, Pause):
                await anyio.sleep(step.seconds)
                reply = None
            else:
                reply = self._connection.kept.settle(step, await self._reply(step, is_streamed=False))

    async def stream(self, batch: Batch[T]) -> AsyncBatchAnswers[T]:
        """Send a batch and return its answers as they come."""
        response = await self._streamed(batch.request)
        return AsyncBatchAnswers(batch, response, self._streamed, self._connection.retries)

    async def _streamed(self, request: Request) -> httpx.Response:
        response = await self._reply(request, is_streamed=True)
        if not response.is_success:
            await response.aread()
            check(response)
        return response

    async def _reply(self, request: Request, *, is_streamed: bool) -> httpx.Response:
        attempts = Attempts(self._connection.retries, request)
        while True:
            try:
                response = await self._http.send(
                    self._connection.built(self._http, request), stream=is_streamed
                )
            except httpx.TransportError as error:
                pause = attempts.pause_after_error(error)
            else:
                wanted = attempts.pause_after(response)
                if wanted is None:
                    return response
                await response.aclose()
                pause = wanted
            await anyio.sleep(pause)
