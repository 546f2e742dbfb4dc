"""Clients are shut out and let in again, each once."""

from __future__ import annotations

from datetime import UTC, datetime

from service.storage import Database
from service.storage.repositories.clients import BlockedClient, BlockedClientsRepository
from service.storage.repositories.keys import TenantsRepository

NOW = datetime(2026, 1, 2, 3, 4, 5, tzinfo=UTC)


def test_a_client_is_blocked_once_and_unblocked_once(database: Database) -> None:
    with database.writing() as session:
        clients = BlockedClientsRepository(session)
        assert clients.block("plm", NOW)
        assert not clients.block("plm", NOW)
        assert clients.all() == [BlockedClient("plm", NOW)]
        assert clients.unblock("plm")
        assert not clients.unblock("plm")
        assert clients.all() == []


def test_a_client_acts_for_known_tenants_that_are_not_disabled(database: Database) -> None:
    with database.writing() as session:
        tenants, clients = TenantsRepository(session), BlockedClientsRepository(session)
        assert not clients.is_admitted("harbour", "plm")
        tenants.ensure("harbour", "Port of Skerrivoe")
        assert clients.is_admitted("harbour", "plm")
        clients.block("plm", NOW)
        assert not clients.is_admitted("harbour", "plm")
        assert clients.is_admitted("harbour", "portal")
        tenants.set_disabled("harbour", NOW)
        assert not clients.is_admitted("harbour", "portal")
