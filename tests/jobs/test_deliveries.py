"""Messages reach webhooks once at least, with patience, and in the end not at all."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import datetime, timedelta

import httpx
import orjson
import pytest
from standardwebhooks.webhooks import Webhook as Verifier

from service.jobs.deliveries import LEASE, WAITS_S, Deliveries, message_of
from service.jobs.errors import ForbiddenAddressError
from service.jobs.outbound import Outbound
from service.jobs.signatures import new_secret
from service.storage import Database
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.webhooks import Delivery, WebhooksRepository
from service.storage.tables import utc_now

SECRET = new_secret()


@dataclass(frozen=True, slots=True)
class Answering(Outbound):
    """Answers as it is told, instead of the outer network."""

    answers: list[int | Exception] = field(default_factory=list)
    sent: list[tuple[str, dict[str, str], bytes]] = field(default_factory=list)

    def post(self, url: str, headers: dict[str, str], body: bytes) -> int:
        self.sent.append((url, headers, body))
        answer = self.answers.pop(0) if self.answers else 204
        if isinstance(answer, Exception):
            raise answer
        return answer


@dataclass
class Clock:
    now: datetime = field(default_factory=utc_now)

    def __call__(self) -> datetime:
        return self.now

    def pass_by(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)


def webhook_of(database: Database, *events: str) -> str:
    with database.writing() as session:
        return WebhooksRepository(session).add("port", "https://plm.example/hook", SECRET, events).id


def happen(database: Database, kind: str = "verdicts.corrected") -> FeedLine:
    with database.writing() as session:
        return ChangesRepository(session).append(kind, "mast", "port", reason="a test")


def state(database: Database, webhook_id: str) -> list[Delivery]:
    with database.reading() as session:
        return list(WebhooksRepository(session).deliveries(webhook_id).items)


def test_a_clock_that_is_set_back_delays_no_message(tenants: Database) -> None:
    clock, outbound = Clock(), Answering(answers=[503, 503])
    webhook_of(tenants, "*")
    deliveries = Deliveries(tenants, outbound, clock)
    happen(tenants)
    assert deliveries.round() == 1
    clock.pass_by(-60)
    assert deliveries.round() == 0
    clock.pass_by(-3600)
    assert deliveries.round() == 1
    assert deliveries.round() == 0
    clock.pass_by(-31_536_000)
    assert deliveries.round() == 1
    assert len(outbound.sent) == 3


def test_a_change_arrives_signed(tenants: Database) -> None:
    webhook_id, outbound = webhook_of(tenants, "verdicts.corrected"), Answering()
    line = happen(tenants)
    assert Deliveries(tenants, outbound).round() == 1
    ((url, headers, body),) = outbound.sent
    assert url == "https://plm.example/hook"
    message = Verifier(SECRET).verify(body, headers)
    assert (message["type"], message["data"]["serial"]) == ("verdicts.corrected", line.serial)
    assert message["data"]["detail"] == {"reason": "a test"}
    (delivery,) = state(tenants, webhook_id)
    assert (delivery.state, delivery.attempts, delivery.last_status) == ("delivered", 1, 204)
    assert Deliveries(tenants, outbound).round() == 0


def test_what_fails_is_tried_again_with_growing_patience_and_the_same_id(tenants: Database) -> None:
    webhook_id, clock = webhook_of(tenants, "*"), Clock()
    outbound = Answering(answers=[503, httpx.ConnectError("refused"), ForbiddenAddressError("x", "no"), 200])
    deliveries = Deliveries(tenants, outbound, clock)
    happen(tenants)
    for wait_s in WAITS_S[:3]:
        assert deliveries.round() == 1
        assert deliveries.round() == 0
        clock.pass_by(wait_s * 0.99)
        assert deliveries.round() == 0
        clock.pass_by(wait_s * 0.3)
    assert deliveries.round() == 1
    (delivery,) = state(tenants, webhook_id)
    assert (delivery.state, delivery.attempts) == ("delivered", 4)
    assert len({headers["webhook-id"] for _, headers, _ in outbound.sent}) == 1
    assert len({body for *_, body in outbound.sent}) == 1


def test_errors_are_written_down(tenants: Database) -> None:
    webhook_id, clock = webhook_of(tenants, "*"), Clock()
    deliveries = Deliveries(tenants, Answering(answers=[503, httpx.ConnectError("refused")]), clock)
    happen(tenants)
    deliveries.round()
    assert state(tenants, webhook_id)[0].last_error == "answered 503"
    clock.pass_by(10)
    deliveries.round()
    (delivery,) = state(tenants, webhook_id)
    assert (delivery.last_status, delivery.last_error) == (None, "ConnectError: refused")


@pytest.mark.parametrize("answers", [[410], [500] * (len(WAITS_S) + 1)])
def test_in_the_end_a_webhook_is_given_up_and_the_feed_says_so(
    tenants: Database, answers: list[int | Exception]
) -> None:
    webhook_id, clock = webhook_of(tenants, "verdicts.corrected"), Clock()
    attempts = len(answers)
    deliveries = Deliveries(tenants, Answering(answers=[*answers]), clock)
    happen(tenants)
    for _ in range(attempts):
        assert deliveries.round() == 1
        clock.pass_by(100_000)
    (delivery,) = state(tenants, webhook_id)
    assert (delivery.state, delivery.attempts) == ("given up", attempts)
    happen(tenants)
    assert deliveries.round() == 0
    with tenants.reading() as session:
        assert WebhooksRepository(session).get("port", webhook_id).disabled_at is not None
        last = ChangesRepository(session).since(0, tenant_id="port", kinds=["webhook.disabled"])
    assert [line.subject for line in last] == [webhook_id]


def test_a_message_whose_sender_died_is_sent_by_another(tenants: Database) -> None:
    webhook_of(tenants, "*")
    clock, outbound = Clock(), Answering()
    happen(tenants)
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        webhooks.address(clock.now)
        assert len(webhooks.lease(clock.now, clock.now + LEASE, 10)) == 1
    assert Deliveries(tenants, outbound, clock).round() == 0
    clock.pass_by(LEASE.total_seconds() + 1)
    assert Deliveries(tenants, outbound, clock).round() == 1


def test_a_webhook_that_is_removed_meanwhile_is_no_failure(tenants: Database) -> None:
    webhook_id = webhook_of(tenants, "*")

    class Removing(Answering):
        def post(self, url: str, headers: dict[str, str], body: bytes) -> int:
            with tenants.writing() as session:
                WebhooksRepository(session).remove("port", webhook_id)
            return len(url + str(headers)) + len(body)

    happen(tenants)
    assert Deliveries(tenants, Removing()).round() == 1
    assert Deliveries(tenants, Removing()).round() == 0


def test_a_message_has_the_form_of_the_specification() -> None:
    line = FeedLine(
        7, datetime.fromisoformat("2026-11-25T09:00:00+00:00"), "release.published", "r", None, {"a": 1}
    )
    assert json.loads(message_of(line)) == {
        "type": "release.published",
        "timestamp": "2026-11-25T09:00:00+00:00",
        "data": {"serial": 7, "subject": "r", "detail": {"a": 1}},
    }
    assert orjson.loads(message_of(line))
