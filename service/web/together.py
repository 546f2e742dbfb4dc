"""New questions that come at the same moment are judged together: judging many is the primitive.

While one group is judged the next gathers, and before it is judged whatever has arrived by then joins it; a
question never waits for company that is not there yet. The same question asked twice at once is judged once.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from starlette.concurrency import run_in_threadpool

from service import telemetry
from service.catalogue.catalogue import Catalogue
from service.judgement import Inquiry, InvalidInquiryError, Policy, answer
from service.web.answers import KeptAnswer
from service.web.identity import Identity
from service.web.issuing import issued

MOST_TOGETHER = 32
"""Enough for arrays to pay; few enough for the first of them not to wait long."""

QUIET_TURNS = 5
"""Turns of the event loop without another question after which a group sets out. It takes this many until
the answers before it are sent; callers who get theirs first may ask again before the others have theirs."""

Outcome = KeptAnswer | InvalidInquiryError
Promise = asyncio.Future[KeptAnswer]


@dataclass(frozen=True, slots=True)
class Company:
    """What questions must have in common to be judged together."""

    catalogue: Catalogue
    policy: Policy
    tenant_id: str

    def judge(self, asked: Sequence[tuple[Inquiry, Identity]]) -> Mapping[str, Outcome]:
        """Judge questions, which are not none; return by digest an answer or why there is none.

        Where one cannot be judged it is looked for by halves, so that it spoils only itself.
        """
        try:
            judged = answer([inquiry for inquiry, _ in asked], self.catalogue, self.policy)
            return {
                identity.digest: issued(each, identity, self.tenant_id)
                for each, (_, identity) in zip(judged, asked, strict=True)
            }
        except InvalidInquiryError as error:
            if len(asked) == 1:
                return {asked[0][1].digest: error}
        middle = len(asked) // 2
        return {**self.judge(asked[:middle]), **self.judge(asked[middle:])}


@dataclass(slots=True)
class _Waiting:
    company: Company
    inquiry: Inquiry
    identity: Identity
    promise: Promise


class Together:
    """Questions that wait for their answers, by digest; ``note`` hears of the size and time of each group."""

    def __init__(self, note: Callable[[int, float], None]) -> None:
        self._note = note
        self._waiting: dict[str, _Waiting] = {}
        self._judging: dict[str, Promise] = {}
        self._worker: asyncio.Task[None] | None = None

    async def judged(self, company: Company, inquiry: Inquiry, identity: Identity) -> KeptAnswer:
        """Return the answer to a question, judged alone or with others.

        Raises
        ------
        InvalidInquiryError
            If the question names something that does not exist.
        """
        promise = self._promised(identity.digest)
        if promise is None:
            promise = asyncio.get_running_loop().create_future()
            promise.add_done_callback(_look_at)
            self._waiting[identity.digest] = _Waiting(company, inquiry, identity, promise)
            if self._worker is None or self._worker.done():
                self._worker = asyncio.create_task(self._work())
        # Others may wait for the same answer, so it is not given up when one caller hangs up.
        return await asyncio.shield(promise)

    def __len__(self) -> int:
        return len(self._waiting) + len(self._judging)

    def _promised(self, digest: str) -> Promise | None:
        waiting = self._waiting.get(digest)
        return waiting.promise if waiting else self._judging.get(digest)

    async def _work(self) -> None:
        while self._waiting:
            await self._gather()
            group = self._next_group()
            self._judging = {each.identity.digest: each.promise for each in group}
            start = time.perf_counter()
            with telemetry.part("judge", couples=len(group)):
                outcomes = await run_in_threadpool(_judge, group)
            self._note(len(group), time.perf_counter() - start)
            self._judging = {}
            for each, outcome in zip(group, outcomes, strict=True):
                _keep(each.promise, outcome)

    async def _gather(self) -> None:
        """Let in what has arrived: hand the loop over until it has brought nothing new for some turns."""
        known, quiet = 0, 0
        while quiet < QUIET_TURNS and len(self._waiting) < MOST_TOGETHER:
            quiet = quiet + 1 if len(self._waiting) == known else 0
            known = len(self._waiting)
            await asyncio.sleep(0)

    def _next_group(self) -> list[_Waiting]:
        """Take the question that waits longest, and those that can go with it."""
        company = next(iter(self._waiting.values())).company
        fitting = [digest for digest, each in self._waiting.items() if each.company == company]
        return [self._waiting.pop(digest) for digest in fitting[:MOST_TOGETHER]]


def _judge(group: Sequence[_Waiting]) -> list[KeptAnswer | Exception]:
    """Judge a group; a failure that nobody foresaw is one question's own, as if it had been asked alone."""
    try:
        outcomes = group[0].company.judge([(each.inquiry, each.identity) for each in group])
    except Exception as error:  # noqa: BLE001 - handed to whoever asked
        return [error] if len(group) == 1 else [_judge([each])[0] for each in group]
    return [outcomes[each.identity.digest] for each in group]


def _keep(promise: Promise, outcome: KeptAnswer | Exception) -> None:
    if promise.cancelled():
        return
    if isinstance(outcome, Exception):
        promise.set_exception(outcome)
    else:
        promise.set_result(outcome)


def _look_at(promise: Promise) -> None:
    """Take note of a failure for which nobody waits any more."""
    if not promise.cancelled():
        promise.exception()
