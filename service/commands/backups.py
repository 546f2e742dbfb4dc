"""Saving the whole database into one file, and bringing it back."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from service.commands.errors import Failure
from service.commands.output import say
from service.commands.places import configured, make_folder, opened, require_own_schema
from service.judgement.version import ENGINE_VERSION
from service.storage.backup import back_up
from service.storage.backup import restore as restore_into
from service.storage.backup_file import BackupInfo
from service.storage.engine import WriteSession


def backup(
    file: Annotated[Path, typer.Argument(help="Where to write it, such as faying.jsonl.gz.", dir_okay=False)],
) -> None:
    """Save the whole database into one file, while the service goes on.

    The file holds hashes of keys and secrets of webhooks: keep it as you keep the database.
    """
    if file.exists():
        raise Failure(f"{file} exists already; a backup never overwrites another")
    settings = configured()
    require_own_schema(settings)
    with opened(settings) as database:
        try:
            info = back_up(database, file, engine=ENGINE_VERSION)
        except OSError as error:
            raise Failure(f"cannot write {file}: {error.strerror}") from error
    _report(info)


def restore(
    file: Annotated[Path, typer.Argument(help="A file written by backup.", dir_okay=False, exists=True)],
    *,
    replace: Annotated[
        bool, typer.Option("--replace", help="Delete what the database holds; without it that is refused.")
    ] = False,
) -> None:
    """Fill a database from a backup: whole, or not at all. Stop servers and workers first.

    A backup fits SQLite and PostgreSQL, whichever it was taken from.
    """
    settings = configured()
    make_folder(settings)
    afterwards = None if settings.is_embedded else _put_jobs_in_again
    _report(restore_into(settings.database_url, file, replace=replace, afterwards=afterwards))


def _put_jobs_in_again(session: WriteSession) -> None:
    # Only PostgreSQL has a queue beside the jobs.
    from service.jobs.postgres import PostgresQueue

    PostgresQueue().put_in_again(session)


def _report(info: BackupInfo) -> None:
    say(f"{sum(info.rows.values())} rows of {len(info.rows)} tables, taken {info.head.taken_at}")
    say(f"sha256 {info.sha256}")
