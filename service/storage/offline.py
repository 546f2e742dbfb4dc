"""A release as one file, for servers without a line between them.

``faying-release-<label>.jsonl.gz`` holds two lines: who published what and when, and the canonical
export, byte for byte, so that both servers hold the same hash and give the same answers.
"""

from __future__ import annotations

import gzip
import json
import zlib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.errors import DamagedReleaseError
from service.catalogue.release import content_hash
from service.storage.engine import WriteSession
from service.storage.errors import MalformedReleaseFileError
from service.storage.releases import keep, load_export
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository

FORMAT = "faying-release-1"


def export_file(session: Session, label: str, directory: Path) -> Path:
    """Write a release into ``directory`` and return the file.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    path = directory / file_name(label)
    path.write_bytes(file_bytes(session, label))
    return path


def file_name(label: str) -> str:
    """Name the file of a release."""
    return f"faying-release-{label}.jsonl.gz"


def file_bytes(session: Session, label: str) -> bytes:
    """Return the content of a release's file, the same on every server that has the release.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    info, export = load_export(session, label)
    head = {
        "format": FORMAT,
        "label": info.label,
        "content_hash": info.content_hash,
        "published_at": info.published_at.isoformat(),
        "published_by": info.published_by,
        "note": info.note,
        "engine": info.engine,
    }
    content = json.dumps(head, ensure_ascii=False).encode() + b"\n" + export + b"\n"
    return gzip.compress(content, mtime=0)


def import_release(session: WriteSession, path: Path) -> ReleaseInfo:
    """Keep a release that another server has published; one that is here already stays as it is.

    Raises
    ------
    MalformedReleaseFileError
        If the file is no exported release.
    DamagedReleaseError
        If its content does not match its hash.
    ReleaseLabelTakenError
        If a release with this label and other content is here.
    """
    info, export = _read(path)
    found = content_hash(export)
    if found != info.content_hash:
        raise DamagedReleaseError(info.content_hash, found)
    ReleasesRepository(session).lock()
    return keep(session, info, export, "imported")


def _read(path: Path) -> tuple[ReleaseInfo, bytes]:
    try:
        first, _, second = gzip.decompress(path.read_bytes()).partition(b"\n")
        head = json.loads(first)
        label = json.loads(second)["label"]
        export = second.removesuffix(b"\n")
        info = _info(head, len(export))
    except (OSError, EOFError, zlib.error) as error:
        raise MalformedReleaseFileError(path, str(error)) from error
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        raise MalformedReleaseFileError(path, "its two lines cannot be read") from error
    if head.get("format") != FORMAT:
        raise MalformedReleaseFileError(path, f"its format is not {FORMAT}")
    if info.label != label:
        raise MalformedReleaseFileError(path, "its two lines name different releases")
    return info, export


def _info(head: dict[str, Any], size_bytes: int) -> ReleaseInfo:
    names = ("label", "content_hash", "published_by", "note", "engine")
    texts = {name: head[name] for name in names}
    if not all(isinstance(text, str) for text in texts.values()):
        raise TypeError(texts)
    published_at = datetime.fromisoformat(head["published_at"]).astimezone(UTC)
    return ReleaseInfo(**texts, published_at=published_at, size_bytes=size_bytes)
