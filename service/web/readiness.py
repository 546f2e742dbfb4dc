"""What has to be in order before requests are answered."""

from __future__ import annotations

import logging
from typing import Any

from service.storage.engine import Database
from service.storage.errors import NothingPublishedError
from service.storage.releases import current_release
from service.web.shelf import ReleaseShelf

logger = logging.getLogger(__name__)


def release_check(shelf: ReleaseShelf) -> dict[str, Any]:
    """Tell whether a release is open."""
    try:
        label = shelf.current.label
    except NothingPublishedError as error:
        return {"name": "release", "is_ready": False, "detail": str(error)}
    return {"name": "release", "is_ready": True, "detail": f"{label} is open"}


def database_check(database: Database) -> dict[str, Any]:
    """Tell whether the database answers; what it says in its distress is for the log, not for callers."""
    try:
        with database.reading() as session:
            current_release(session)
    except Exception:  # whatever a driver raises when its server is gone
        logger.exception("database not ready")
        return {"name": "database", "is_ready": False, "detail": "does not answer"}
    return {"name": "database", "is_ready": True, "detail": "answers"}
