"""Where a command finds its settings, its database and the seed package."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Annotated, Any, TypeVar

import typer
from sqlalchemy import make_url

from service.commands.errors import Failure
from service.settings import Settings
from service.storage.engine import Database
from service.storage.migrate import PROJECT, current, is_known, newest
from service.storage.releases import current_release, load_export
from service.storage.repositories.pages import Page

logger = logging.getLogger(__name__)

Item = TypeVar("Item")

SECRETS = Path("/run/secrets")
SEED_DATA = PROJECT / "seed_data"
BY_HAND = "command line"
"""Who did it, in the audit."""

DataFolder = Annotated[
    Path, typer.Option("--data", help="Folder of the seed package.", file_okay=False, exists=True)
]


def configured(**given: Any) -> Settings:
    """Return the settings of the environment and its secret files, with the command line's on top.

    A file ``faying_database_url`` in the folder where container engines put secrets counts like the
    variable of that name.
    """
    secrets = SECRETS if SECRETS.is_dir() else None
    return Settings(
        _secrets_dir=secrets, **{name: value for name, value in given.items() if value is not None}
    )


def database_file(settings: Settings) -> Path | None:
    """Return the file of an embedded database, ``None`` for a server or a database in memory."""
    name = make_url(settings.database_url).database
    if not settings.is_embedded or not name or name == ":memory:":
        return None
    return Path(name.removeprefix("file:"))  # as SQLite's own addresses begin


def make_folder(settings: Settings) -> None:
    """Make the folder of an embedded database."""
    file = database_file(settings)
    if file is None:
        return
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with file.open("ab"):
            pass
    except OSError as error:
        reason = f"cannot write {file}: {error.strerror}"
        raise Failure(f"{reason}; FAYING_DATABASE_URL names another place") from error


@contextmanager
def opened(settings: Settings) -> Iterator[Database]:
    """Open the database of a command and close it afterwards.

    Raises
    ------
    Failure
        If it was never migrated, or not to the schema of this version.
    """
    require_schema(settings)
    with closing(Database.open(settings.database_url)) as database:
        yield database


def require_schema(settings: Settings) -> None:
    """Refuse a database that this version cannot work with, before anything else happens."""
    file = database_file(settings)
    found = None if file is not None and not file.exists() else current(settings.database_url)
    if found is None:
        raise Failure("the database has no tables yet: run `faying setup`")
    if found == newest():
        return
    if is_known(found):
        raise Failure(f"the database is at revision {found}, not {newest()}: run `faying migrate`")
    # Migrations only add within one version, so that the version before goes on beside the new tables.
    logger.warning("a newer version has made the tables", extra={"facts": {"revision": found}})


def require_own_schema(settings: Settings) -> None:
    """Refuse tables that hold more than this version knows."""
    require_schema(settings)
    if current(settings.database_url) != newest():
        raise Failure("a newer version has made the tables: use that one, which knows all of them")


def require_sound_release(settings: Settings) -> None:
    """Refuse to start on a release that is not what was published."""
    with closing(Database.open(settings.database_url)) as database, database.reading() as session:
        release = current_release(session)
        if release:
            load_export(session, release.label)


def every(page: Callable[[str], Page[Item]]) -> Iterator[Item]:
    """Go through all pages of a list."""
    cursor = ""
    while True:
        found = page(cursor)
        yield from found.items
        cursor = found.next_cursor
        if not cursor:
            return
