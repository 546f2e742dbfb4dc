"""Commands on tenants, and on clients that bring access tokens of the trusted issuer."""

from __future__ import annotations

from typing import Annotated

import typer
from rich.table import Table

from service.access import (
    add_tenant,
    list_blocked_clients,
    list_tenants,
    set_client_blocked,
    set_tenant_disabled,
)
from service.commands.errors import CommandGroup
from service.commands.output import display, say
from service.commands.places import BY_HAND, configured, opened

tenants = typer.Typer(help="Add, disable, enable and list tenants.", no_args_is_help=True, cls=CommandGroup)
clients = typer.Typer(
    help="Block, unblock and list clients with access tokens.", no_args_is_help=True, cls=CommandGroup
)
TenantId = Annotated[str, typer.Argument(help="Identifier of the tenant, as keys and tokens name it.")]
ClientId = Annotated[str, typer.Argument(help="Identifier of the client, as its tokens name it.")]


@tenants.command()
def add(tenant: TenantId, name: Annotated[str, typer.Option(help="What people call it.")] = "") -> None:
    """Make a tenant known: access tokens act for known tenants only."""
    with opened(configured()) as database, database.writing() as session:
        made = add_tenant(session, tenant, name or tenant, by=BY_HAND)
    say(f"{made.id} ({made.name})")


@tenants.command()
def disable(tenant: TenantId) -> None:
    """Refuse all keys and tokens of a tenant, within FAYING_KEY_CACHE_S seconds."""
    with opened(configured()) as database, database.writing() as session:
        set_tenant_disabled(session, tenant, is_disabled=True, by=BY_HAND)
    say(f"{tenant} disabled")


@tenants.command()
def enable(tenant: TenantId) -> None:
    """Accept the keys and tokens of a tenant again."""
    with opened(configured()) as database, database.writing() as session:
        set_tenant_disabled(session, tenant, is_disabled=False, by=BY_HAND)
    say(f"{tenant} enabled")


@tenants.command(name="list")
def list_all() -> None:
    """List tenants."""
    with opened(configured()) as database, database.reading() as session:
        found = list_tenants(session)
    table = Table("tenant", "name", "since", "state", box=None)
    for each in found:
        state = f"disabled {each.disabled_at:%Y-%m-%d}" if each.disabled_at else "enabled"
        table.add_row(each.id, each.name, f"{each.created_at:%Y-%m-%d}", state)
    display(table)


@clients.command()
def block(client: ClientId) -> None:
    """Refuse all tokens of a client, within FAYING_KEY_CACHE_S seconds."""
    with opened(configured()) as database, database.writing() as session:
        set_client_blocked(session, client, is_blocked=True, by=BY_HAND)
    say(f"{client} blocked")


@clients.command()
def unblock(client: ClientId) -> None:
    """Accept the tokens of a client again."""
    with opened(configured()) as database, database.writing() as session:
        set_client_blocked(session, client, is_blocked=False, by=BY_HAND)
    say(f"{client} no longer blocked")


@clients.command(name="list")
def list_blocked() -> None:
    """List clients that are blocked."""
    with opened(configured()) as database, database.reading() as session:
        found = list_blocked_clients(session)
    table = Table("client", "blocked", box=None)
    for each in found:
        table.add_row(each.client_id, f"{each.blocked_at:%Y-%m-%d %H:%M}")
    display(table)
