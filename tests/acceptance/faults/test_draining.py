"""SIGTERM in the middle of work: what was begun is ended or handed on, and nothing is done twice."""

from __future__ import annotations

import os
import signal
import threading
from pathlib import Path

import httpx

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
from tests.acceptance.processes import environment, serving, working
from tests.factories.http import publish_seed

COUPLES = 1200
KEY = "fay_test_a-key-of-the-fault-tests-and-of-nothing-else"


def test_a_server_that_is_told_to_stop_ends_its_streams_and_leaves_its_jobs_whole(
    database_file: Path,
) -> None:
    env = environment(database_file)
    received: list[bytes] = []
    with serving(env, log=Path(os.devnull)) as server, server.client() as client:
        body = batch(client, COUPLES)
        job = start_batch(client, batch(client, COUPLES + 1))
        until(client, job, is_under_way)
        begun = threading.Event()

        def take() -> None:
            with client.stream("POST", "/v1/couples/batch", content=body, headers=NDJSON) as response:
                for part in response.iter_raw():
                    received.append(part)
                    begun.set()

        taking = threading.Thread(target=take)
        taking.start()
        assert begun.wait(30)
        assert server.terminate() in {0, -signal.SIGTERM}
        taking.join()
        check_whole(b"".join(received), COUPLES)
    with serving(env, log=Path(os.devnull)) as server, server.client() as client:
        until(client, job, is_done)
        check_whole(lines_of(client, job), COUPLES + 1)


def test_a_worker_that_is_told_to_stop_hands_its_job_on(postgresql_url: str) -> None:
    publish_seed(postgresql_url)
    env = environment(postgresql_url, FAYING_DEVELOPMENT_KEY=KEY)
    headers = {"Authorization": f"Bearer {KEY}"}
    with (
        serving(env, log=Path(os.devnull)) as server,
        httpx.Client(base_url=server.address, headers=headers, timeout=30, trust_env=False) as client,
    ):
        with working(env) as worker:
            job = start_batch(client, batch(client, COUPLES))
            until(client, job, is_under_way)
            worker.send_signal(signal.SIGTERM)
            assert worker.wait(30) == 0
        assert client.get(job).json()["state"] == "running"
        with working(env):
            until(client, job, is_done)
        check_whole(lines_of(client, job), COUPLES)
    assert rows(postgresql_url, "job_inputs") == 0
