"""A database with two tenants and a release."""

from __future__ import annotations

import pytest

from service.storage import Database, publish, seed
from service.storage.repositories.keys import TenantsRepository
from tests.factories.knowledge import small_package


@pytest.fixture
def tenants(database: Database) -> Database:
    with database.writing() as session:
        for tenant in ("port", "yard"):
            TenantsRepository(session).ensure(tenant, tenant.title())
    return database


@pytest.fixture
def release_label(database: Database) -> str:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="test").label
