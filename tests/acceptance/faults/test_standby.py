"""A PostgreSQL that takes no changes for a while, as when a standby has taken over."""

from __future__ import annotations

import os
from contextlib import closing
from pathlib import Path

import httpx
from sqlalchemy import make_url, text

from service.storage import Database
from tests.acceptance.faults.test_disk import ASSEMBLY, COUPLE, OTHER, STORED, refused
from tests.acceptance.processes import environment, serving
from tests.factories.http import publish_seed
from tests.postgresql_server import DISCONNECT_OTHERS

KEY = "fay_test_a-key-of-the-fault-tests-and-of-nothing-else"


def take_changes(url: str, *, allowed: bool) -> None:
    """Switch the database, and end the sessions that do not know it yet."""
    name, mode = make_url(url).database, "off" if allowed else "on"
    with closing(Database.open(url)) as database, database.engine.begin() as connection:
        connection.execute(text("SET TRANSACTION READ WRITE"))
        connection.execute(text(f'ALTER DATABASE "{name}" SET default_transaction_read_only = {mode}'))
        connection.execute(text(DISCONNECT_OTHERS))


def test_a_standby_answers_and_refuses_writes_until_it_is_promoted(postgresql_url: str) -> None:
    publish_seed(postgresql_url)
    env = environment(postgresql_url, FAYING_DEVELOPMENT_KEY=KEY)
    headers = {"Authorization": f"Bearer {KEY}"}
    with (
        serving(env, log=Path(os.devnull)) as server,
        httpx.Client(base_url=server.address, headers=headers, timeout=30, trust_env=False) as client,
    ):
        assert client.put(STORED, json=ASSEMBLY).status_code == 201
        take_changes(postgresql_url, allowed=False)
        refused(client.put(f"{STORED}-2", json=ASSEMBLY), "no changes")
        assert client.get("/v1/couples", params=COUPLE).status_code == 200
        assert client.get(STORED).status_code == 200
        new = client.get("/v1/couples", params=OTHER).raise_for_status()
        take_changes(postgresql_url, allowed=True)
        assert client.put(f"{STORED}-2", json=ASSEMBLY).status_code == 201
        server.terminate()
    with closing(Database.open(postgresql_url)) as database, database.reading() as session:
        digests = session.scalars(text("SELECT digest FROM answers")).all()
    assert new.json()["digest"] in digests
