from __future__ import annotations

import base64
import io
from collections.abc import AsyncIterator
from typing import Any

import httpx
import openpyxl
import pytest

from service.access import Scope
from service.settings import Settings
from service.web.schemas.assembly_reports import AssemblyCheck
from service.web.schemas.substitutions import SubstitutionCheck
from tests.factories.http import LABEL, Running, faults, issue_key, problem, running
from tests.seed_catalogue import SEED_DATA

pytestmark = pytest.mark.anyio

DEMO = SEED_DATA / "demo"
CHECK, SUBSTITUTE, TEMPLATE = "/v1/assemblies/check", "/v1/substitutions/check", "/v1/assemblies/template"
PLACE = "marine-atmosphere-0-100-m"
PARTS: list[dict[str, Any]] = [
    {"part_number": "plate", "surface": "EN AW-6082-T6", "wetted_area_cm2": 100.0},
    {"part_number": "bar", "surface": "CW024A", "wetted_area_cm2": 100.0},
]
BODY: dict[str, Any] = {
    "parts": PARTS,
    "joints": [{"id": "J", "first": "plate", "second": "bar"}],
    "programme": {"environment": PLACE},
}
WAIVER = {
    "id": "W",
    "subject": "J",
    "reason": "Spare.",
    "approver": "A. Person",
    "role": "design authority",
    "granted_on": "2026-01-01",
    "expires_on": "2026-12-31",
}


@pytest.fixture
async def seeded(seed_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=seed_url)) as application:
        yield application


@pytest.fixture
def station(seeded: Running) -> httpx.AsyncClient:
    return seeded.client


async def test_the_station_is_checked_from_its_two_tables(station: httpx.AsyncClient) -> None:
    files = {
        name: (f"{name}.csv", (DEMO / f"harbour-tide-gauge{suffix}.csv").read_bytes())
        for name, suffix in (("parts", ""), ("joints", "-joints"))
    }
    response = await station.post(CHECK, files=files)
    assert response.status_code == 200, response.text
    found = AssemblyCheck.model_validate_json(response.content)
    assert found.report.totals.joints == 34
    assert found.report.faults == ()
    assert len(found.answers) == 34
    assert any(network.parts for network in found.report.networks)
    answered = await station.get(found.answers[found.report.joints[0].cases[0].answer_sha256])
    assert answered.json()["verdict"] == found.report.joints[0].cases[0].verdict


async def test_waivers_stand_beside_the_verdict(station: httpx.AsyncClient) -> None:
    plain = (await station.post(CHECK, json={**BODY, "date": "2026-11-25"})).json()
    waived = (await station.post(CHECK, json={**BODY, "date": "2026-11-25", "waivers": [WAIVER]})).json()
    assert plain["report"] == waived["report"]
    assert plain["report"]["joints"][0]["verdict"] == "unsuitable"
    assert plain["standing"]["joints"][0]["standing"] == "open"
    assert waived["standing"]["joints"][0]["standing"] == "waived"
    assert waived["standing"]["joints"][0]["violations"][0]["waivers"][0]["approver"] == "A. Person"
    expired = await station.post(CHECK, json={**BODY, "date": "2027-01-01", "waivers": [WAIVER]})
    assert expired.json()["standing"]["joints"][0]["standing"] == "open"


async def test_without_a_date_waivers_are_looked_at_today(station: httpx.AsyncClient) -> None:
    found = (await station.post(CHECK, json=BODY)).json()
    assert len(found["standing"]["date"]) == len("2026-11-25")


async def test_reports_can_be_had_as_files(station: httpx.AsyncClient) -> None:
    table = await station.post(CHECK, json=BODY, params={"format": "csv"})
    assert table.headers["content-type"].startswith("text/csv")
    assert b"J,,plate,bar" in table.content
    book = await station.post(CHECK, json=BODY, params={"format": "xlsx"})
    assert openpyxl.load_workbook(io.BytesIO(book.content)).sheetnames[0] == "joints"


async def test_what_does_not_fit_together_is_pointed_at(station: httpx.AsyncClient) -> None:
    joints = [{"id": "J", "first": "plate", "second": "baar"}]
    response = await station.post(CHECK, json={**BODY, "joints": joints})
    assert list(faults(problem(response, 409, "inconsistent-request"))) == ["/joints/0/second"]


