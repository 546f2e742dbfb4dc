"""A hook in front of "save": a verdict is obeyed, and nobody waits longer than was said."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from typing import Literal

import anyio
import httpx
import pytest

from service.client import (
    AccessError,
    AsyncClient,
    AsyncSaveHook,
    Client,
    OutOfTimeError,
    SaveHook,
    ServiceError,
    UnreachableError,
)
from service.client.document.bodies import CoupleRequest
from tests.factories.scripted import scripted, scripted_async

COUPLE: CoupleRequest = {
    "first": "EN AW-6082-T6, anodized 15 µm",
    "second": "A4-80",
    "environment": "marine-atmosphere-0-100-m",
}
AWAY = httpx.ConnectError("refused")
REFUSED = httpx.Response(503)
DECISION = {
    "address": "/v1/answers/5b", "release": "2026.01.01-1", "engine": "1", "verdict": "unsuitable",
    "severity": "severe", "confidence": "high", "line": "They may not be joined.", "anode": "first",
    "is_polarity_in_doubt": False, "deciding_witness": "kinetics", "conditions": [], "question": None,
    "warnings": 0,
}  # fmt: skip
UNSUITABLE = httpx.Response(200, json=DECISION)
OnFailure = Literal["open", "closed"]


@pytest.fixture
def slow() -> Iterator[tuple[Client, threading.Event]]:
    """A service that answers when it is allowed to."""
    allowed = threading.Event()

    def answer(_: httpx.Request) -> httpx.Response:
        allowed.wait(10)
        return httpx.Response(200, json=DECISION)

    yield Client("http://faying.test", http=httpx.Client(transport=httpx.MockTransport(answer))), allowed
    allowed.set()


def test_a_verdict_is_obeyed(client: Client) -> None:
    hook = SaveHook(client, on_failure="closed", timeout_s=30)
    ruling = hook(COUPLE)
    assert ruling.may_save
    assert ruling.decision is not None
    assert ruling.decision.verdict == "conditional"
    assert not ruling.must_be_checked_later
    strict = SaveHook(client, on_failure="open", timeout_s=30, allowed=["suitable"])(COUPLE)
    assert not strict.may_save
    assert strict.reason == ruling.reason == ruling.decision.line
    hook.close()


@pytest.mark.parametrize(("on_failure", "may_save"), [("open", True), ("closed", False)])
def test_without_a_verdict_the_house_decides(on_failure: OnFailure, may_save: bool) -> None:  # noqa: FBT001
    client, script = scripted(AWAY)
    ruling = SaveHook(client, on_failure=on_failure)(COUPLE)
    assert ruling.may_save is ruling.must_be_checked_later is may_save
    assert isinstance(ruling.failure, UnreachableError)
    assert "refused" in ruling.reason
    assert len(script.requests) == 1


@pytest.mark.parametrize("on_failure", ["open", "closed"])
def test_a_refusal_is_obeyed_whichever_way_it_fails(on_failure: OnFailure) -> None:
    client, _ = scripted(UNSUITABLE)
    ruling = SaveHook(client, on_failure=on_failure)(COUPLE)
    assert not ruling.may_save
    assert ruling.reason == "They may not be joined."


def test_nobody_waits_longer_than_was_said(slow: tuple[Client, threading.Event]) -> None:
    hook = SaveHook(slow[0], on_failure="open", timeout_s=0.2)
    started = time.monotonic()
    ruling = hook(COUPLE)
    assert time.monotonic() - started < 2
    assert isinstance(ruling.failure, OutOfTimeError)
    assert "nothing within 0.2 s" in ruling.reason
    hook.close()


def test_after_a_failure_the_service_is_left_alone_for_a_while(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [1000.0]
    monkeypatch.setattr("service.client.save_hook.time.monotonic", lambda: now[0])
    client, script = scripted(REFUSED, UNSUITABLE, UNSUITABLE)
    hook = SaveHook(client, on_failure="open", rest_s=30)
    assert isinstance(hook(COUPLE).failure, ServiceError)
    now[0] += 29
    assert isinstance(hook(COUPLE).failure, ServiceError)
    assert len(script.requests) == 1
    now[0] += 2
    assert not hook(COUPLE).may_save
    assert not hook(COUPLE).may_save
    assert len(script.requests) == 3


def test_a_question_that_cannot_be_used_does_not_rest_the_service() -> None:
    client, script = scripted(httpx.Response(422), httpx.Response(404), httpx.Response(401), UNSUITABLE)
    hook = SaveHook(client, on_failure="open")
    assert [hook(COUPLE).may_save for _ in range(4)] == [True] * 4
    assert len(script.requests) == 3
    assert isinstance(hook(COUPLE).failure, AccessError)


@pytest.mark.anyio
async def test_the_same_when_awaited(async_client: AsyncClient) -> None:
    ruling = await AsyncSaveHook(async_client, on_failure="closed", timeout_s=30)(COUPLE)
    assert ruling.may_save
    client, script = scripted_async(AWAY, UNSUITABLE)
    hook = AsyncSaveHook(client, on_failure="closed")
    assert not (await hook(COUPLE)).may_save
    assert isinstance((await hook(COUPLE)).failure, UnreachableError)
    assert len(script.requests) == 1


@pytest.mark.anyio
async def test_nobody_awaits_longer_than_was_said() -> None:
    async def answer(_: httpx.Request) -> httpx.Response:
        await anyio.sleep(10)
        return UNSUITABLE

    http = httpx.AsyncClient(transport=httpx.MockTransport(answer))
    hook = AsyncSaveHook(AsyncClient("http://faying.test", http=http), on_failure="open", timeout_s=0.1)
    ruling = await hook(COUPLE)
    assert ruling.must_be_checked_later
    assert isinstance(ruling.failure, OutOfTimeError)
