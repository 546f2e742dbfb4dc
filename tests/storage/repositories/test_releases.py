from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from service.storage import Database
from service.storage.errors import BadCursorError
from service.storage.repositories.pages import encode_cursor
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository

DAY = datetime(2026, 1, 1, tzinfo=UTC)


def info(label: str, day: int) -> ReleaseInfo:
    return ReleaseInfo(label, f"hash of {label}", DAY + timedelta(days=day), "ada", "", "1", 3)


@pytest.fixture
def releases(database: Database) -> list[ReleaseInfo]:
    infos = [info("c", 3), info("a", 1), info("b", 1), info("d_", 0)]
    with database.writing() as session:
        for each in infos:
            ReleasesRepository(session).add(each, b"abc")
    return infos


def test_the_current_release_is_the_newest_whatever_came_in_last(
    database: Database, releases: list[ReleaseInfo]
) -> None:
    with database.reading() as session:
        assert ReleasesRepository(session).current() == releases[0]


def test_a_release_is_found_with_its_content(database: Database, releases: list[ReleaseInfo]) -> None:
    with database.reading() as session:
        repository = ReleasesRepository(session)
        assert repository.find("a") == releases[1]
        assert repository.blob("a") == b"abc"
        assert repository.find("x") is None
        assert repository.blob("x") is None


def test_pages_go_from_new_to_old_even_through_equal_moments(
    database: Database, releases: list[ReleaseInfo]
) -> None:
    labels, cursor = [], ""
    with database.reading() as session:
        while True:
            page = ReleasesRepository(session).page(limit=1, cursor=cursor)
            labels += [each.label for each in page.items]
            cursor = page.next_cursor
            if not cursor:
                break
    assert labels == ["c", "b", "a", "d_"]


def test_a_cursor_that_points_at_no_release_is_refused(
    database: Database, releases: list[ReleaseInfo]
) -> None:
    with database.reading() as session, pytest.raises(BadCursorError):
        ReleasesRepository(session).page(cursor=encode_cursor("x"))


def test_labels_are_found_by_their_beginning_taken_literally(
    database: Database, releases: list[ReleaseInfo]
) -> None:
    with database.reading() as session:
        assert ReleasesRepository(session).labels_like("d_") == ["d_"]
        assert ReleasesRepository(session).labels_like("_") == []