async def test_what_cannot_be_used_is_pointed_at(station: httpx.AsyncClient) -> None:
    response = await station.post(CHECK, json={**BODY, "policy": {"name": "P", "limts": []}})
    assert faults(problem(response, 422, "invalid-request")) == {"/policy/limts": ["limits"]}


async def test_a_programme_pins_its_release(station: httpx.AsyncClient) -> None:
    pinned = {**BODY, "programme": {"environment": PLACE, "release": LABEL}}
    assert (await station.post(CHECK, json=pinned)).json()["report"]["release"]["label"] == LABEL
    problem(await station.post(CHECK, json=pinned, params={"as_of": "other"}), 409, "inconsistent-request")
    unknown = {**BODY, "programme": {"release": "2001.1"}}
    problem(await station.post(CHECK, json=unknown), 404, "unknown-release")


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"part,material\nA" + b",b" * 100_000, "columns"),
        (b'part,material\nA,"' + b"x" * 20_000, "characters in one cell"),
        (b"\xd0\xcf\x11\xe0", "old binary workbook"),
        (b"PK\x03\x04junk", "no workbook"),
        (bytes(range(256)), "no text"),
    ],
)
async def test_hostile_files_get_a_clear_answer(
    station: httpx.AsyncClient, content: bytes, reason: str
) -> None:
    response = await station.post(
        CHECK, content=content, headers={"Content-Type": "application/octet-stream"}
    )
    found = problem(response, 409, "unreadable-file")
    assert reason in found["detail"]


async def test_a_substitute_is_decided_with_its_rule(station: httpx.AsyncClient) -> None:
    body = {**BODY, "part": "bar", "substitutes": ["EN AW-6082-T6", {"ref": "b", "surface": "A4-80"}]}
    response = await station.post(SUBSTITUTE, json=body)
    assert response.status_code == 200, response.text
    found = SubstitutionCheck.model_validate_json(response.content).comparison
    assert [each.ref for each in found.substitutes] == ["EN AW-6082-T6", "b"]
    assert found.substitutes[0].change == "better"
    assert found.policy.acceptance.reject_on


async def test_a_substitute_for_nothing_is_pointed_at(station: httpx.AsyncClient) -> None:
    response = await station.post(SUBSTITUTE, json={**BODY, "part": "baz", "substitutes": ["A4-80"]})
    assert list(faults(problem(response, 409, "inconsistent-request"))) == ["/part"]


async def test_assembly_files_serve_substitutes_too(station: httpx.AsyncClient) -> None:
    content = base64.b64encode(b"part,material\nplate,EN AW-6082-T6\nbar,CW024A\n").decode()
    body = {
        "files": [{"name": "a.csv", "content": content}],
        "programme": {"environment": PLACE},
        "part": "bar",
        "substitutes": ["A4-80"],
    }
    found = (await station.post(SUBSTITUTE, json=body)).json()
    assert found["reading"]["tables"]
    assert found["comparison"]["substitutes"][0]["joints"][0]["is_assumed"]


@pytest.mark.parametrize("table", ["parts", "joints"])
async def test_the_template_is_a_table_to_fill_in(client: httpx.AsyncClient, table: str) -> None:
    response = await client.get(TEMPLATE, params={"table": table})
    assert response.headers["content-disposition"] == f'attachment; filename="{table}.csv"'
    assert response.content.startswith(b"\xef\xbb\xbf")


async def test_the_template_as_workbook_and_as_explanation(client: httpx.AsyncClient) -> None:
    book = await client.get(TEMPLATE, params={"format": "xlsx"})
    assert openpyxl.load_workbook(io.BytesIO(book.content)).sheetnames == ["parts", "joints", "explanations"]
    columns = (await client.get(TEMPLATE, params={"format": "json"})).json()
    assert columns["parts"][0]["heading"] == "part_number"


async def test_large_assemblies_count_as_many_requests(seed_url: str) -> None:
    settings = Settings(database_url=seed_url, requests_per_minute=1, request_burst=3)
    rows = "".join(f"P{number},\n" for number in range(400))
    async with running(settings) as application:
        response = await application.client.post(
            CHECK, content=f"part,material\n{rows}".encode(), headers={"Content-Type": "text/csv"}
        )
    problem(response, 429, "too-many-requests")


async def test_checks_need_their_scope(seed_url: str) -> None:
    key = issue_key(seed_url, Scope.READ)
    async with running(Settings(database_url=seed_url), key) as application:
        problem(await application.client.post(CHECK, json=BODY), 403, "insufficient-scope")
        assert (await application.client.get(TEMPLATE)).status_code == 200
