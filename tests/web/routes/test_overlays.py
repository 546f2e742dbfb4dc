"""Private overlays over HTTP: seen by every query of their tenant, and by nobody else's."""

from __future__ import annotations

import threading
import time
from collections.abc import AsyncIterator
from dataclasses import dataclass
from typing import Any

import anyio
import httpx
import orjson
import pytest
from sqlalchemy import event

from service.access import Scope
from service.settings import Settings
from service.web.batch_input import NDJSON
from service.web.schemas.overlays import OverlayDocument
from tests.factories.http import BESIDE, LABEL, Running, bearer, faults, issue_key, problem, running

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
COUPLE = {"first": "EN AW-6082-T6", "second": "A4-80", "environment": PLACE}
OWN = {"first": "EN AW-6082-T6", "second": "Skerrivoe XQ7", "environment": PLACE}
ZINC = {"material_id": "steel-s235", "layers": [{"finish_id": "zn-plain", "thickness_um": 8.0}]}
BAN = {"table": "bans", "record": {"finish_id": "zn-plain", "reason": "white rust in store"}}
NO_SUCH_FINISH = {"table": "bans", "record": {"finish_id": "zn-plane", "reason": "misspelt"}}
LIMIT = {"limit_V": 0.05, "rule": "house rule 3"}


@dataclass(frozen=True)
class Houses:
    """An application and the keys of two of its tenants."""

    application: Running
    port: dict[str, str]
    yard: dict[str, str]

    @property
    def client(self) -> httpx.AsyncClient:
        return self.application.client

    async def change(self, house: dict[str, str], **change: Any) -> OverlayDocument:
        response = await self.client.post("/v1/overlay/changes", json=change, headers=house)
        assert response.status_code == 200, response.text
        return OverlayDocument.model_validate_json(response.content)

    async def ask(self, house: dict[str, str], **question: str) -> httpx.Response:
        response = await self.client.get("/v1/couples", params=COUPLE | question, headers=house)
        assert response.status_code == 200, response.text
        return response


@pytest.fixture
async def houses(seed_url: str, anyio_backend: str) -> AsyncIterator[Houses]:
    keys = [bearer(issue_key(seed_url, *Scope, tenant_id=tenant)) for tenant in ("port", "yard")]
    async with running(Settings(database_url=seed_url), key=None) as application:
        yield Houses(application, *keys)


def own_bronze(held: Running) -> list[dict[str, Any]]:
    """A material of the house, with the name that its drawings give it."""
    record = held.services.shelf.current.collections["materials"].documents["bronze-cusn12"]
    material = {name: value for name, value in record.items() if name != "designations"}
    name = {"material_id": "skerrivoe-7", "system": "common", "text": "Skerrivoe XQ7", "note": ""}
    return [
        {"table": "materials", "record": {**material, "id": "skerrivoe-7", "name": "Skerrivoe XQ7"}},
        {"table": "designations", "record": name},
    ]


def own_limits(held: Running) -> list[dict[str, Any]]:
    """All permissible differences, lowered by the house."""
    records = held.services.shelf.current.collections["limits"].documents.values()
    return [{"table": "limits", "record": {**record, **LIMIT}} for record in records]


