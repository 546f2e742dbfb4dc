from __future__ import annotations

import pytest

from service.catalogue.records import Limit
from service.storage import Database, seed
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.factories.knowledge import row, small_package

DESIGNATION = '["s235","EN name","S235JR"]'


@pytest.fixture
def seeded(database: Database) -> Database:
    with database.writing() as session:
        seed(session, small_package())
    return database


def test_rows_are_found_by_their_key(seeded: Database) -> None:
    with seeded.reading() as session:
        knowledge = KnowledgeRepository(session)
        assert knowledge.find("limits", "normal") == small_package()["limits"][0]
        assert knowledge.find("designations", DESIGNATION) == small_package()["designations"][0]
        assert knowledge.find("limits", "nowhere") is None


def test_a_record_is_what_a_catalogue_holds(seeded: Database) -> None:
    with seeded.reading() as session:
        knowledge = KnowledgeRepository(session)
        limit = knowledge.record("limits", "normal")
        assert isinstance(limit, Limit)
        assert limit.limit_V == 0.25
        assert knowledge.record("limits", "nowhere") is None


def test_a_row_can_be_added_changed_and_deleted(seeded: Database) -> None:
    own = row("limits", id="own", scale_id="series", limit_V=0.1)
    with seeded.writing() as session:
        knowledge = KnowledgeRepository(session)
        knowledge.insert("limits", [own])
        assert knowledge.find("limits", "own") == own
        knowledge.update("limits", [own | {"limit_V": 0.2}])
        assert knowledge.find("limits", "own") == own | {"limit_V": 0.2}
        knowledge.delete("limits", ["own"])
        assert knowledge.find("limits", "own") is None
        assert len(knowledge.rows("limits")) == 1


def test_a_row_with_several_key_columns_can_be_changed_and_deleted(seeded: Database) -> None:
    changed = small_package()["designations"][0] | {"note": "checked"}
    with seeded.writing() as session:
        knowledge = KnowledgeRepository(session)
        knowledge.update("designations", [changed])
        assert knowledge.find("designations", DESIGNATION) == changed
        knowledge.delete("designations", [DESIGNATION])
        assert len(knowledge.rows("designations")) == 1


def test_nothing_to_do_is_no_fault(seeded: Database) -> None:
    with seeded.writing() as session:
        knowledge = KnowledgeRepository(session)
        knowledge.insert("limits", [])
        knowledge.update("limits", [])
        knowledge.delete("limits", [])
        assert knowledge.all_rows() == small_package()


def test_the_users_of_a_row_are_those_that_name_it(seeded: Database) -> None:
    with seeded.reading() as session:
        knowledge = KnowledgeRepository(session)
        assert knowledge.users("scales", "series") == [
            ("limits", "normal"),
            ("measurements", "zinc-in-brine"),
        ]
        assert knowledge.users("finishes", "gold-plate") == [
            ("finish_substrates", '["gold-plate","copper alloy"]')
        ]
        assert knowledge.users("materials", "s235") == [
            ("designations", DESIGNATION),
            ("designations", '["s235","EN number","1.0038"]'),
            ("measurements", "steel-density"),
        ]
        assert knowledge.users("designations", DESIGNATION) == []
