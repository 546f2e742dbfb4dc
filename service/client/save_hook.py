"""A check in front of "save": by the service's answer, or without one when it does not come in time.

Whoever saves waits ``timeout_s`` at the longest. A verdict is always obeyed: what is not in ``allowed`` is
not saved. When there is none, because the service is away, slow, out of allowance or cannot use the question,
``on_failure`` decides: ``open`` saves and marks the record to be checked later, ``closed`` does not save.
After a failure to reach it the service is left alone for ``rest_s``, so that its absence does not slow every
save.
"""

from __future__ import annotations

import time
from collections.abc import Collection
from concurrent.futures import ThreadPoolExecutor
from concurrent.futures import TimeoutError as FutureTimeoutError
from dataclasses import KW_ONLY, dataclass, field
from typing import Generic, Literal, TypeVar

import anyio

from service.client.awaited import AsyncClient
from service.client.blocking import Client
from service.client.document.bodies import CoupleRequest
from service.client.document.results import Decision
from service.client.document.terms import Verdict
from service.client.errors import FayingError, InvalidRequestError, NotFoundError, OutOfTimeError
from service.client.retries import NO_RETRIES

TIMEOUT_S = 2.0
REST_S = 30.0
ALLOWED: tuple[Verdict, ...] = ("suitable", "conditional")
OnFailure = Literal["open", "closed"]


@dataclass(frozen=True, slots=True)
class Ruling:
    """Whether a record may be saved, and what to tell whoever saves it.

    ``decision`` is the service's; without one ``failure`` says why, and the record has to be checked later.
    """

    may_save: bool
    reason: str
    decision: Decision | None = None
    failure: FayingError | None = None

    @property
    def must_be_checked_later(self) -> bool:
        """Whether the record was saved without a verdict."""
        return self.may_save and self.decision is None


C = TypeVar("C", Client, AsyncClient)


@dataclass(eq=False)
class _Hook(Generic[C]):
    """What both hooks are made with, and what they do with what came, or did not come.

    Parameters
    ----------
    client : Client or AsyncClient
    on_failure : str
        ``open`` or ``closed``: whether a record is saved when there is no verdict. There is no default,
        because only the process that the hook stands in knows which is worse.
    timeout_s : float
        Longest wait of whoever saves [s].
    allowed : collection of str
        Verdicts with which a record may be saved.
    rest_s : float
        For how long the service is not asked after a failure [s].
    """

    client: C
    _: KW_ONLY
    on_failure: OnFailure
    timeout_s: float = TIMEOUT_S
    allowed: Collection[Verdict] = ALLOWED
    rest_s: float = REST_S
    _resting: FayingError | None = field(default=None, init=False, repr=False)
    _rests_until: float = field(default=0.0, init=False, repr=False)

    def __post_init__(self) -> None:
        self.client = self.client.within(self.timeout_s, NO_RETRIES)

    def _decided(self, decision: Decision) -> Ruling:
        self._resting = None
        return Ruling(decision.verdict in self.allowed, decision.line, decision)

    def _failed(self, failure: FayingError) -> Ruling:
        if not isinstance(failure, InvalidRequestError | NotFoundError):
            self._resting, self._rests_until = failure, time.monotonic() + self.rest_s
        return self._without(failure)

    def _at_rest(self) -> Ruling | None:
        """Rule without asking while the service is left alone."""
        resting = self._resting
        if resting is None or time.monotonic() >= self._rests_until:
            return None
        return self._without(resting)

    def _out_of_time(self) -> Ruling:
        return self._failed(OutOfTimeError(f"nothing within {self.timeout_s:g} s"))

    def _without(self, failure: FayingError) -> Ruling:
        may_save = self.on_failure == "open"
        consequence = "saved without a verdict, to be checked later" if may_save else "not saved"
        return Ruling(may_save, f"{consequence}: {failure}", failure=failure)


class SaveHook(_Hook[Client]):
    """Asks about a couple before a record is saved, within a time that is kept whatever happens.

    It is made with a client and ``on_failure``, ``open`` or ``closed``, which says whether a record is saved
    when there is no verdict; only the process that the hook stands in knows which is worse.
    """

    def __post_init__(self) -> None:
        super().__post_init__()
        # A thread keeps the time even where httpx cannot: while a name is looked up, or a reply trickles in.
        self._threads = ThreadPoolExecutor(max_workers=8, thread_name_prefix="faying-save-hook")

    def __call__(self, couple: CoupleRequest) -> Ruling:
        """Rule on a record with this couple in it. Never raises for what the service or the network does."""
        if ruling := self._at_rest():
            return ruling
        asked = self._threads.submit(lambda: self.client.decide_couple(**couple))
        try:
            return self._decided(asked.result(self.timeout_s))
        except FutureTimeoutError:
            asked.cancel()
            return self._out_of_time()
        except FayingError as error:
            return self._failed(error)

    def close(self) -> None:
        """Give up the threads."""
        self._threads.shutdown(wait=False, cancel_futures=True)


class AsyncSaveHook(_Hook[AsyncClient]):
    """The same for :class:`AsyncClient`."""

    async def __call__(self, couple: CoupleRequest) -> Ruling:
        """Rule on a record with this couple in it. Never raises for what the service or the network does."""
        if ruling := self._at_rest():
            return ruling
        try:
            with anyio.fail_after(self.timeout_s):
                return self._decided(await self.client.decide_couple(**couple))
        except TimeoutError:
            return self._out_of_time()
        except FayingError as error:
            return self._failed(error)
