from __future__ import annotations

import gzip
import threading
from datetime import timedelta

import pytest
from sqlalchemy import text

from service.catalogue.errors import DamagedReleaseError
from service.storage import (
    Database,
    ReleaseInfo,
    current_release,
    list_releases,
    load,
    publish,
    releases,
    seed,
)
from service.storage.errors import BadReleaseLabelError, ReleaseLabelTakenError, UnknownReleaseError
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.tables import ReleaseRow
from tests.factories.knowledge import catalogue_of, small_package


@pytest.fixture
def first(database: Database) -> ReleaseInfo:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="curator", note="the first", engine="1.0")


def change(database: Database, limit_V: float) -> None:
    with database.writing() as session:
        changed = small_package()["limits"][0] | {"limit_V": limit_V}
        KnowledgeRepository(session).update("limits", [changed])


def published(database: Database, label: str | None = None) -> ReleaseInfo:
    with database.writing() as session:
        return publish(session, label, by="curator")


def damage(database: Database, blob: bytes) -> None:
    """Change a release behind the back of its trigger, as a failing disk would."""
    with database.writing() as session:
        trigger = "releases_no_update" if database.is_sqlite else "releases_append_only ON releases"
        session.execute(text(f"DROP TRIGGER {trigger}"))
        session.query(ReleaseRow).update({"blob": blob})


def test_a_release_is_the_catalogue_of_the_seeded_rows(database: Database, first: ReleaseInfo) -> None:
    with database.reading() as session:
        catalogue = load(session, first.label)
    expected = catalogue_of(small_package(), first.label)
    assert catalogue.content_hash == expected.content_hash == first.content_hash
    assert catalogue.limits == expected.limits


def test_labels_are_the_day_and_a_count(database: Database, first: ReleaseInfo) -> None:
    day = f"{first.published_at:%Y.%m.%d}"
    labels = [first.label]
    for limit_V in (0.1, 0.2):
        change(database, limit_V)
        labels.append(published(database).label)
    assert labels == [f"{day}-1", f"{day}-2", f"{day}-3"]


def test_publishing_the_same_content_returns_the_current_release(
    database: Database, first: ReleaseInfo
) -> None:
    assert published(database) == first
    assert published(database, "another-name") == first


def test_going_back_to_earlier_content_is_a_release_of_its_own(
    database: Database, first: ReleaseInfo
) -> None:
    change(database, 0.1)
    published(database)
    change(database, small_package()["limits"][0]["limit_V"])
    third = published(database)
    assert third.label != first.label
    with database.reading() as session:
        assert current_release(session) == third


def test_a_label_names_one_content(database: Database, first: ReleaseInfo) -> None:
    change(database, 0.1)
    with pytest.raises(ReleaseLabelTakenError):
        published(database, first.label)


@pytest.mark.parametrize("label", ["../etc", "a b", ".hidden", "x" * 65])
def test_a_label_may_be_part_of_a_file_name(database: Database, first: ReleaseInfo, label: str) -> None:
    change(database, 0.1)
    with pytest.raises(BadReleaseLabelError):
        published(database, label)


def test_publishing_is_audited_and_told(database: Database, first: ReleaseInfo) -> None:
    published(database)
    with database.reading() as session:
        lines = AuditRepository(session).page(subject_kind="release").items
        feed = ChangesRepository(session).since(0)
    assert [(line.actor, line.action, line.subject_id) for line in lines] == [
        ("curator", "release.published", first.label)
    ]
    assert lines[0].detail == {"content_hash": first.content_hash, "note": "the first"}
    assert [(line.kind, line.subject) for line in feed] == [("release.published", first.label)]


def test_releases_are_listed_newest_first_in_pages(database: Database, first: ReleaseInfo) -> None:
    labels = [first.label]
    for step in range(4):
        change(database, step / 10)
        labels.append(published(database).label)
    found, cursor = [], ""
    with database.reading() as session:
        while True:
            page = list_releases(session, limit=2, cursor=cursor)
            found += [info.label for info in page.items]
            cursor = page.next_cursor
            if not cursor:
                break
    assert found == labels[::-1]


def test_an_unknown_release_is_named(database: Database) -> None:
    with database.reading() as session:
        assert current_release(session) is None
        with pytest.raises(UnknownReleaseError, match="yesterday"):
            load(session, "yesterday")


def test_a_damaged_release_is_not_served(database: Database, first: ReleaseInfo) -> None:
    damage(database, b"not compressed at all")
    with database.reading() as session, pytest.raises(DamagedReleaseError, match="unreadable"):
        load(session, first.label)


def test_a_tampered_release_is_not_served(database: Database, first: ReleaseInfo) -> None:
    with database.reading() as session:
        blob = session.query(ReleaseRow.blob).scalar()
    assert blob is not None
    damage(database, gzip.compress(gzip.decompress(blob).replace(b"0.25", b"0.52")))
    with database.reading() as session, pytest.raises(DamagedReleaseError, match=first.content_hash):
        load(session, first.label)


def test_two_publishers_at_once_make_one_release(database: Database) -> None:
    with database.writing() as session:
        seed(session, small_package())
    barrier = threading.Barrier(2)
    found: list[ReleaseInfo] = []

    def run(name: str) -> None:
        barrier.wait(5)
        with database.writing() as session:
            found.append(publish(session, by=name))

    threads = [threading.Thread(target=run, args=(name,)) for name in ("one", "two")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 2
    assert found[0] == found[1]
    with database.reading() as reader:
        assert len(list_releases(reader).items) == 1


def test_a_clock_set_back_does_not_hide_the_newest_release(
    database: Database, first: ReleaseInfo, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(releases, "utc_now", lambda: first.published_at - timedelta(days=1))
    change(database, 0.1)
    second = published(database)
    with database.reading() as session:
        assert current_release(session) == second


def test_a_release_can_be_loaded_after_ten_later_ones(database: Database, first: ReleaseInfo) -> None:
    for step in range(10):
        change(database, step / 100)
        published(database)
    with database.reading() as session:
        assert load(session, first.label).limits["normal"].limit_V == 0.25
        newest = current_release(session)
        assert newest is not None
        assert load(session, newest.label).limits["normal"].limit_V == 0.09
