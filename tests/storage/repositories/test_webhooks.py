"""Webhooks hear of what they want and may see, once at least, and again on demand."""

from __future__ import annotations

from datetime import timedelta

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.webhooks import (
    DELIVERED,
    DUE,
    GIVEN_UP,
    Delivery,
    Webhook,
    WebhooksRepository,
)
from service.storage.tables import utc_now

NOW = utc_now() + timedelta(hours=1)
LATER = NOW + timedelta(minutes=1)


def added(database: Database, tenant: str, *events: str) -> Webhook:
    with database.writing() as session:
        return WebhooksRepository(session).add(tenant, f"http://127.0.0.1/{tenant}", "secret", events)


def happened(database: Database, kind: str, tenant: str | None = None) -> FeedLine:
    with database.writing() as session:
        return ChangesRepository(session).append(kind, "subject", tenant)


def due(database: Database) -> list[tuple[Delivery, Webhook, FeedLine]]:
    with database.writing() as session:
        webhooks = WebhooksRepository(session)
        webhooks.address()
        return list(webhooks.lease(NOW, LATER, 10))


def names(database: Database) -> list[tuple[str, str]]:
    return [(webhook.tenant_id, change.kind) for _, webhook, change in due(database)]


def test_a_change_goes_to_those_who_want_it_and_may_see_it(tenants: Database) -> None:
    added(tenants, "port", "release.published", "answer.changed")
    added(tenants, "yard", "answer.changed")
    happened(tenants, "release.published")
    happened(tenants, "answer.changed", "yard")
    happened(tenants, "key.created")
    assert names(tenants) == [("port", "release.published"), ("yard", "answer.changed")]


def test_a_webhook_may_want_everything(tenants: Database) -> None:
    added(tenants, "port", "*")
    happened(tenants, "release.published")
    happened(tenants, "answer.changed", "yard")
    happened(tenants, "key.created")
    assert names(tenants) == [("port", "release.published"), ("port", "key.created")]


def test_a_webhook_hears_of_what_happens_after_it_was_made(tenants: Database) -> None:
    happened(tenants, "release.published")
    webhook = added(tenants, "port", "release.published")
    assert due(tenants) == []
    line = happened(tenants, "release.published")
    [(delivery, to, change)] = due(tenants)
    assert (to.id, change) == (webhook.id, line)
    assert (delivery.state, delivery.attempts, delivery.change_serial) == (DUE, 0, line.serial)


def test_many_changes_are_addressed_in_portions(tenants: Database) -> None:
    added(tenants, "port", "x")
    for _ in range(5):
        happened(tenants, "x")
    with tenants.writing() as session:
        assert [WebhooksRepository(session).address(limit=2) for _ in range(4)] == [2, 2, 1, 0]


def test_what_was_taken_is_due_again_if_nothing_is_heard(tenants: Database) -> None:
    added(tenants, "port", "x")
    happened(tenants, "x")
    assert len(due(tenants)) == 1
    assert due(tenants) == []
    with tenants.writing() as session:
        assert len(WebhooksRepository(session).lease(LATER, LATER + timedelta(minutes=1), 10)) == 1


def test_attempts_are_noted_until_one_succeeds(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    [(delivery, _, _)] = due(tenants)
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        failed = webhooks.note_attempt(delivery.id, state=DUE, due_at=LATER, status=503, error="busy")
        assert failed is not None
        assert (failed.attempts, failed.last_status, failed.last_error) == (1, 503, "busy")
        assert webhooks.get("port", webhook.id).failures == 1
        assert webhooks.lease(NOW, LATER, 10) == ()
        [(again, _, _)] = webhooks.lease(LATER, LATER, 10)
        done = webhooks.note_attempt(again.id, state=DELIVERED, due_at=LATER, status=204, delivered_at=LATER)
        assert done is not None
        assert (done.attempts, done.delivered_at, done.last_error) == (2, LATER, "")
        assert webhooks.get("port", webhook.id).failures == 0
        assert webhooks.lease(LATER, LATER, 10) == ()


def test_what_was_given_up_is_due_no_more(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    [(delivery, _, _)] = due(tenants)
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        webhooks.note_attempt(delivery.id, state=GIVEN_UP, due_at=NOW, error="gone")
        assert webhooks.lease(LATER, LATER, 10) == ()
        assert [each.state for each in webhooks.deliveries(webhook.id).items] == [GIVEN_UP]
        assert webhooks.deliveries(webhook.id, state=DUE).items == ()


def test_everything_since_a_line_is_sent_again_on_demand(tenants: Database) -> None:
    webhook = added(tenants, "port", "x")
    lines = [happened(tenants, "x") for _ in range(3)]
    for delivery, _, _ in due(tenants):
        with tenants.writing() as session:
            WebhooksRepository(session).note_attempt(delivery.id, state=DELIVERED, due_at=NOW)
    with tenants.writing() as session:
        WebhooksRepository(session).disable(webhook.id, NOW)
        replayed = WebhooksRepository(session).replay("port", webhook.id, lines[0].serial)
    assert replayed.disabled_at is None
    assert [change.serial for _, _, change in due(tenants)] == [line.serial for line in lines[1:]]


def test_a_disabled_webhook_receives_nothing(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    with tenants.writing() as session:
        WebhooksRepository(session).disable(webhook.id, NOW)
    happened(tenants, "release.published")
    assert due(tenants) == []


def test_a_removed_webhook_takes_its_deliveries_along(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    [(delivery, _, _)] = due(tenants)
    with tenants.writing() as session:
        WebhooksRepository(session).remove("port", webhook.id)
        assert WebhooksRepository(session).note_attempt(delivery.id, state=DELIVERED, due_at=NOW) is None
        WebhooksRepository(session).disable(webhook.id, NOW)
    assert due(tenants) == []


def test_deliveries_come_in_pages_newest_first(tenants: Database) -> None:
    webhook = added(tenants, "port", "x")
    lines = [happened(tenants, "x") for _ in range(3)]
    due(tenants)
    with tenants.reading() as session:
        webhooks = WebhooksRepository(session)
        first = webhooks.deliveries(webhook.id, limit=2)
        rest = webhooks.deliveries(webhook.id, limit=2, cursor=first.next_cursor)
    serials = [each.change_serial for each in (*first.items, *rest.items)]
    assert serials == [line.serial for line in lines[::-1]]


def test_webhooks_belong_to_their_tenant(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        assert webhooks.list("port") == (webhook,)
        assert webhooks.list("yard") == ()
        for act in (webhooks.get, webhooks.remove):
            with pytest.raises(NotStoredError):
                act("yard", webhook.id)
        with pytest.raises(NotStoredError):
            webhooks.replay("yard", webhook.id, 0)


def test_the_secret_stays_out_of_logs(tenants: Database) -> None:
    assert "secret" not in repr(added(tenants, "port", "x"))


def test_two_workers_do_not_take_the_same_delivery(postgresql_url: str) -> None:
    database = Database.open(postgresql_url)
    with database.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
    added(database, "port", "release.published")
    happened(database, "release.published")
    with database.writing() as session:
        WebhooksRepository(session).address()
    with database.writing() as one, database.writing() as two:
        assert len(WebhooksRepository(one).lease(NOW, LATER, 10)) == 1
        assert WebhooksRepository(two).lease(NOW, LATER, 10) == ()
    database.close()
