"""An answer that does not begin in time is told so, and nothing is sent twice."""

from __future__ import annotations

import time

import anyio
import httpx
import pytest
from starlette.types import Message

from service.settings import LOCAL_DEVELOPMENT_KEY, Settings
from service.web.deadlines import Deadlines
from tests.factories.http import Running, bearer, problem, running

pytestmark = pytest.mark.anyio

BODY = b'{"texts": ["A4-80"]}'
HEADERS = [
    (b"authorization", bearer(LOCAL_DEVELOPMENT_KEY)["Authorization"].encode()),
    (b"content-type", b"application/json"),
]
WORK_S = 0.6
PATIENCE_S = 0.1


class Patient:
    """Somebody who waits, and counts how often it was told to give up."""

    def __init__(self) -> None:
        self.rings = 0

    def give_up(self, patience_s: float) -> None:
        assert patience_s == PATIENCE_S
        self.rings += 1


async def test_the_clock_rings_once_and_only_for_whom_it_took_too_long() -> None:
    deadlines, incoming, answered, late = Deadlines(PATIENCE_S), Patient(), Patient(), Patient()
    deadlines.start(answered)
    deadlines.start(late)
    deadlines.start(incoming)
    for _ in range(4):
        deadlines.restart(incoming)
        await anyio.sleep(PATIENCE_S * 0.4)
        deadlines.stop(answered)
    assert (incoming.rings, answered.rings, late.rings) == (0, 0, 1)
    await anyio.sleep(PATIENCE_S * 1.5)
    assert (incoming.rings, answered.rings, late.rings) == (1, 0, 1)


async def test_the_clock_goes_on_after_nobody_waited_for_a_while() -> None:
    deadlines = Deadlines(PATIENCE_S)
    for _ in range(2):
        late = Patient()
        deadlines.start(late)
        await anyio.sleep(PATIENCE_S * 2)
        assert late.rings == 1


@pytest.fixture
def slow_work(monkeypatch: pytest.MonkeyPatch) -> None:
    def slow(_texts: object, _release: object) -> bytes:
        time.sleep(WORK_S)
        return b"{}"

    monkeypatch.setattr("service.web.routes.resolve.read_texts", slow)


def impatient(url: str) -> Settings:
    return Settings(database_url=url, request_timeout_s=0.15)


async def test_work_that_takes_too_long_is_told(published_url: str, slow_work: None) -> None:
    async with running(impatient(published_url)) as application:
        response = await application.client.post("/v1/resolve", json={"texts": ["A4-80"]})
        problem(response, 503, "took-too-long")
        assert int(response.headers["retry-after"]) > 0
        assert response.headers["x-content-type-options"] == "nosniff"
        assert (await application.client.get("/v1/limits")).status_code == 200


async def test_it_is_told_before_the_work_ends_and_nothing_follows(
    published_url: str, slow_work: None
) -> None:
    sent: list[tuple[float, str]] = []

    async def receive() -> Message:
        return {"type": "http.request", "body": BODY, "more_body": False}

    async def send(message: Message) -> None:
        sent.append((time.monotonic() - began_s, message["type"]))

    async with running(impatient(published_url)) as application:
        began_s = time.monotonic()
        await application.asgi(scope("/v1/resolve"), receive, send)
        ended_s = time.monotonic() - began_s
    assert [kind for _, kind in sent] == ["http.response.start", "http.response.body"]
    assert sent[-1][0] < WORK_S <= ended_s


async def test_the_clock_does_not_run_while_the_body_comes(published_url: str) -> None:
    parts = [BODY[:4], BODY[4:8], BODY[8:12], BODY[12:]]
    statuses: list[int] = []

    async def receive() -> Message:
        await anyio.sleep(0.1)
        part = parts.pop(0)
        return {"type": "http.request", "body": part, "more_body": bool(parts)}

    async def send(message: Message) -> None:
        if message["type"] == "http.response.start":
            statuses.append(message["status"])

    async with running(impatient(published_url)) as application:
        await application.asgi(scope("/v1/resolve"), receive, send)
    assert statuses == [200]


async def test_a_failure_after_the_deadline_is_logged_and_not_sent(
    published_url: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(_texts: object, _release: object) -> bytes:
        time.sleep(WORK_S / 2)
        raise ZeroDivisionError

    monkeypatch.setattr("service.web.routes.resolve.read_texts", fail)
    async with running(impatient(published_url)) as application:
        response = await application.client.post("/v1/resolve", json={"texts": ["A4-80"]})
    problem(response, 503, "took-too-long")
    assert "request failed" in caplog.text


def scope(path: str) -> dict[str, object]:
    return {
        "type": "http",
        "method": "POST",
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "headers": HEADERS,
        "client": ("127.0.0.1", 1),
        "scheme": "http",
        "http_version": "1.1",
        "server": ("faying.test", 80),
        "root_path": "",
    }


async def test_searches_weigh_more_than_lookups(client: httpx.AsyncClient, started: Running) -> None:
    before = started.services.requests.take("development").remaining
    await client.post("/v1/mitigations", json={"first": "zinc", "second": "S235JR", "environment": "harbour"})
    assert before - started.services.requests.take("development").remaining > 15
