"""A seeded and published database."""

from __future__ import annotations

import pytest

from service.storage import Database, publish, seed
from tests.factories.knowledge import small_package


@pytest.fixture
def knowledge(database: Database) -> Database:
    with database.writing() as session:
        seed(session, small_package())
        publish(session, by="setup")
    return database
