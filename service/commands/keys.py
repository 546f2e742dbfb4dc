"""Commands on API keys: create, rotate, revoke, list."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Annotated

import typer
from rich.table import Table

from service.access import CALLER, Scope, create_key, list_keys, parse_scopes, revoke_key, rotate_key
from service.commands.errors import CommandGroup
from service.commands.output import display, say
from service.commands.places import BY_HAND, configured, opened

app = typer.Typer(help="Create, rotate, revoke and list API keys.", no_args_is_help=True, cls=CommandGroup)
SCOPES_HELP = f"Scope; may be repeated. Known: {', '.join(Scope)}."


@app.command()
def create(
    name: Annotated[str, typer.Argument(help="What the key is for, such as the calling system.")],
    tenant: Annotated[str, typer.Option(help="Organisation that owns what the key stores.")] = "default",
    scope: Annotated[list[str] | None, typer.Option(help=SCOPES_HELP)] = None,
    days: Annotated[
        int | None, typer.Option(min=1, help="Days until it expires; never unless given.")
    ] = None,
) -> None:
    """Make a key and print it; it is shown this once and stored nowhere."""
    settings = configured()
    scopes = parse_scopes(scope) if scope else CALLER
    expires_at = datetime.now(UTC) + timedelta(days=days) if days else None
    pepper = settings.key_pepper.get_secret_value()
    with opened(settings) as database, database.writing() as session:
        made = create_key(
            session, name, tenant_id=tenant, pepper=pepper, by=BY_HAND, scopes=scopes, expires_at=expires_at
        )
    say(made.text)


@app.command()
def rotate(
    name: Annotated[str, typer.Argument(help="Identifier or prefix of the key.")],
    overlap_hours: Annotated[
        float, typer.Option(min=0, help="Hours for which the old key stays valid beside the new one.")
    ] = 24.0,
) -> None:
    """Make a new key that may do the same, print it, and let the old one end."""
    settings = configured()
    pepper = settings.key_pepper.get_secret_value()
    overlap = timedelta(hours=overlap_hours)
    with opened(settings) as database, database.writing() as session:
        made = rotate_key(session, name, pepper=pepper, by=BY_HAND, overlap=overlap)
    say(made.text)


@app.command()
def revoke(name: Annotated[str, typer.Argument(help="Identifier or prefix of the key.")]) -> None:
    """End a key; running servers refuse it within FAYING_KEY_CACHE_S seconds."""
    with opened(configured()) as database, database.writing() as session:
        key = revoke_key(session, name, by=BY_HAND)
    say(f"{key.prefix} ({key.name}) revoked")


@app.command(name="list")
def list_all(tenant: Annotated[str | None, typer.Option(help="Of one organisation only.")] = None) -> None:
    """List keys, the newest last."""
    with opened(configured()) as database, database.reading() as session:
        keys = list_keys(session, tenant)
    table = Table("prefix", "name", "tenant", "scopes", "created", "last used", "state", box=None)
    for key in keys:
        table.add_row(
            key.prefix,
            key.name,
            key.tenant_id,
            " ".join(key.scopes),
            f"{key.created_at:%Y-%m-%d}",
            f"{key.last_used_at:%Y-%m-%d %H:%M}" if key.last_used_at else "never",
            state(key.revoked_at, key.expires_at),
        )
    display(table)


def state(revoked_at: datetime | None, expires_at: datetime | None) -> str:
    """Say whether a key is valid, and until when."""
    if revoked_at:
        return f"revoked {revoked_at:%Y-%m-%d}"
    if expires_at is None:
        return "valid"
    return f"{'expired' if expires_at <= datetime.now(UTC) else 'valid until'} {expires_at:%Y-%m-%d}"
