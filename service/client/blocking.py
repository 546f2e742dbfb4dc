"""The client that waits for its replies."""

from __future__ import annotations

import time
from dataclasses import replace
from types import TracebackType
from typing import Self, TypeVar

import httpx

from service.client import files, jobs, proof
from service.client.batch import Batch, decide_couples, judge_couples
from service.client.binding import BlockingBatch, BlockingCall, BlockingListing
from service.client.connection import KEPT_REPLIES, TIMEOUT_S, Connection
from service.client.document.methods import BlockingMethods
from service.client.flows import Flow, Pause, check
from service.client.kept_replies import KeptReplies
from service.client.requests import Request
from service.client.retries import Attempts, Retries
from service.client.streams import BatchAnswers

T = TypeVar("T")


class Client(BlockingMethods):
    """The service over HTTP, one method for each of its operations. Several threads may share one.

    Parameters
    ----------
    address : str
        Where the service is, ``http://127.0.0.1:8480``.
    key : str
        API key.
    timeout_s : float
        Longest wait for a reply, and for each further piece of it [s].
    retries : Retries
        How often a call is tried that may be repeated.
    kept_replies : int
        Replies to GET that are kept with their entity tag; an unchanged one is not sent again.
    http : httpx.Client, optional
        A client of your own: for proxies, certificates or tests. It is not closed here.
    """

    judge_couples = BlockingBatch(judge_couples)
    decide_couples = BlockingBatch(decide_couples)
    batch_answers = BlockingListing(jobs.batch_answers)
    batch_decisions = BlockingListing(jobs.batch_decisions)
    job_results = BlockingListing(jobs.job_results)
    start_batch = BlockingCall(jobs.start_batch)
    start_assembly = BlockingCall(jobs.start_assembly)
    start_portfolio = BlockingCall(jobs.start_portfolio)
    wait_for_job = BlockingCall(jobs.wait_for_job)
    assembly_result = BlockingCall(jobs.assembly_result)
    get_answer_bytes = BlockingCall(files.get_answer_bytes)
    export_assembly = BlockingCall(files.export_assembly)
    get_assembly_template = BlockingCall(files.get_assembly_template)
    export_release = BlockingCall(files.export_release)
    find_envelope = BlockingCall(proof.find_envelope)
    prove_envelope = BlockingCall(proof.prove_envelope)

    def __init__(
        self,
        address: str,
        key: str = "",
        *,
        timeout_s: float = TIMEOUT_S,
        retries: Retries | None = None,
        kept_replies: int = KEPT_REPLIES,
        http: httpx.Client | None = None,
    ) -> None:
        self._connection = Connection(
            address, key, timeout_s, retries or Retries(), KeptReplies(kept_replies)
        )
        self._http = http or httpx.Client()
        self._is_own = http is None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Give up the connections."""
        if self._is_own:
            self._http.close()

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self._connection.address!r})"

    def within(self, timeout_s: float, retries: Retries | None = None) -> Client:
        """Return the same client with another time-out, on the same connections."""
        other = Client("", http=self._http)
        other._connection = replace(
            self._connection, timeout_s=timeout_s, retries=retries or self._connection.retries
        )
        return other

    def run(self, flow: Flow[T]) -> T:
        """Run a flow to its end and return its result."""
        reply: httpx.Response | None = None
        while True:
            try:
                step = flow.send(reply) if reply is not None else next(flow)
            except StopIteration as end:
                result: T = end.value
                return result
            if isinstance(step, Pause):
                time.sleep(step.seconds)
                reply = None
            else:
                reply = self._connection.kept.settle(step, self._reply(step, is_streamed=False))

    def stream(self, batch: Batch[T]) -> BatchAnswers[T]:
        """Send a batch and return its answers as they come."""
        response = self._streamed(batch.request)
        return BatchAnswers(batch, response, self._streamed, self._connection.retries)

    def _streamed(self, request: Request) -> httpx.Response:
        response = self._reply(request, is_streamed=True)
        if not response.is_success:
            response.read()
            check(response)
        return response

    def _reply(self, request: Request, *, is_streamed: bool) -> httpx.Response:
        attempts = Attempts(self._connection.retries, request)
        while True:
            try:
                response = self._http.send(self._connection.built(self._http, request), stream=is_streamed)
            except httpx.TransportError as error:
                pause = attempts.pause_after_error(error)
            else:
                wanted = attempts.pause_after(response)
                if wanted is None:
                    return response
                response.close()
                pause = wanted
            time.sleep(pause)
