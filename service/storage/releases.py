"""Publishing the working state as an immutable release, and reading releases back."""

from __future__ import annotations

import gzip
import re
import zlib
from datetime import datetime, timedelta

from sqlalchemy.orm import Session

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DamagedReleaseError
from service.catalogue.release import content_hash, freeze, thaw
from service.storage.engine import WriteSession
from service.storage.errors import BadReleaseLabelError, ReleaseLabelTakenError, UnknownReleaseError
from service.storage.misfits import tell_misfits
from service.storage.notices import announce
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.pages import DEFAULT_LIMIT, Page
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository
from service.storage.tables import utc_now

LABEL = re.compile(r"[0-9A-Za-z][0-9A-Za-z.-]{0,63}")
TICK = timedelta(microseconds=1)


def publish(
    session: WriteSession, label: str | None = None, *, by: str, note: str = "", engine: str = ""
) -> ReleaseInfo:
    """Freeze the working state under a label such as ``2026.11.25-1``, and audit it.

    Publishing what the current release already holds returns that release. Publishers queue, so of
    two at once the second sees what the first has done.

    Raises
    ------
    BadReleaseLabelError
        If the label is none.
    ReleaseLabelTakenError
        If the label names a release with other content.
    """
    releases = ReleasesRepository(session)
    releases.lock()
    rows = KnowledgeRepository(session).all_rows()
    current = releases.current()
    if current is not None and content_hash(freeze(current.label, rows)) == current.content_hash:
        return current
    now = utc_now()
    if current is not None:
        now = max(now, current.published_at + TICK)  # a clock set back must not hide the newest release
    label = label or _next_label(releases, now)
    export = freeze(label, rows)
    info = ReleaseInfo(label, content_hash(export), now, by, note, engine, len(export))
    return keep(session, info, export)


def keep(session: WriteSession, info: ReleaseInfo, export: bytes, action: str = "published") -> ReleaseInfo:
    """Store an export for ever, unless it is there already.

    Raises
    ------
    BadReleaseLabelError
        If the label is none.
    ReleaseLabelTakenError
        If the label names a release with other content.
    """
    if not LABEL.fullmatch(info.label):
        raise BadReleaseLabelError(info.label)
    releases = ReleasesRepository(session)
    existing = releases.find(info.label)
    if existing is not None:
        if existing.content_hash != info.content_hash:
            raise ReleaseLabelTakenError(info.label)
        return existing
    releases.add(info, gzip.compress(export, mtime=0))
    facts = {"content_hash": info.content_hash, "note": info.note}
    AuditRepository(session).append(info.published_by, f"release.{action}", "release", info.label, **facts)
    ChangesRepository(session).append(f"release.{action}", info.label, **facts)
    tell_misfits(session, info.label, lambda: thaw(export, info.content_hash))
    announce(session)
    return info


def list_releases(session: Session, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[ReleaseInfo]:
    """Return releases, newest first."""
    return ReleasesRepository(session).page(limit=limit, cursor=cursor)


def current_release(session: Session) -> ReleaseInfo | None:
    """Return the newest release, ``None`` before the first."""
    return ReleasesRepository(session).current()


def load(session: Session, label: str) -> Catalogue:
    """Return the catalogue of a release, checked against its hash.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    info, export = load_export(session, label)
    return thaw(export, info.content_hash)


def load_export(session: Session, label: str) -> tuple[ReleaseInfo, bytes]:
    """Return a release and its canonical export, checked against its hash.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    releases = ReleasesRepository(session)
    info, blob = releases.find(label), releases.blob(label)
    if info is None or blob is None:
        raise UnknownReleaseError(label)
    try:
        export = gzip.decompress(blob)
    except (OSError, EOFError, zlib.error) as error:
        raise DamagedReleaseError(info.content_hash, "unreadable") from error
    if content_hash(export) != info.content_hash:
        raise DamagedReleaseError(info.content_hash, content_hash(export))
    return info, export


def _next_label(releases: ReleasesRepository, now: datetime) -> str:
    day = f"{now:%Y.%m.%d}-"
    numbers = [label.removeprefix(day) for label in releases.labels_like(day)]
    return f"{day}{max((int(number) for number in numbers if number.isdecimal()), default=0) + 1}"
