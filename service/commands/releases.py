"""Commands on releases: publish, list, show, carry from one server to another."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer
from rich.table import Table

from service.commands.errors import CommandGroup
from service.commands.output import display, say
from service.commands.places import BY_HAND, configured, every, opened
from service.judgement.version import ENGINE_VERSION
from service.storage.carrying import import_package
from service.storage.offline import export_file, import_release
from service.storage.releases import list_releases, load, load_export
from service.storage.releases import publish as publish_working_state
from service.storage.writing import export_package

app = typer.Typer(help="Publish and read releases.", no_args_is_help=True, cls=CommandGroup)
Label = Annotated[str, typer.Argument(help="Label such as 2026.11.25-1.")]


@app.command()
def publish(
    label: Annotated[str | None, typer.Option(help="Label; the date and a number unless given.")] = None,
    note: Annotated[str, typer.Option(help="What changed and why.")] = "",
) -> None:
    """Freeze the working state as a release; an unchanged one stays the release it is."""
    with opened(configured()) as database, database.writing() as session:
        info = publish_working_state(session, label, by=BY_HAND, note=note, engine=ENGINE_VERSION)
    say(f"{info.label} {info.content_hash}")


@app.command(name="list")
def list_all() -> None:
    """List releases, newest first."""
    with opened(configured()) as database, database.reading() as session:
        infos = list(every(lambda cursor: list_releases(session, cursor=cursor)))
    table = Table("label", "published", "by", "content", "note", box=None)
    for info in infos:
        table.add_row(
            info.label,
            f"{info.published_at:%Y-%m-%d %H:%M}",
            info.published_by,
            info.content_hash[:12],
            info.note,
        )
    display(table)


@app.command()
def show(label: Label) -> None:
    """Show a release and what it holds, after checking it against its hash."""
    with opened(configured()) as database, database.reading() as session:
        info, _ = load_export(session, label)
        catalogue = load(session, label)
    say(f"{info.label}  {info.content_hash}")
    say(f"published {info.published_at:%Y-%m-%d %H:%M} UTC by {info.published_by}, engine {info.engine}")
    for name in ("materials", "finishes", "environments", "measurements", "kinetics", "rules", "sources"):
        say(f"{len(getattr(catalogue, name)):6d} {name}")


@app.command(name="export")
def export(
    label: Label,
    directory: Annotated[
        Path, typer.Option(help="Where to write it.", file_okay=False, exists=True)
    ] = Path(),
    *,
    package: Annotated[
        bool, typer.Option("--package", help="As a data package: a folder of CSV files.")
    ] = False,
) -> None:
    """Write a release into one file, for a server without a line to this one."""
    with opened(configured()) as database, database.reading() as session:
        if package:
            say(str(export_package(session, label, directory / f"faying-release-{label}").parent))
        else:
            say(str(export_file(session, label, directory)))


@app.command(name="import")
def import_file(
    path: Annotated[
        Path, typer.Argument(help="A file or the folder of a package, as written by export.", exists=True)
    ],
) -> None:
    """Keep a release that another server has published."""
    with opened(configured()) as database, database.writing() as session:
        info = import_package(session, path) if path.is_dir() else import_release(session, path)
    say(f"{info.label} {info.content_hash}")
