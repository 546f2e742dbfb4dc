"""The command line: ``faying`` or ``python -m service``."""

from __future__ import annotations

import typer

from service.commands import CommandGroup, knowledge, releases

app = typer.Typer(
    name="faying",
    help="Materials compatibility as a service: may these two surfaces touch, here, for so long?",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    cls=CommandGroup,
)
app.command()(knowledge.setup)
app.command()(knowledge.migrate)
app.command()(knowledge.seed)
app.command(name="check-data")(knowledge.check_data)
app.add_typer(releases.app, name="release")

if __name__ == "__main__":
    app(prog_name="faying")