async def test_an_own_material_is_read_judged_and_listed_for_its_tenant_alone(houses: Houses) -> None:
    before = await houses.ask(houses.port, **OWN)
    document = await houses.change(houses.port, put=own_bronze(houses.application))
    assert [(row.table, row.key) for row in document.rows] == [
        ("designations", ("skerrivoe-7", "common", "Skerrivoe XQ7")),
        ("materials", ("skerrivoe-7",)),
    ]
    answer = await houses.ask(houses.port, **OWN)
    assert answer.json()["surfaces"]["second"]["material"]["id"] == "skerrivoe-7"
    assert answer.headers["cache-control"] == "private, no-cache"
    assert (await houses.ask(houses.yard, **OWN)).content == before.content
    for path, house, total in (("", houses.port, 1), ("", houses.yard, 0)):
        listed = await houses.client.get(f"/v1/materials{path}?q=skerrivoe", headers=house)
        assert listed.json()["total"] == total
    record = await houses.client.get("/v1/materials/skerrivoe-7", headers=houses.port)
    assert record.headers["cache-control"] == "private, no-cache"
    problem(await houses.client.get("/v1/materials/skerrivoe-7", headers=houses.yard), 404, "unknown-record")
    body = {"texts": [{"text": "Skerrivoe XQ7"}]}
    for house, match in ((houses.port, "exact"), (houses.yard, "unknown")):
        read = await houses.client.post("/v1/resolve", json=body, headers=house)
        assert (read.json()["readings"][0]["match"] == "unknown") is (match == "unknown")


async def test_an_own_answer_is_hidden_from_others_and_stays(houses: Houses) -> None:
    await houses.change(houses.port, put=own_bronze(houses.application))
    answer = await houses.ask(houses.port, **OWN)
    address = answer.json()["address"]
    problem(await houses.client.get(address, headers=houses.yard), 404, "unknown-answer")
    problem(await houses.client.get(f"{address}/today", headers=houses.yard), 404, "unknown-answer")
    await houses.client.put("/v1/overlay", json={"rows": []}, headers=houses.port)
    kept = await houses.client.get(address, headers=houses.port)
    assert kept.content == answer.content
    assert kept.headers["cache-control"].startswith("private")
    today = (await houses.client.get(f"{address}/today", headers=houses.port)).json()
    assert not today["is_same"]
    causes = {(cause["table"], cause["kind"]) for line in today["difference"] for cause in line["because"]}
    assert ("materials", "removed") in causes


async def test_tenants_with_the_same_rows_have_answers_of_their_own(houses: Houses) -> None:
    for house in (houses.port, houses.yard):
        await houses.change(house, put=own_bronze(houses.application))
    one, other = [await houses.ask(house, **OWN) for house in (houses.port, houses.yard)]
    assert one.json()["digest"] != other.json()["digest"]
    for house, answer in ((houses.port, one), (houses.yard, other)):
        kept = await houses.client.get(answer.json()["address"], headers=house)
        assert kept.content == answer.content


async def test_house_limits_decide_the_screening(houses: Houses) -> None:
    await houses.change(houses.port, put=own_limits(houses.application))
    findings = {
        name: next(f for f in (await houses.ask(house)).json()["findings"] if f["witness"] == "screening")
        for name, house in (("port", houses.port), ("yard", houses.yard))
    }
    assert findings["port"] != findings["yard"]
    assert "limits/" in " ".join(findings["port"]["evidence"])


