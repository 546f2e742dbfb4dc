"""Every operation refuses every bad key, in the same words whatever lies behind the address."""

from __future__ import annotations

import shutil
from collections.abc import AsyncIterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import orjson
import pytest

from service.access import EVERYTHING, Scope, create_key, revoke_key
from service.settings import Settings
from service.storage import Database
from tests.factories.http import Running, bearer, problem, publish_package, running

pytestmark = pytest.mark.anyio

DOCUMENT = orjson.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_bytes())
OPEN = {"/healthz", "/readyz"}
OPERATIONS = [
    (method.upper(), path, operation["security"][0]["ApiKey"])
    for path, methods in DOCUMENT["paths"].items()
    for method, operation in methods.items()
    if path not in OPEN
]
NAMES = [f"{method} {path}" for method, path, _ in OPERATIONS]


@dataclass(frozen=True)
class Keys:
    """One key of each kind that has to be refused, and one that has not."""

    revoked: str
    expired: str
    valid: str
    without: dict[str, str]


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture(scope="module")
def prepared(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Keys]:
    file = shutil.copy(sqlite_template, tmp_path_factory.mktemp("refusals") / "f.sqlite3")
    url = f"sqlite:///{file}"
    publish_package(url)

    def make(scopes: frozenset[Scope], expires_at: datetime | None = None) -> str:
        with database.writing() as session:
            return create_key(
                session,
                "test",
                tenant_id="harbour",
                pepper="",
                by="test",
                scopes=scopes,
                expires_at=expires_at,
            ).text

    with closing(Database.open(url)) as database:
        keys = Keys(
            revoked=make(EVERYTHING),
            expired=make(EVERYTHING, datetime.now(UTC) - timedelta(seconds=1)),
            valid=make(EVERYTHING),
            without={scope.value: make(EVERYTHING - {scope}) for scope in Scope},
        )
        with database.writing() as session:
            revoke_key(session, keys.revoked.split("_")[1], by="test")
    return url, keys


@pytest.fixture
async def application(prepared: tuple[str, Keys], anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=prepared[0]), key=None) as started:
        yield started


async def send(application: Running, method: str, path: str, **headers: str) -> Any:
    none = dict.fromkeys(("id", "label", "name", "job_id", "webhook_id", "proposal_id"), "none")
    address = path.format(**none, digest="0" * 64)
    return await application.client.request(method, address, headers=headers)


@pytest.mark.parametrize(("method", "path", "scopes"), OPERATIONS, ids=NAMES)
async def test_bad_keys_are_refused(
    application: Running, prepared: tuple[str, Keys], method: str, path: str, scopes: list[str]
) -> None:
    keys = prepared[1]
    problem(await send(application, method, path), 401, "missing-credentials")
    details = set()
    unknown = f"fay_abcdefghjk_{'A' * 43}"
    wrong = keys.valid[:-1] + ("-" if keys.valid[-1] != "-" else "_")
    for key in (keys.revoked, keys.expired, unknown, wrong, keys.valid[:-1], "x"):
        refused = problem(await send(application, method, path, **bearer(key)), 401, "invalid-credentials")
        details.add(refused["detail"])
    assert len(details) == 1
    for scope in scopes:
        response = await send(application, method, path, **bearer(keys.without[scope]))
        problem(response, 403, "insufficient-scope")
    accepted = await send(application, method, path, **bearer(keys.valid))
    assert accepted.status_code not in {401, 403}


async def test_nothing_is_given_away_about_addresses_that_do_not_exist(application: Running) -> None:
    for path in ("/v1/nothing", "/v1/materials/none", "/v1/materials/s235", "/v1/"):
        problem(await application.client.get(path), 401, "missing-credentials")
