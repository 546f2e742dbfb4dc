"""A release as a data package from one server to another: as a folder, or as one archive of it."""

from __future__ import annotations

import io
import json
import tempfile
import zipfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.errors import DamagedReleaseError
from service.catalogue.release import content_hash, freeze
from service.storage.engine import WriteSession
from service.storage.errors import MalformedReleaseFileError
from service.storage.package import DESCRIPTOR
from service.storage.reading import read_package
from service.storage.releases import keep
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository
from service.storage.writing import export_package

_NEVER = (1980, 1, 1, 0, 0, 0)
"""The first moment that an archive can name: the same release shall give the same bytes at any time."""


def archive_name(label: str) -> str:
    """Name the archive of a release."""
    return f"faying-release-{label}.zip"


def archive_bytes(session: Session, label: str) -> bytes:
    """Return a release as an archive of its data package.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    written = io.BytesIO()
    with tempfile.TemporaryDirectory() as name, zipfile.ZipFile(written, "w") as archive:
        folder = export_package(session, label, Path(name)).parent
        for file in sorted(folder.iterdir()):
            entry = zipfile.ZipInfo(file.name, _NEVER)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, file.read_bytes())
    return written.getvalue()


def import_package(session: WriteSession, folder: Path) -> ReleaseInfo:
    """Keep a release that another server has written as a data package; one that is here stays as it is.

    Raises
    ------
    MalformedReleaseFileError
        If the descriptor names no release.
    PackageError
        If its tables cannot be read.
    DamagedReleaseError
        If its content does not match its hash.
    ReleaseLabelTakenError
        If a release with this label and other content is here.
    """
    head = _head(folder / DESCRIPTOR)
    export = freeze(head["version"], read_package(folder))
    found = content_hash(export)
    if found != head["content_hash"]:
        raise DamagedReleaseError(head["content_hash"], found)
    info = ReleaseInfo(
        label=head["version"],
        content_hash=found,
        published_at=datetime.fromisoformat(head["created"]).astimezone(UTC),
        published_by=head["published_by"],
        note=head["note"],
        engine=head["engine"],
        size_bytes=len(export),
    )
    ReleasesRepository(session).lock()
    return keep(session, info, export, "imported")


def _head(path: Path) -> dict[str, Any]:
    try:
        head: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        missing = {"version", "content_hash", "created", "published_by", "note", "engine"} - set(head)
    except (OSError, ValueError, TypeError) as error:
        raise MalformedReleaseFileError(path, str(error)) from error
    if missing:
        raise MalformedReleaseFileError(path, f"it does not say {min(missing)}")
    return head