async def test_the_edge_keeps_tenants_apart_and_follows_every_change(houses: Houses) -> None:
    statements: list[str] = []

    def note(_connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if threading.current_thread().name in BESIDE or statement.startswith(("BEGIN", "PRAGMA")):
            return
        if "answers" not in statement:
            statements.append(statement)

    async def asked(house: dict[str, str], **question: str) -> tuple[str, bytes]:
        first = await houses.ask(house, **question)
        event.listen(houses.application.services.database.engine, "before_cursor_execute", note)
        again = await houses.ask(house, **question)
        event.remove(houses.application.services.database.engine, "before_cursor_execute", note)
        assert first.content == again.content
        assert first.headers["etag"] == again.headers["etag"]
        return again.json()["digest"], again.content

    for question in ({}, {"as_of": LABEL}):
        plain = await asked(houses.port, **question)
        assert await asked(houses.yard, **question) == plain
        await houses.change(houses.port, put=own_limits(houses.application))
        changed = await asked(houses.port, **question)
        assert changed != plain
        assert await asked(houses.yard, **question) == plain
        await houses.change(houses.port, put=[BAN])
        assert await asked(houses.port, **question) not in (plain, changed)
        await houses.change(houses.port, remove=[{"table": "bans", "key": ["zn-plain"]}])
        assert await asked(houses.port, **question) == changed
        await houses.client.put("/v1/overlay", json={"rows": []}, headers=houses.port)
        assert await asked(houses.port, **question) == plain
    assert statements == []


async def test_an_etag_of_before_does_not_hold_after_a_change(houses: Houses) -> None:
    before = await houses.ask(houses.port)
    headers = {**houses.port, "If-None-Match": before.headers["etag"]}
    assert (await houses.client.get("/v1/couples", params=COUPLE, headers=headers)).status_code == 304
    await houses.change(houses.port, put=[BAN])
    assert (await houses.client.get("/v1/couples", params=COUPLE, headers=headers)).status_code == 200


async def test_an_evicted_overlay_is_opened_again(seed_url: str) -> None:
    keys = [bearer(issue_key(seed_url, *Scope, tenant_id=tenant)) for tenant in ("port", "yard")]
    async with running(Settings(database_url=seed_url, open_overlays=1), key=None) as application:
        houses = Houses(application, *keys)
        await houses.change(houses.port, put=own_bronze(application))
        await houses.change(houses.yard, put=own_limits(application)[:1])
        for _ in range(2):
            for house, known in ((houses.port, 200), (houses.yard, 404)):
                found = await houses.client.get("/v1/materials/skerrivoe-7", headers=house)
                assert found.status_code == known


async def test_bans_and_preferences_reach_couples_remedies_and_assemblies(houses: Houses) -> None:
    prefer = {"table": "preferences", "record": {"finish_id": "zn-hdg", "reason": "in stock"}}
    await houses.change(houses.port, put=[BAN, prefer])
    couple = {"first": ZINC, "second": "CW024A", "environment": PLACE}
    warnings, banned, broken, liked = {}, {}, {}, {}
    assembly = {
        "programme": {"environment": PLACE},
        "parts": [{"part_number": "1", "surface": ZINC}, {"part_number": "2", "surface": "CW024A"}],
        "joints": [{"id": "J1", "first": "1", "second": "2"}],
    }
    for name, house in (("port", houses.port), ("yard", houses.yard)):
        answer = (await houses.client.post("/v1/couples", json=couple, headers=house)).json()
        warnings[name] = {each["code"] for each in answer["warnings"]} - {"assumed"}
        alternatives = await houses.client.post(
            "/v1/alternatives",
            json={"first": "S235JR", "second": "CW024A", "environment": PLACE, "limit": 1},
            headers=house,
        )
        banned[name] = "banned" in alternatives.text
        checked = await houses.client.post("/v1/assemblies/check", json=assembly, headers=house)
        standing = checked.json()["standing"]["parts"]
        broken[name] = [each["rule"] for part in standing for each in part["violations"]]
        liked[name] = [part["has_preferred_finish"] for part in standing]
    assert warnings == {"port": {"banned"}, "yard": set()}
    assert banned == {"port": True, "yard": False}
    assert broken == {"port": ["overlay-ban"], "yard": []}
    assert liked == {"port": [False], "yard": []}


async def test_batches_and_jobs_see_the_overlay_of_their_beginning(houses: Houses) -> None:
    await houses.change(houses.port, put=own_bronze(houses.application))
    alone = await houses.ask(houses.port, **OWN)
    lines = [orjson.dumps({"defaults": {"environment": PLACE}, "surfaces": []}), orjson.dumps(OWN)]
    typed = {**houses.port, "Content-Type": NDJSON}
    batch = await houses.client.post("/v1/couples/batch", content=b"\n".join(lines), headers=typed)
    assert orjson.loads(batch.content.splitlines()[0])["answer"] == alone.json()
    started = await houses.client.post("/v1/jobs?kind=batch", content=b"\n".join(lines), headers=typed)
    assert started.status_code == 202, started.text
    await houses.client.put("/v1/overlay", json={"rows": []}, headers=houses.port)
    address = started.json()["address"]
    deadline = time.monotonic() + 30
    while (await houses.client.get(address, headers=houses.port)).json()["state"] != "done":
        assert time.monotonic() < deadline
        await anyio.sleep(0.02)
    results = (await houses.client.get(f"{address}/results", headers=houses.port)).json()
    assert results["items"][0]["answer"] == alone.json()


async def test_a_stored_assembly_is_judged_again_when_the_overlay_changes(seed_url: str) -> None:
    keys = [bearer(issue_key(seed_url, *Scope, tenant_id=tenant)) for tenant in ("port", "yard")]
    settings = Settings(database_url=seed_url, release_poll_s=0.05, webhook_poll_s=0.05)
    async with running(settings, key=None) as application:
        houses = Houses(application, *keys)
        body = {
            "programme": {"environment": PLACE},
            "parts": [
                {"part_number": "1", "surface": "EN AW-6082-T6"},
                {"part_number": "2", "surface": "Skerrivoe XQ7"},
            ],
            "joints": [{"id": "J1", "first": "1", "second": "2"}],
        }
        path = "/v1/assemblies/stored/mast"
        assert (await houses.client.put(path, json=body, headers=houses.port)).status_code == 201

        async def verdict(is_settled: Any) -> str:
            deadline = time.monotonic() + 30
            while time.monotonic() < deadline:
                found = (await houses.client.get(path, headers=houses.port)).json()
                if found["verdict"] and is_settled(found["verdict"]):
                    return str(found["verdict"])
                await anyio.sleep(0.02)
            message = "never judged again"
            raise AssertionError(message)

        assert await verdict(lambda _: True) == "undetermined"
        await houses.change(houses.port, put=own_bronze(application))
        assert await verdict(lambda word: word != "undetermined") in {"unsuitable", "conditional"}
        feed = (await houses.client.get("/v1/changes?kind=verdicts.corrected", headers=houses.port)).json()
        assert [line["detail"]["reason"] for line in feed["items"]] == [
            "the overlay of the tenant has changed"
        ]
        other = (await houses.client.get("/v1/changes?kind=verdicts.corrected", headers=houses.yard)).json()
        assert other["items"] == []


async def test_another_process_takes_a_changed_overlay_up(seed_url: str) -> None:
    key = bearer(issue_key(seed_url, *Scope, tenant_id="port"))
    settings = Settings(database_url=seed_url, release_poll_s=0.05)
    async with running(settings, key=None) as here, running(settings, key=None) as there:
        await Houses(here, key, key).change(key, put=own_bronze(here))
        deadline = time.monotonic() + 10
        while (await there.client.get("/v1/materials/skerrivoe-7", headers=key)).status_code == 404:
            assert time.monotonic() < deadline
            await anyio.sleep(0.02)
        answers = [await Houses(held, key, key).ask(key, **OWN) for held in (here, there)]
        assert answers[0].content == answers[1].content


async def test_an_overlay_that_does_not_fit_a_release_says_so(houses: Houses, seed_url: str) -> None:
    from service.storage import read_package
    from tests.factories.http import SEED_DATA, publish_package
    from tests.factories.knowledge import row

    package = read_package(SEED_DATA)
    package["finishes"].append(row("finishes", id="new-plate", name="New plate", source_id="common-practice"))
    publish_package(seed_url, package, "2026.02.01-1")
    await anyio.to_thread.run_sync(houses.application.services.shelf.refresh)
    ban = {"table": "bans", "record": {"finish_id": "new-plate", "reason": "untried"}}
    await houses.change(houses.port, put=[ban])
    assert (await houses.ask(houses.port)).status_code == 200
    asked = COUPLE | {"as_of": LABEL}
    refused = await houses.client.get("/v1/couples", params=asked, headers=houses.port)
    assert "new-plate" in problem(refused, 409, "overlay-misfit")["detail"]
    assert (await houses.ask(houses.yard, as_of=LABEL)).status_code == 200
    del package["finishes"][-1]
    publish_package(seed_url, package, "2026.02.02-1")
    told = [
        (await houses.client.get("/v1/changes?kind=overlay.misfit", headers=who)).json()["items"]
        for who in (houses.port, houses.yard)
    ]
    assert [[line["subject"] for line in lines] for lines in told] == [["2026.02.02-1"], []]
    assert "new-plate" in told[0][0]["detail"]["reason"]


async def test_an_overlay_is_changed_only_in_the_version_that_was_seen(houses: Houses) -> None:
    first = await houses.client.get("/v1/overlay", headers=houses.port)
    assert (first.headers["etag"], first.json()["rows"]) == ('"none"', [])
    stale = {**houses.port, "If-Match": f'"{"0" * 64}"'}
    body = {"rows": [BAN]}
    problem(await houses.client.put("/v1/overlay", json=body, headers=stale), 412, "version-mismatch")
    fresh = {**houses.port, "If-Match": '"none"'}
    stored = await houses.client.put("/v1/overlay", json=body, headers=fresh)
    assert stored.status_code == 200
    shown = await houses.client.get("/v1/overlay", headers=houses.port)
    assert (shown.content, shown.headers["etag"]) == (stored.content, stored.headers["etag"])
    assert (await houses.client.get("/v1/overlay", headers=houses.yard)).json()["rows"] == []


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"put": [NO_SUCH_FINISH]}, "/put/0/record/finish_id"),
        ({"put": [BAN, BAN]}, "/put/1"),
        ({"put": [{"table": "bans", "record": {"finish_id": "zn-plain"}}]}, "/put/0/record/reason"),
        ({"put": [{"table": "kinetics", "record": {"id": "x"}}]}, "/put/0/table"),
        ({"put": [{"table": "materials", "record": {"id": "x"}}]}, "/put/0/record/name"),
        ({"remove": [{"table": "bans", "key": ["zn-plain"]}]}, "/remove"),
        ({"remove": [{"table": "designations", "key": ["x"]}]}, "/remove/0/key"),
    ],
)  # fmt: skip
async def test_what_does_not_fit_is_pointed_at(houses: Houses, change: dict[str, Any], expected: str) -> None:
    response = await houses.client.post("/v1/overlay/changes", json=change, headers=houses.port)
    assert set(faults(problem(response, 422, "invalid-request"))) == {expected}
    assert (await houses.client.get("/v1/overlay", headers=houses.port)).json()["rows"] == []


async def test_a_row_that_another_needs_does_not_go(houses: Houses) -> None:
    await houses.change(houses.port, put=own_bronze(houses.application))
    change = {"remove": [{"table": "materials", "key": ["skerrivoe-7"]}]}
    response = await houses.client.post("/v1/overlay/changes", json=change, headers=houses.port)
    assert set(faults(problem(response, 422, "invalid-request"))) == {"/remove"}


async def test_the_audit_names_rows_and_hides_them_from_others(houses: Houses) -> None:
    await houses.change(houses.port, put=[BAN])
    lines = [
        (await houses.client.get("/v1/audit?subject_kind=overlay", headers=house)).json()["items"]
        for house in (houses.port, houses.yard)
    ]
    assert [line["detail"]["key"] for line in lines[0]] == ["zn-plain"]
    assert "white rust" not in str(lines[0])
    assert lines[1] == []


async def test_only_who_manages_the_tenant_may(seed_url: str) -> None:
    key = bearer(issue_key(seed_url, *(set(Scope) - {Scope.TENANT})))
    async with running(Settings(database_url=seed_url), key=None) as application:
        problem(await application.client.get("/v1/overlay", headers=key), 403, "insufficient-scope")
