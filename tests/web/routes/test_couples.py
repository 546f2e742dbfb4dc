"""Couples over HTTP: the same question gives the same bytes, at an address that stays."""

from __future__ import annotations

import threading
from collections.abc import AsyncIterator
from dataclasses import replace
from typing import Any

import httpx
import pytest
from sqlalchemy import event

from service.access import Scope
from service.settings import Settings
from service.web.decision import LIMIT_BYTES
from service.web.schemas.answers import Answer, Decision
from tests.factories.http import (
    BESIDE,
    LABEL,
    Running,
    bearer,
    faults,
    issue_key,
    problem,
    publish_package,
    running,
)
from tests.factories.knowledge import small_package

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
BY_TEXT = {"first": "EN AW-6082-T6", "second": "A4-80", "environment": PLACE}


@pytest.fixture
async def seeded(seed_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=seed_url)) as application:
        yield application


@pytest.fixture
def client(seeded: Running) -> httpx.AsyncClient:
    return seeded.client


async def ask(client: httpx.AsyncClient, **changes: Any) -> httpx.Response:
    return await client.post("/v1/couples", json=BY_TEXT | changes)


async def test_an_answer_says_what_it_rests_on_and_where_it_stays(client: httpx.AsyncClient) -> None:
    response = await client.get("/v1/couples", params=BY_TEXT)
    assert response.status_code == 200, response.text
    answer = Answer.model_validate_json(response.content)
    assert answer.verdict == "unsuitable"
    assert answer.anode.side == "first"
    assert answer.surfaces.first.material is not None
    assert answer.surfaces.first.material.id == "al-6082-t6"
    assert answer.release.label == LABEL
    assert answer.evidence
    assert all(item.citation for item in answer.evidence)
    assert response.headers["etag"] == f'"{answer.digest}"'
    assert response.headers["content-location"] == answer.address
    assert response.headers["cache-control"] == "public, no-cache"


async def test_the_same_question_gives_the_same_bytes_by_every_way(
    client: httpx.AsyncClient, seed_url: str
) -> None:
    first = await client.get("/v1/couples", params=BY_TEXT)
    again = await client.get("/v1/couples", params=BY_TEXT)
    posted = await ask(client)
    structured = await ask(client, first={"text": BY_TEXT["first"]}, environment={"id": PLACE})
    stored = await client.get(first.json()["address"])
    assert first.content == again.content == posted.content == structured.content == stored.content
    assert stored.headers["cache-control"] == "public, max-age=31536000, immutable"
    assert len({each.headers["repr-digest"] for each in (first, again, posted, stored)}) == 1
    async with running(Settings(database_url=seed_url)) as elsewhere:
        assert (await elsewhere.client.get("/v1/couples", params=BY_TEXT)).content == first.content


