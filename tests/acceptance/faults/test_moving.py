"""A whole installation saved and brought back on the other database: nobody can tell the difference."""

from __future__ import annotations

import asyncio
from contextlib import closing
from pathlib import Path

import httpx
import orjson
import pytest
from typer.testing import CliRunner

from service.__main__ import app
from service.settings import Settings
from service.storage import Database
from service.storage.repositories.audit import AuditRepository
from tests.acceptance.faults.test_standby import KEY
from tests.acceptance.long_work import NDJSON
from tests.factories.http import Running, publish_seed, running

pytestmark = pytest.mark.anyio

COUPLE = {"first": "S235JR", "second": "A2-70", "environment": "heated-indoor"}
ASSEMBLY = {
    "parts": [{"part_number": "1", "surface": "S235JR"}, {"part_number": "2", "surface": "A2-70"}],
    "joints": [{"id": "J1", "first": "1", "second": "2"}],
    "programme": {"environment": "heated-indoor"},
}
BATCH = b"\n".join(
    orjson.dumps(COUPLE | {"ref": number, "design_life_years": number}) for number in range(1, 60)
)
AT_ONCE = "/v1/couples/batch"
READ = ("/v1/answers/{digest}", "/v1/releases", "/v1/limits")


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
def elsewhere(database_url: str, request: pytest.FixtureRequest) -> str:
    """An address of the other kind."""
    if database_url.startswith("sqlite"):
        return str(request.getfixturevalue("postgresql_url"))
    return f"sqlite:///{request.getfixturevalue('tmp_path') / 'elsewhere.sqlite3'}"


def settings(url: str) -> Settings:
    return Settings(database_url=url, development_key=KEY, key_pepper="pepper", job_stale_s=1)


async def fill(started: Running) -> tuple[str, str]:
    """Ask, store and put a job in; return the digest of the answer and the address of the job."""
    client = started.client
    digest = (await client.get("/v1/couples", params=COUPLE)).raise_for_status().json()["digest"]
    (await client.put("/v1/assemblies/stored/mast", json=ASSEMBLY)).raise_for_status()
    response = await client.post("/v1/jobs?kind=batch&view=decision", content=BATCH, headers=NDJSON)
    return digest, response.raise_for_status().json()["address"]


async def results(client: httpx.AsyncClient, address: str) -> bytes:
    """Wait for a job and read all its results."""
    for _ in range(400):
        if (await client.get(address)).json()["state"] == "done":
            lines = {"Accept": "application/x-ndjson"}
            return (await client.get(f"{address}/results", headers=lines)).raise_for_status().content
        await asyncio.sleep(0.05)
    raise AssertionError(address)


async def read(client: httpx.AsyncClient, digest: str) -> dict[str, bytes]:
    """Every byte that the addresses give."""
    found = {}
    for path in READ:
        response = await client.get(path.format(digest=digest))
        assert response.status_code == 200, (path, response.text)
        found[path] = response.content
    return found


def audit(url: str) -> list[object]:
    with closing(Database.open(url)) as database, database.reading() as session:
        return list(AuditRepository(session).page().items)


def command(url: str, *arguments: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAYING_DATABASE_URL", url)
    result = CliRunner().invoke(app, arguments)
    assert result.exit_code == 0, result.stderr


async def test_answers_jobs_and_audit_are_the_same_after_a_move(
    database_url: str, elsewhere: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish_seed(database_url)
    command(database_url, "key", "create", "a caller", monkeypatch=monkeypatch)
    async with running(settings(database_url), KEY) as started:
        digest, job = await fill(started)
        if database_url.startswith("sqlite"):  # on PostgreSQL no worker is there: the job moves unfinished
            await results(started.client, job)
        at_once = await started.client.post(f"{AT_ONCE}?view=decision", content=BATCH, headers=NDJSON)
        before = await read(started.client, digest)
    command(database_url, "backup", str(tmp_path / "saved.gz"), monkeypatch=monkeypatch)
    command(elsewhere, "restore", str(tmp_path / "saved.gz"), monkeypatch=monkeypatch)
    assert audit(elsewhere) == audit(database_url) != []
    async with running(settings(elsewhere), KEY) as moved:
        assert await read(moved.client, digest) == before
        assert await results(moved.client, job) == at_once.content
        assert (await moved.client.get("/v1/assemblies/stored/mast")).status_code == 200
