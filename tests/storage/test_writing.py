from __future__ import annotations

import json
from pathlib import Path

import pytest
from frictionless import Package, system

from service.catalogue.release import content_hash, freeze
from service.storage import Database, ReleaseInfo, export_package, publish, read_package, seed
from service.storage.writing import write_package
from tests.factories.knowledge import small_package


@pytest.fixture
def release(database: Database) -> ReleaseInfo:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="curator")


def test_a_release_survives_the_way_through_csv(
    database: Database, release: ReleaseInfo, tmp_path: Path
) -> None:
    with database.reading() as session:
        export_package(session, release.label, tmp_path)
    rows = read_package(tmp_path)
    assert content_hash(freeze(release.label, rows)) == release.content_hash


def test_the_descriptor_names_the_release(database: Database, release: ReleaseInfo, tmp_path: Path) -> None:
    with database.reading() as session:
        path = export_package(session, release.label, tmp_path / "out")
    descriptor = json.loads(path.read_text(encoding="utf-8"))
    assert descriptor["version"] == release.label
    assert descriptor["content_hash"] == release.content_hash
    assert descriptor["created"] == release.published_at.isoformat()


def test_text_that_csv_must_quote_survives(tmp_path: Path) -> None:
    package = small_package()
    package["materials"][0]["note"] = 'line one\nline "two", with; signs µ'
    package["materials"][0]["strength_MPa"] = 1e-7
    write_package(package, tmp_path)
    assert read_package(tmp_path) == package


def test_an_exported_package_is_valid_for_an_outside_reader(tmp_path: Path) -> None:
    package = small_package()
    write_package(package, tmp_path)
    with system.use_context(trusted=True):
        report = Package(str(tmp_path / "datapackage.json")).validate()
    assert report.valid, report.flatten(["type", "message"])
