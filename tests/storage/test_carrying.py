"""A release as a data package between two servers."""

from __future__ import annotations

import io
import json
import shutil
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from service.catalogue.errors import DamagedReleaseError
from service.storage import Database, ReleaseInfo, export_package, publish, seed
from service.storage.carrying import archive_bytes, archive_name, import_package
from service.storage.errors import (
    MalformedReleaseFileError,
    PackageError,
    ReleaseLabelTakenError,
    UnknownReleaseError,
)
from service.storage.releases import load_export
from service.storage.repositories.audit import AuditRepository
from tests.factories.knowledge import small_package


@pytest.fixture
def release(database: Database) -> ReleaseInfo:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="curator", note="for the other side", engine="1.0")


@pytest.fixture
def folder(database: Database, release: ReleaseInfo, tmp_path: Path) -> Path:
    with database.reading() as session:
        return export_package(session, release.label, tmp_path / "package").parent


@pytest.fixture
def other(sqlite_template: Path, tmp_path: Path) -> Iterator[Database]:
    """A second server."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path / 'other.sqlite3')}"
    with closing(Database.open(url)) as opened:
        yield opened


def test_two_servers_hold_the_same_release(
    database: Database, release: ReleaseInfo, folder: Path, other: Database
) -> None:
    with other.writing() as session:
        assert import_package(session, folder) == release
        assert import_package(session, folder) == release
    with other.reading() as there, database.reading() as here:
        assert load_export(there, release.label) == load_export(here, release.label)
        assert archive_bytes(there, release.label) == archive_bytes(here, release.label)
        imported = AuditRepository(there).page(subject_kind="release").items
    assert [line.action for line in imported] == ["release.imported"]


def test_the_archive_is_the_package(database: Database, release: ReleaseInfo, folder: Path) -> None:
    with database.reading() as session:
        archive = zipfile.ZipFile(io.BytesIO(archive_bytes(session, release.label)))
    assert archive.namelist() == sorted(file.name for file in folder.iterdir())
    assert archive.read("measurements.csv") == (folder / "measurements.csv").read_bytes()
    assert archive_name(release.label) == f"faying-release-{release.label}.zip"


def test_a_package_that_was_changed_on_the_way_is_refused(folder: Path, other: Database) -> None:
    limits = folder / "limits.csv"
    limits.write_text(limits.read_text().replace("0.25", "0.52"))
    with pytest.raises(DamagedReleaseError), other.writing() as session:
        import_package(session, folder)


def test_a_package_without_a_table_is_refused(folder: Path, other: Database) -> None:
    (folder / "limits.csv").unlink()
    with pytest.raises(PackageError), other.writing() as session:
        import_package(session, folder)


@pytest.mark.parametrize("text", ["", "[]", '{"version": "1"}'])
def test_a_folder_that_names_no_release_is_refused(folder: Path, other: Database, text: str) -> None:
    (folder / "datapackage.json").write_text(text)
    with pytest.raises(MalformedReleaseFileError), other.writing() as session:
        import_package(session, folder)


def test_a_label_that_is_taken_is_refused(folder: Path, other: Database, release: ReleaseInfo) -> None:
    with other.writing() as session:
        publish(session, release.label, by="somebody")
    with pytest.raises(ReleaseLabelTakenError), other.writing() as session:
        import_package(session, folder)


def test_an_unknown_release_cannot_be_carried(database: Database) -> None:
    with database.reading() as session, pytest.raises(UnknownReleaseError):
        archive_bytes(session, "1999")


def test_the_descriptor_says_who_published_what(folder: Path, release: ReleaseInfo) -> None:
    head = json.loads((folder / "datapackage.json").read_text())
    assert (head["version"], head["content_hash"]) == (release.label, release.content_hash)
    assert (head["published_by"], head["note"], head["engine"]) == ("curator", "for the other side", "1.0")
