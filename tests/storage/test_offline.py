from __future__ import annotations

import gzip
import shutil
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from service.catalogue.errors import DamagedReleaseError
from service.storage import (
    Database,
    ReleaseInfo,
    current_release,
    export_file,
    import_release,
    publish,
    seed,
)
from service.storage.errors import MalformedReleaseFileError, ReleaseLabelTakenError, UnknownReleaseError
from service.storage.releases import load_export
from service.storage.repositories.audit import AuditRepository
from tests.factories.knowledge import small_package


def packed(content: bytes) -> bytes:
    """Compress without the time of day, which would give each test process other names of cases."""
    return gzip.compress(content, mtime=0)


@pytest.fixture
def release(database: Database) -> ReleaseInfo:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="curator", note="for the other side", engine="1.0")


@pytest.fixture
def file(database: Database, release: ReleaseInfo, tmp_path: Path) -> Path:
    with database.reading() as session:
        return export_file(session, release.label, tmp_path)


@pytest.fixture
def other(sqlite_template: Path, tmp_path: Path) -> Iterator[Database]:
    """A second server."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path / 'other.sqlite3')}"
    with closing(Database.open(url)) as opened:
        yield opened


def test_two_servers_with_the_same_release_hold_the_same_bytes(
    database: Database, release: ReleaseInfo, file: Path, other: Database
) -> None:
    with other.writing() as session:
        assert import_release(session, file) == release
    with other.reading() as there, database.reading() as here:
        assert load_export(there, release.label) == load_export(here, release.label)
        assert current_release(there) == release


def test_the_file_is_named_after_its_release(file: Path, release: ReleaseInfo) -> None:
    assert file.name == f"faying-release-{release.label}.jsonl.gz"


def test_exporting_twice_gives_the_same_bytes(
    database: Database, release: ReleaseInfo, file: Path, tmp_path: Path
) -> None:
    before = file.read_bytes()
    with database.reading() as session:
        assert export_file(session, release.label, tmp_path).read_bytes() == before


def test_importing_is_audited_and_does_nothing_the_second_time(
    release: ReleaseInfo, file: Path, other: Database
) -> None:
    for _ in range(2):
        with other.writing() as session:
            assert import_release(session, file) == release
    with other.reading() as session:
        lines = AuditRepository(session).page().items
        assert [(line.action, line.subject_id) for line in lines] == [("release.imported", release.label)]


def test_a_label_that_holds_other_content_is_refused(
    release: ReleaseInfo, file: Path, other: Database
) -> None:
    package = small_package()
    package["limits"][0]["limit_V"] = 0.9
    with other.writing() as session:
        seed(session, package)
        publish(session, release.label, by="other")
    with pytest.raises(ReleaseLabelTakenError), other.writing() as session:
        import_release(session, file)


def test_an_unknown_release_cannot_be_exported(database: Database, tmp_path: Path) -> None:
    with database.reading() as session, pytest.raises(UnknownReleaseError):
        export_file(session, "yesterday", tmp_path)


def rewritten(file: Path, old: bytes, new: bytes) -> Path:
    content = gzip.decompress(file.read_bytes())
    assert old in content
    file.write_bytes(gzip.compress(content.replace(old, new)))
    return file


def test_a_tampered_file_is_refused(file: Path, other: Database) -> None:
    rewritten(file, b'"limit_V":0.25', b'"limit_V":0.52')
    with pytest.raises(DamagedReleaseError), other.writing() as session:
        import_release(session, file)


def test_a_file_of_another_format_is_refused(file: Path, other: Database) -> None:
    rewritten(file, b"faying-release-1", b"faying-release-9")
    with pytest.raises(MalformedReleaseFileError, match="format"), other.writing() as session:
        import_release(session, file)


def test_both_lines_must_name_one_release(file: Path, release: ReleaseInfo, other: Database) -> None:
    label = release.label.encode()
    rewritten(file, b'"label": "' + label, b'"label": "other')
    with pytest.raises(MalformedReleaseFileError, match="different"), other.writing() as session:
        import_release(session, file)


@pytest.mark.parametrize(
    "content",
    [b"", b"no gzip", packed(b"x" * 1000)[:-9], packed(b"{}"), packed(b"{}\n[]")],
)
def test_a_file_that_is_no_release_is_refused(tmp_path: Path, other: Database, content: bytes) -> None:
    path = tmp_path / "some.gz"
    path.write_bytes(content)
    with pytest.raises(MalformedReleaseFileError), other.writing() as session:
        import_release(session, path)
