"""One credential of each kind that has to be refused, and some that have not."""

from __future__ import annotations

import time
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from service.access import (
    EVERYTHING,
    Scope,
    add_tenant,
    create_key,
    revoke_key,
    set_client_blocked,
    set_tenant_disabled,
)
from service.storage import Database
from tests.factories.issuer import Issuer, ec_key, rsa_key, signed_with_public_key, unsigned

ALL_SCOPES = " ".join(Scope)


@dataclass(frozen=True)
class Credentials:
    """What is sent as Authorization, by what is wrong with it, and keys and tokens by their scopes."""

    bad: dict[str, str]
    keys: dict[frozenset[Scope], str]
    tokens: dict[frozenset[Scope], str]


def prepare(url: str, issuer: Issuer, sets: Iterable[frozenset[Scope]]) -> Credentials:
    """Make keys and tokens for one database and one issuer."""
    with closing(Database.open(url)) as database:
        return _prepare(database, issuer, sets)


def _prepare(database: Database, issuer: Issuer, sets: Iterable[frozenset[Scope]]) -> Credentials:
    def key(scopes: Iterable[Scope] = EVERYTHING, tenant_id: str = "harbour", days: int | None = None) -> str:
        expires_at = None if days is None else datetime.now(UTC) + timedelta(days=days)
        with database.writing() as session:
            made = create_key(
                session,
                "walk",
                tenant_id=tenant_id,
                pepper="",
                by="test",
                scopes=scopes,
                expires_at=expires_at,
            )
        return made.text

    revoked, disabled, valid = key(), key(tenant_id="ghost"), key()
    with database.writing() as session:
        revoke_key(session, revoked.split("_")[1], by="test")
        add_tenant(session, "harbour", "Port of Skerrivoe", by="test")
        set_tenant_disabled(session, "ghost", is_disabled=True, by="test")
        set_client_blocked(session, "blocked", is_blocked=True, by="test")
    keys = {
        "no form": "x",
        "unknown key": f"fay_abcdefghjk_{'A' * 43}",
        "wrong secret": valid[:-1] + ("-" if valid[-1] != "-" else "_"),
        "cut key": valid[:-1],
        "revoked key": revoked,
        "expired key": key(days=-1),
        "key of disabled tenant": disabled,
    }
    sets = set(sets)
    bad = {name: f"Bearer {text}" for name, text in {**keys, **bad_tokens(issuer)}.items()}
    return Credentials(
        bad={"other scheme": f"Basic {valid}", "empty": "Bearer ", **bad},
        keys={scopes: key(scopes) for scopes in sets},
        tokens={scopes: issuer.token(scope=" ".join(scopes)) for scopes in sets},
    )


def bad_tokens(issuer: Issuer) -> dict[str, str]:
    """Make one token with each flaw; all of them hold every scope."""
    now = int(time.time())
    good = issuer.token(scope=ALL_SCOPES)
    return {
        "unsigned token": unsigned(good),
        "token signed with public key": signed_with_public_key(good, rsa_key("first")),
        "token of stranger": issuer.token(scope=ALL_SCOPES, key=rsa_key("stranger")),
        "token of other key kind": issuer.token(scope=ALL_SCOPES, key=ec_key("stranger")),
        "token of withdrawn key": issuer.token(scope=ALL_SCOPES, key=rsa_key("old"), headers={"kid": "old"}),
        "changed token": good[:-8] + ("AAAAAAAA" if good[-8:] != "AAAAAAAA" else "BBBBBBBB"),
        "token of other issuer": issuer.token(scope=ALL_SCOPES, iss="https://elsewhere.test"),
        "token for other audience": issuer.token(scope=ALL_SCOPES, aud="https://elsewhere.test"),
        "expired token": issuer.token(scope=ALL_SCOPES, iat=now - 900, exp=now - 300),
        "token of tomorrow": issuer.token(scope=ALL_SCOPES, nbf=now + 3600),
        "token of unknown tenant": issuer.token(scope=ALL_SCOPES, tenant="nowhere"),
        "token of disabled tenant": issuer.token(scope=ALL_SCOPES, tenant="ghost"),
        "token of blocked client": issuer.token(scope=ALL_SCOPES, client_id="blocked"),
    }
