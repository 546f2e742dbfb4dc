"""Wiring: what starts is closed again."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections import defaultdict
from contextlib import closing
from functools import partial
from pathlib import Path

import anyio
import anyio.to_thread
import httpx
import pytest

from service.access import Scope
from service.app import COLLECTIONS, SWITCH_S, create_app, open_services
from service.settings import Settings
from service.storage import Database, read_package
from service.storage.migrate import upgrade
from service.storage.repositories.answers import AnswersRepository
from service.storage.repositories.keys import TenantsRepository
from service.web.answers import KeptAnswer
from tests.factories.http import LABEL, SEED_DATA, Running, issue_key, publish_package, publish_seed, running
from tests.factories.knowledge import small_package

QUESTION = {"first": "zinc", "second": "S235JR", "environment": "urban-atmosphere"}


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


def test_two_applications_can_live_in_one_process(sqlite_url: str) -> None:
    first = create_app(Settings(database_url=sqlite_url))
    second = create_app(Settings(database_url=sqlite_url, port=9000))
    assert first is not second


def test_the_development_key_has_a_tenant_where_it_is_valid(sqlite_url: str) -> None:
    for key, expected in (("", []), (None, ["local"])):
        settings = Settings.model_validate({"database_url": sqlite_url, "development_key": key})
        services = open_services(settings)
        services.answers.close()
        services.database.close()
        with closing(Database.open(sqlite_url)) as database, database.reading() as session:
            assert [tenant.id for tenant in TenantsRepository(session).all()] == expected


@pytest.mark.anyio
async def test_what_waits_is_written_when_the_application_stops(database_url: str) -> None:
    publish_package(database_url)
    settings = Settings(database_url=database_url)
    async with running(settings) as application:
        assert application.services.shelf.current.label == LABEL
        kept = KeptAnswer("d1", LABEL, "1", None, "", "p", b"{}", b"{}", b"{}")
        application.services.answers.keep(kept)
    with closing(Database.open(database_url)) as database, database.reading() as session:
        assert AnswersRepository(session).find("d1")


@pytest.mark.anyio
async def test_an_application_among_others_leaves_the_interpreter_alone(database_url: str) -> None:
    before = sys.getswitchinterval(), gc.get_threshold(), gc.get_freeze_count()
    publish_package(database_url)
    async with running(Settings(database_url=database_url)):
        assert (sys.getswitchinterval(), gc.get_threshold(), gc.get_freeze_count()) == before


ALONE = """
import asyncio, gc, sys
from service.app import create_app
from service.settings import Settings

async def main():
    app = create_app(Settings(), owns_process=True)
    async with app.router.lifespan_context(app):
        print(sys.getswitchinterval(), *gc.get_threshold(), gc.get_freeze_count() > 0)

asyncio.run(main())
"""


def test_an_application_that_has_the_process_to_itself_suits_the_interpreter_to_it(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'faying.sqlite3'}"
    upgrade(url)
    publish_package(url)
    run = subprocess.run(
        [sys.executable, "-c", ALONE],
        env={"FAYING_DATABASE_URL": url, "PATH": os.environ["PATH"]},
        capture_output=True,
        text=True,
        check=True,
    )
    switch_s, *thresholds, is_frozen = run.stdout.split()
    assert float(switch_s) == pytest.approx(SWITCH_S)
    assert tuple(map(int, thresholds)) == COLLECTIONS
    assert is_frozen == "True"


@pytest.mark.anyio
async def test_a_new_release_is_taken_up_while_running(database_url: str) -> None:
    publish_package(database_url)
    async with running(Settings(database_url=database_url, release_poll_s=0.01)) as application:
        package = small_package()
        package["limits"][0]["limit_V"] = 0.3
        publish_package(database_url, package, "2026.01.02-1")
        for _ in range(300):
            await anyio.sleep(0.01)
            if application.services.shelf.current.label == "2026.01.02-1":
                break
        assert application.services.shelf.current.catalogue.limits["normal"].limit_V == 0.3


async def until_open(application: Running, label: str) -> None:
    for _ in range(3000):
        if application.services.shelf.current.label == label:
            return
        await anyio.sleep(0.02)
    raise AssertionError(label)


@pytest.mark.anyio
async def test_processes_change_over_without_a_pause_and_no_answer_mixes_two_releases(
    database_url: str,
) -> None:
    publish_seed(database_url)
    key = issue_key(database_url, Scope.READ, Scope.JUDGE)
    settings = Settings(database_url=database_url, release_poll_s=0.05, requests_per_minute=10**6)
    seen = defaultdict[str, set[tuple[str, bytes]]](set)
    async with (
        running(settings, key) as one,
        running(settings, key) as other,
        anyio.create_task_group() as group,
    ):
        is_over = False

        async def ask(client: httpx.AsyncClient, **more: str) -> None:
            while not is_over:
                await anyio.sleep(0.005)  # a known answer waits for nothing and would let nobody else in
                answer = await client.get("/v1/couples", params={**QUESTION, **more})
                assert answer.status_code == 200, answer.text
                seen[answer.json()["release"]["label"] + str(more)].add(
                    (answer.headers["etag"], answer.content)
                )

        for application in (one, other):
            group.start_soon(ask, application.client)
            group.start_soon(partial(ask, application.client, design_life_years="7"))
        await anyio.sleep(0.2)
        package = read_package(SEED_DATA)
        package["limits"][0]["limit_V"] = 0.3
        await anyio.to_thread.run_sync(publish_package, database_url, package, "2026.01.02-1")
        for application in (one, other):
            await until_open(application, "2026.01.02-1")
        await anyio.sleep(0.2)
        is_over = True
    assert len(seen) == 4
    assert all(len(answers) == 1 for answers in seen.values())


@pytest.mark.anyio
async def test_on_postgresql_a_release_is_heard_of_at_once(postgresql_url: str) -> None:
    publish_package(postgresql_url)
    async with running(Settings(database_url=postgresql_url, release_poll_s=600)) as application:
        await anyio.sleep(1.0)  # until it listens
        package = small_package()
        package["limits"][0]["limit_V"] = 0.3
        await anyio.to_thread.run_sync(publish_package, postgresql_url, package, "2026.01.02-1")
        await until_open(application, "2026.01.02-1")


@pytest.mark.anyio
async def test_questions_are_answered_and_kept_on_either_database(database_url: str) -> None:
    publish_seed(database_url)
    key = issue_key(database_url, Scope.READ, Scope.JUDGE)
    async with running(Settings(database_url=database_url), key) as application:
        client = application.client
        assert (await client.get("/readyz")).json()["status"] == "ready"
        assert (await client.get("/v1/releases")).json()["items"][0]["label"] == LABEL
        issued = await client.get("/v1/couples", params=QUESTION)
        assert issued.status_code == 200, issued.text
    async with running(Settings(database_url=database_url), key) as application:
        stored = await application.client.get(issued.json()["address"])
        assert stored.content == issued.content
