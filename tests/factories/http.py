"""The application in its lifespan, called without a network."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
from starlette.types import ASGIApp, Receive, Scope, Send

from service.access import Scope as Permission
from service.access import create_key
from service.app import create_app
from service.settings import LOCAL_DEVELOPMENT_KEY, Settings
from service.storage import Database, publish, read_package, seed
from service.web.state import Services
from tests.factories.knowledge import Values, small_package

LABEL = "2026.01.01-1"
BESIDE = {"worker-0", "watch", "webhooks", "tidying"}
"""Threads that work beside requests."""

SEED_DATA = Path(__file__).parents[2] / "seed_data"


@dataclass(frozen=True)
class Running:
    """A started application."""

    client: httpx.AsyncClient
    services: Services
    asgi: ASGIApp


def publish_package(url: str, package: dict[str, list[Values]] | None = None, label: str = LABEL) -> None:
    """Seed a package and publish it."""
    with closing(Database.open(url)) as database, database.writing() as session:
        seed(session, package or small_package())
        publish(session, label, by="test")


def issue_key(url: str, *scopes: Permission, tenant_id: str = "harbour", pepper: str = "") -> str:
    """Make an API key and return its text."""
    with closing(Database.open(url)) as database, database.writing() as session:
        made = create_key(session, "test", tenant_id=tenant_id, pepper=pepper, by="test", scopes=scopes)
    return made.text


def bearer(key: str) -> dict[str, str]:
    """Write the header that carries a key."""
    return {"Authorization": f"Bearer {key}"}


@asynccontextmanager
async def running(settings: Settings, key: str | None = LOCAL_DEVELOPMENT_KEY) -> AsyncIterator[Running]:
    """Start an application and give a client that calls it."""
    app = create_app(settings)
    async with app.router.lifespan_context(app) as state:

        async def with_state(scope: Scope, receive: Receive, send: Send) -> None:
            await app({**scope, "state": dict(state or {})}, receive, send)

        transport = httpx.ASGITransport(with_state)
        headers = bearer(key) if key else {}
        async with httpx.AsyncClient(
            transport=transport, base_url="http://faying.test", headers=headers
        ) as client:
            yield Running(client, (state or {})["services"], with_state)


def problem(response: httpx.Response, status: int, slug: str) -> dict[str, Any]:
    """Check that a response is this problem and return its members."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    body: dict[str, Any] = response.json()
    assert body["type"] == f"/problems/{slug}"
    assert body["status"] == status
    assert body["instance"] == f"urn:uuid:{response.headers['x-request-id']}"
    assert "Traceback" not in response.text
    return body


def faults(body: dict[str, Any]) -> dict[str, list[str]]:
    """Return the suggestions of a problem by pointer."""
    return {fault["pointer"]: fault.get("suggestions", []) for fault in body["errors"]}


def publish_seed(url: str, label: str = LABEL) -> None:
    """Seed and publish the package that the service is delivered with."""
    publish_package(url, read_package(SEED_DATA), label)


def seeded_copy(template: Path, folder: Path) -> str:
    """Copy a migrated SQLite file into a folder, publish the seed there and return its address."""
    url = f"sqlite:///{shutil.copy(template, folder / 'f.sqlite3')}"
    publish_seed(url)
    return url
