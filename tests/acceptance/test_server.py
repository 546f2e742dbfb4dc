"""The server as its callers meet it: over a real port."""

from __future__ import annotations

import threading
import time
from pathlib import Path

import httpx

from tests.acceptance.processes import Server, environment, faying, serving

COUPLE = {
    "first": "EN AW-6082-T6, anodized 15 µm",
    "second": "A4-80",
    "environment": "marine-atmosphere-0-100-m",
}


def test_a_couple_by_text_is_judged_and_cited(server: Server) -> None:
    with server.client() as client:
        document = client.get("/v1/couples", params=COUPLE).raise_for_status().json()
    assert document["verdict"] in {"suitable", "conditional", "unsuitable", "undetermined"}
    assert document["release"]["label"]
    assert document["engine"]
    assert all(item["citation"] for item in document["evidence"])
    screening = next(item for item in document["findings"] if item["witness"] == "screening")
    assert screening["figures"]["difference_low_mV"] <= screening["figures"]["difference_high_mV"]


def test_the_same_question_gives_the_same_bytes_and_then_nothing_new(server: Server) -> None:
    with server.client() as client:
        first, second = (client.get("/v1/couples", params=COUPLE) for _ in range(2))
        tag = first.headers["etag"]
        unchanged = client.get("/v1/couples", params=COUPLE, headers={"If-None-Match": tag})
    assert first.content == second.content
    assert second.headers["etag"] == tag
    assert (unchanged.status_code, unchanged.content) == (304, b"")


def test_another_process_gives_the_same_bytes(server: Server, database_file: Path) -> None:
    with server.client() as client, serving(environment(database_file)) as other, other.client() as second:
        one, two = client.get("/v1/couples", params=COUPLE), second.get("/v1/couples", params=COUPLE)
    assert one.content == two.content
    assert one.headers["etag"] == two.headers["etag"]


def test_without_a_key_nothing_is_answered(server: Server) -> None:
    refused = httpx.get(f"{server.address}/v1/couples", params=COUPLE, trust_env=False)
    assert refused.status_code == 401
    assert refused.headers["content-type"] == "application/problem+json"


def test_a_key_made_from_the_shell_opens_and_a_revoked_one_does_not(database_file: Path) -> None:
    env = environment(database_file, FAYING_KEY_CACHE_S="0")
    key = faying("key", "create", "a caller", env=env).output.strip()
    headers = {"Authorization": f"Bearer {key}"}
    with serving(env) as running:
        address = f"{running.address}/v1/materials"
        assert httpx.get(address, headers=headers, trust_env=False).status_code == 200
        assert faying("key", "revoke", key.split("_")[1], env=env).status == 0
        assert httpx.get(address, headers=headers, trust_env=False).status_code == 401


def test_terminating_lets_running_requests_end(database_file: Path) -> None:
    statuses = list[int]()

    def ask(client: httpx.Client) -> None:
        statuses.append(client.get("/v1/couples", params={**COUPLE, "second": "CW024A"}).status_code)

    with serving(environment(database_file)) as running, running.client() as client:
        asking = threading.Thread(target=ask, args=(client,))
        asking.start()
        asking.join(0.05)
        assert running.terminate() in {0, -15}
        asking.join()
    assert statuses == [200]


def test_whoever_starts_the_server_is_shown_a_first_answer(database_file: Path) -> None:
    with serving(environment(database_file), "--greet") as running:
        while "API key" not in (shown := running.output()):
            time.sleep(0.05)
        assert "a first answer" in shown
        assert f"{running.address}/docs" in shown
        with running.client() as client:
            assert client.get("/docs").status_code == 200
