"""The command line: ``faying`` or ``python -m service``."""

from __future__ import annotations

try:
    import typer
except ModuleNotFoundError as error:
    message = "faying: only the client is installed here; the command line comes with faying[server]"
    raise SystemExit(message) from error

from service.commands import (
    CommandGroup,
    backups,
    callers,
    contract,
    judging,
    keys,
    knowledge,
    releases,
    serving,
    working,
)

app = typer.Typer(
    name="faying",
    help="Materials compatibility as a service: may these two surfaces touch, here, for so long?",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    cls=CommandGroup,
)
app.command()(serving.serve)
app.command()(working.worker)
app.command()(judging.judge)
app.command()(knowledge.setup)
app.command()(knowledge.migrate)
app.command()(knowledge.seed)
app.command(name="check-data")(knowledge.check_data)
app.command()(backups.backup)
app.command()(backups.restore)
app.add_typer(releases.app, name="release")
app.add_typer(keys.app, name="key")
app.add_typer(callers.tenants, name="tenant")
app.add_typer(callers.clients, name="client")
app.command()(contract.openapi)

if __name__ == "__main__":
    app(prog_name="faying")
