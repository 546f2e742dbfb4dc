from __future__ import annotations

from copy import deepcopy

import pytest
from sqlalchemy.exc import IntegrityError

from service.catalogue.release import content_hash, freeze
from service.storage import Database, Seeding, load, migrate, publish, read_package, seed
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.factories.knowledge import Values, row, small_package


@pytest.fixture
def package() -> dict[str, list[Values]]:
    return small_package()


def seeded(database: Database, package: dict[str, list[Values]]) -> Seeding:
    with database.writing() as session:
        return seed(session, package)


def stored(database: Database, table: str) -> dict[str, Values]:
    with database.reading() as session:
        return {row["id"]: row for row in KnowledgeRepository(session).rows(table)}


def curate(database: Database, table: str, changed: Values) -> None:
    with database.writing() as session:
        KnowledgeRepository(session).update(table, [changed])


def test_seeding_puts_every_row_in_as_it_is(database: Database, package: dict[str, list[Values]]) -> None:
    seeding = seeded(database, package)
    assert len(seeding.inserted) == sum(len(rows) for rows in package.values())
    with database.reading() as session:
        found = KnowledgeRepository(session).all_rows()
    assert found == package


def test_seeding_again_does_nothing(database: Database, package: dict[str, list[Values]]) -> None:
    seeded(database, package)
    assert seeded(database, package) == Seeding()


def test_changed_rows_are_updated_and_new_ones_added(
    database: Database, package: dict[str, list[Values]]
) -> None:
    seeded(database, package)
    later = deepcopy(package)
    later["limits"][0]["limit_V"] = 0.15
    later["compounds"].append(row("compounds", id="wax"))
    seeding = seeded(database, later)
    assert (seeding.updated, seeding.inserted) == ((("limits", "normal"),), (("compounds", "wax"),))
    assert stored(database, "limits")["normal"]["limit_V"] == 0.15


def test_rows_that_vanish_are_deleted(database: Database, package: dict[str, list[Values]]) -> None:
    seeded(database, package)
    later = deepcopy(package)
    later["designations"].pop()
    later["compounds"].clear()
    seeding = seeded(database, later)
    assert set(seeding.deleted) == {
        ("compounds", "grease"),
        ("designations", '["s235","EN number","1.0038"]'),
    }
    assert not stored(database, "compounds")


def test_a_vanished_row_stays_while_a_curated_one_names_it(
    database: Database, package: dict[str, list[Values]]
) -> None:
    seeded(database, package)
    with database.writing() as session:
        KnowledgeRepository(session).insert("limits", [row("limits", id="house", scale_id="series")])
    later = deepcopy(package)
    later["limits"].clear()
    later["measurements"][0]["scale_id"] = ""
    later["scales"].clear()
    seeding = seeded(database, later)
    assert seeding.kept == (("scales", "series"),)
    assert seeding.deleted == (("limits", "normal"),)
    with database.writing() as session:
        KnowledgeRepository(session).delete("limits", ["house"])
    assert seeded(database, later).deleted == (("scales", "series"),)


def test_what_curation_changed_is_kept_and_reported(
    database: Database, package: dict[str, list[Values]]
) -> None:
    seeded(database, package)
    curate(database, "limits", package["limits"][0] | {"limit_V": 0.2})
    assert seeded(database, package) == Seeding()
    later = deepcopy(package)
    later["limits"][0]["limit_V"] = 0.15
    assert seeded(database, later).kept == (("limits", "normal"),)
    later["limits"].clear()
    assert seeded(database, later).kept == (("limits", "normal"),)
    assert stored(database, "limits")["normal"]["limit_V"] == 0.2


def test_what_curation_removed_does_not_come_back(
    database: Database, package: dict[str, list[Values]]
) -> None:
    seeded(database, package)
    with database.writing() as session:
        KnowledgeRepository(session).delete("compounds", ["grease"])
    later = deepcopy(package)
    later["compounds"][0]["name"] = "Thicker grease"
    assert seeded(database, later).kept == (("compounds", "grease"),)
    assert not stored(database, "compounds")


def test_a_row_that_curation_brought_to_the_same_content_is_the_packages_again(
    database: Database, package: dict[str, list[Values]]
) -> None:
    seeded(database, package)
    later = deepcopy(package)
    later["limits"][0]["limit_V"] = 0.15
    curate(database, "limits", later["limits"][0])
    assert seeded(database, later) == Seeding()
    later["limits"][0]["limit_V"] = 0.3
    assert seeded(database, later).updated == (("limits", "normal"),)


def test_seeding_is_all_or_nothing(database: Database, package: dict[str, list[Values]]) -> None:
    package["limits"][0]["scale_id"] = "no-such-scale"
    with pytest.raises(IntegrityError):
        seeded(database, package)
    assert not stored(database, "sources")


def test_the_real_package_loads_is_idempotent_and_can_be_published(database: Database) -> None:
    package = read_package(migrate.PROJECT / "seed_data")
    assert len(seeded(database, package).inserted) == sum(map(len, package.values()))
    assert seeded(database, package) == Seeding()
    with database.writing() as session:
        release = publish(session, by="test")
    with database.reading() as session:
        assert load(session, release.label).content_hash == release.content_hash
        assert content_hash(freeze(release.label, package)) == release.content_hash
