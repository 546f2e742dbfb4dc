"""Commands on the database and the knowledge in it: migrate, seed, check, set up."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Annotated

import typer
from rich.markdown import Markdown
from rich.table import Table

from service.access import ensure_local_tenant
from service.catalogue.release import freeze, thaw
from service.commands.output import console, display, say
from service.commands.places import BY_HAND, SEED_DATA, DataFolder, configured, make_folder, opened
from service.curation.coverage_report import coverage_page, write_coverage_page
from service.judgement.version import ENGINE_VERSION
from service.storage import migrate as migrations
from service.storage.engine import Database
from service.storage.reading import read_package
from service.storage.releases import current_release, publish
from service.storage.seeding import Seeding
from service.storage.seeding import seed as seed_package


def migrate(
    revision: Annotated[str, typer.Argument(help="Revision to go up to.")] = "head",
) -> None:
    """Create the tables, or bring them to the schema of this version."""
    settings = configured()
    make_folder(settings)
    migrations.upgrade(settings.database_url, revision)
    say(f"schema {migrations.current(settings.database_url)}")


def seed(data: DataFolder = SEED_DATA) -> None:
    """Bring the seed package into the working state; what curation changed stays."""
    with opened(configured()) as database:
        report(_seed(database, data))


def setup(data: DataFolder = SEED_DATA) -> None:
    """Migrate, seed and publish the first release; harmless when all is done already."""
    settings = configured()
    make_folder(settings)
    migrations.upgrade(settings.database_url)
    with opened(settings) as database:
        seeding = _seed(database, data)
        with database.writing() as session:
            if settings.effective_development_key:
                ensure_local_tenant(session)
            first = current_release(session) is None
            release = (
                publish(session, by=BY_HAND, engine=ENGINE_VERSION) if first else current_release(session)
            )
    if not seeding.is_unchanged:
        report(seeding)
    label = release.label if release else ""
    say(f"release {label} {'published' if first else 'is current'}")
    if not first and not seeding.is_unchanged:
        say("the working state has changed since: `faying release publish` makes it the next release")


def check_data(
    data: Annotated[Path, typer.Argument(help="Folder of the seed package.")] = SEED_DATA,
    *,
    write: Annotated[bool, typer.Option("--write", help="Write the coverage page into README.md.")] = False,
) -> None:
    """Check every row of the seed package; show what it holds, lacks and rests on.

    With --write the coverage page in the package's README is written anew.
    """
    with console().status("reading the seed package") as status:
        package = read_package(data)
        catalogue = thaw(freeze("check", package))
        status.update("judging the fixed couples")
        page = coverage_page(catalogue)
    table = Table("table", "rows", "read", "computed", "memory or practice", "set aside", box=None)
    for name, rows in package.items():
        obtained = Counter(str(row.get("obtained", "")) for row in rows)
        table.add_row(
            name,
            str(len(rows)),
            _count(obtained["read"] + obtained["read in a reproduction"]),
            _count(obtained["computed"]),
            _count(obtained["from memory"] + obtained["common practice"]),
            _count(sum(1 for row in rows if row.get("quarantine_reason"))),
        )
    display(table)
    display(Markdown(page))
    if write:
        write_coverage_page(data / "README.md", page)


def report(seeding: Seeding) -> None:
    """Say in one line what a seeding did, and name what it left alone."""
    if seeding.is_unchanged:
        say("the database holds the seed package already")
    else:
        parts = {
            "new": seeding.inserted,
            "changed": seeding.updated,
            "removed": seeding.deleted,
        }
        say(", ".join(f"{len(rows)} rows {word}" for word, rows in parts.items() if rows))
    for table, key in seeding.kept:
        say(f"kept as curation left it: {table} {key}")


def _seed(database: Database, data: Path) -> Seeding:
    with console().status("reading the seed package") as status:
        package = read_package(data)
        status.update("writing it to the database")
        with database.writing() as session:
            return seed_package(session, package)


def _count(number: int) -> str:
    return str(number) if number else "-"
