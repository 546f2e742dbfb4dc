from __future__ import annotations

from datetime import timedelta

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.webhooks import DELIVERED, DUE, GIVEN_UP, Webhook, WebhooksRepository
from service.storage.tables import utc_now

NOW = utc_now() + timedelta(hours=1)


def added(database: Database, tenant: str, *events: str) -> Webhook:
    with database.writing() as session:
        return WebhooksRepository(session).add(tenant, f"http://127.0.0.1/{tenant}", "secret", events)


def happened(database: Database, kind: str, tenant: str | None = None) -> FeedLine:
    with database.writing() as session:
        line = ChangesRepository(session).append(kind, "subject", tenant)
        WebhooksRepository(session).address(line)
    return line


def due(database: Database) -> list[tuple[str, str]]:
    with database.writing() as session:
        taken = WebhooksRepository(session).take_due(NOW, 10)
    return [(webhook.tenant_id, change.kind) for _, webhook, change in taken]


def test_a_change_goes_to_those_who_want_it_and_may_see_it(tenants: Database) -> None:
    added(tenants, "port", "release.published", "answer.changed")
    added(tenants, "yard", "answer.changed")
    happened(tenants, "release.published")
    happened(tenants, "answer.changed", "yard")
    happened(tenants, "key.created")
    assert due(tenants) == [("port", "release.published"), ("yard", "answer.changed")]


def test_a_change_is_addressed_with_its_content(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    line = happened(tenants, "release.published")
    with tenants.writing() as session:
        [(delivery, to, change)] = WebhooksRepository(session).take_due(NOW, 10)
    assert (to, change) == (webhook, line)
    assert (delivery.state, delivery.attempts, delivery.change_serial) == (DUE, 0, line.serial)


def test_attempts_are_noted_until_one_succeeds(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    later = NOW + timedelta(minutes=1)
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        [(delivery, _, _)] = webhooks.take_due(NOW, 10)
        failed = webhooks.note_attempt(delivery.id, state=DUE, due_at=later, status=503, error="busy")
        assert (failed.attempts, failed.last_status, failed.last_error) == (1, 503, "busy")
        assert webhooks.get("port", webhook.id).failures == 1
        assert webhooks.take_due(NOW, 10) == ()
        [(again, _, _)] = webhooks.take_due(later, 10)
        done = webhooks.note_attempt(again.id, state=DELIVERED, due_at=later, status=204, delivered_at=later)
        assert (done.attempts, done.delivered_at, done.last_error) == (2, later, "")
        assert webhooks.get("port", webhook.id).failures == 0
        assert webhooks.take_due(later, 10) == ()


def test_what_was_given_up_is_due_no_more(tenants: Database) -> None:
    added(tenants, "port", "release.published")
    happened(tenants, "release.published")
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        [(delivery, _, _)] = webhooks.take_due(NOW, 10)
        webhooks.note_attempt(delivery.id, state=GIVEN_UP, due_at=NOW, error="gone")
        assert webhooks.take_due(NOW, 10) == ()


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
    with tenants.writing() as session:
        WebhooksRepository(session).remove("port", webhook.id)
    assert due(tenants) == []


def test_webhooks_belong_to_their_tenant(tenants: Database) -> None:
    webhook = added(tenants, "port", "release.published")
    with tenants.writing() as session:
        webhooks = WebhooksRepository(session)
        assert webhooks.list("port") == (webhook,)
        assert webhooks.list("yard") == ()
        with pytest.raises(NotStoredError):
            webhooks.get("yard", webhook.id)
        with pytest.raises(NotStoredError):
            webhooks.remove("yard", webhook.id)


def test_two_workers_do_not_take_the_same_delivery(postgresql_url: str) -> None:
    database = Database.open(postgresql_url)
    with database.writing() as session:
        from service.storage.repositories.keys import TenantsRepository

        TenantsRepository(session).ensure("port", "Port")
    added(database, "port", "release.published")
    happened(database, "release.published")
    with database.writing() as one, database.writing() as two:
        assert len(WebhooksRepository(one).take_due(NOW, 10)) == 1
        assert WebhooksRepository(two).take_due(NOW, 10) == ()
    database.close()