async def test_who_holds_the_answer_gets_304_before_anything_is_computed(
    client: httpx.AsyncClient, seed_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    etag = (await client.get("/v1/couples", params=BY_TEXT)).headers["etag"]

    def compute(*_arguments: object) -> None:
        raise AssertionError

    async with running(Settings(database_url=seed_url)) as elsewhere:
        monkeypatch.setattr("service.web.together.answer", compute)
        for _ in range(2):
            response = await elsewhere.client.get(
                "/v1/couples", params=BY_TEXT, headers={"If-None-Match": etag}
            )
            assert (response.status_code, response.content) == (304, b"")
            assert response.headers["etag"] == etag
            assert "content-location" in response.headers


async def test_a_post_is_answered_whatever_the_caller_holds(client: httpx.AsyncClient) -> None:
    etag = (await ask(client)).headers["etag"]
    response = await client.post("/v1/couples", json=BY_TEXT, headers={"If-None-Match": etag})
    assert response.status_code == 200


async def test_the_decision_is_the_same_answer_in_under_one_kilobyte(client: httpx.AsyncClient) -> None:
    full = await client.get("/v1/couples", params=BY_TEXT)
    short = await client.get("/v1/couples", params={**BY_TEXT, "view": "decision"})
    decision = Decision.model_validate_json(short.content)
    assert len(short.content) < LIMIT_BYTES
    assert decision.address == full.json()["address"]
    assert decision.verdict == full.json()["verdict"]
    assert short.headers["etag"] != full.headers["etag"]
    stored = await client.get(short.headers["content-location"])
    assert stored.content == short.content
    assert stored.headers["etag"] == short.headers["etag"]


async def test_a_lookup_asks_the_database_nothing(seeded: Running) -> None:
    statements: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        if threading.current_thread().name in BESIDE:
            return
        if not statement.startswith(("BEGIN", "PRAGMA")) and "answers" not in statement:
            statements.append(statement)

    event.listen(seeded.services.database.engine, "before_cursor_execute", note)
    client = seeded.client
    await client.get("/v1/couples", params=BY_TEXT)
    await client.get("/v1/couples", params=BY_TEXT)
    await ask(client, first="zinc", first_area_cm2=4)
    await client.get("/v1/materials?q=6082")
    await client.get("/v1/materials/al-6082-t6")
    await client.post("/v1/resolve", json={"texts": ["A4-80"]})
    event.remove(seeded.services.database.engine, "before_cursor_execute", note)
    assert statements == []


async def test_answers_outlive_the_process_and_later_releases(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        issued = await application.client.get("/v1/couples", params=BY_TEXT)
        short = await application.client.get("/v1/couples", params={**BY_TEXT, "view": "decision"})
    publish_package(seed_url, small_package(), "2026.01.02-1")
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        assert application.services.shelf.current.label == "2026.01.02-1"
        stored = await client.get(issued.json()["address"])
        assert stored.content == issued.content
        assert (await client.get(short.headers["content-location"])).content == short.content
        again = await client.get("/v1/couples", params={**BY_TEXT, "as_of": LABEL})
        assert again.content == issued.content
        assert again.headers["cache-control"] == "public, max-age=3600"


async def test_a_new_release_ends_the_shortcut_to_old_answers(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        before = await application.client.get("/v1/couples", params=BY_TEXT)
        publish_package(seed_url, small_package(), "2026.01.02-1")
        application.services.shelf.refresh()
        problem(await application.client.get("/v1/couples", params=BY_TEXT), 404, "unknown-reference")
        stored = await application.client.get(before.json()["address"])
        assert stored.content == before.content


async def test_nobody_takes_the_shortcut_without_the_scope(seeded: Running, seed_url: str) -> None:
    await seeded.client.get("/v1/couples", params=BY_TEXT)
    reader = bearer(issue_key(seed_url, Scope.READ, tenant_id="local"))
    response = await seeded.client.get("/v1/couples", params=BY_TEXT, headers=reader)
    problem(response, 403, "insufficient-scope")


async def test_what_the_release_does_not_hold_is_named_with_near_names(client: httpx.AsyncClient) -> None:
    body = problem(await ask(client, environment="marine-atmosphere-0-100"), 404, "unknown-reference")
    assert PLACE in faults(body)["/environment"]
    body = problem(await ask(client, first={"material_id": "al-6082-t9"}), 404, "unknown-reference")
    assert "al-6082-t6" in faults(body)["/first/material_id"]
    surface = {"material_id": "al-6082-t6", "layers": [{"finish_id": "anod-ii-claer"}]}
    body = problem(await ask(client, second=surface), 404, "unknown-reference")
    assert faults(body)["/second/layers/0/finish_id"][0] == "anod-ii-clear"
    body = problem(await ask(client, compound="sl-ps-inhb"), 404, "unknown-reference")
    assert faults(body)["/compound"][0] == "sl-ps-inhib"
    problem(await ask(client, as_of="1999.01.01-1"), 404, "unknown-release")


async def test_an_unknown_text_is_an_answer_and_never_suitable(client: httpx.AsyncClient) -> None:
    answer = Answer.model_validate_json((await ask(client, first="unobtainium")).content)
    assert answer.verdict == "undetermined"
    assert answer.surfaces.first.match == "unknown"
    assert answer.missing


async def test_strict_reading_refuses_guesses(client: httpx.AsyncClient) -> None:
    loose = Answer.model_validate_json((await ask(client, first="inconell 625")).content)
    strict = Answer.model_validate_json((await ask(client, first="inconell 625", match="strict")).content)
    assert loose.surfaces.first.match == "fuzzy"
    assert strict.verdict == "undetermined"


async def test_structures_described_places_and_duties_are_judged(client: httpx.AsyncClient) -> None:
    response = await ask(
        client,
        first={"material_id": "al-6082-t6", "layers": [{"finish_id": "anod-ii-clear", "thickness_um": 15}]},
        second={"material": "A4-80"},
        environment={"exposure": "immersed", "electrolyte_class": "chloride", "conductivity_S_per_m": 4.5},
        functions=["structural", "electrical bond"],
        contact={"current_A": 10, "bond_limit_ohm": 0.0025},
        first_area_cm2=100,
        second_area_cm2=5,
        would_change_if=True,
    )
    answer = Answer.model_validate_json(response.content)
    assert answer.environment.id == "custom"
    assert answer.joint.first_area_cm2 == 100
    assert answer.surfaces.first.layers[0].thickness_um == 15


async def test_an_answer_that_was_never_given_is_unknown(client: httpx.AsyncClient) -> None:
    problem(await client.get("/v1/answers/" + "0" * 64), 404, "unknown-answer")
    problem(await client.get("/v1/answers/nonsense"), 422, "invalid-request")


async def test_an_answer_of_another_tenant_is_unknown(seeded: Running, seed_url: str) -> None:
    issued = await seeded.client.get("/v1/couples", params=BY_TEXT)
    digest = issued.json()["digest"]
    kept = seeded.services.answers.recall(digest)
    assert kept is not None
    seeded.services.answers._remember(replace(kept, tenant_id="local"))
    assert (await seeded.client.get(f"/v1/answers/{digest}")).headers["cache-control"].startswith("private")
    stranger = bearer(issue_key(seed_url, Scope.JUDGE, tenant_id="quay"))
    response = await seeded.client.get(f"/v1/answers/{digest}", headers=stranger)
    problem(response, 404, "unknown-answer")
