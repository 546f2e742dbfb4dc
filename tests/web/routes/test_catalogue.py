"""Lists and details: filters, pages, conditional requests, and what is refused."""

from __future__ import annotations

import base64
from typing import Any

import httpx
import pytest

from service.settings import Settings
from service.web.routes.catalogue import LISTED, Listed
from tests.factories.http import LABEL, Running, faults, problem, publish_package, running
from tests.factories.knowledge import row, small_package

pytestmark = pytest.mark.anyio


async def get(client: httpx.AsyncClient, address: str) -> dict[str, Any]:
    response = await client.get(address)
    assert response.status_code == 200, response.text
    body: dict[str, Any] = response.json()
    return body


@pytest.mark.parametrize("listed", LISTED, ids=lambda listed: listed.path)
async def test_every_table_is_listed_and_each_record_fits_its_schema(
    client: httpx.AsyncClient, listed: Listed
) -> None:
    response = await client.get(f"/v1/{listed.path}")
    page = listed.page.model_validate_json(response.content)
    assert page.total > 0
    for item in response.json()["items"]:
        detail = await client.get(f"/v1/{listed.path}/{item['id']}")
        assert detail.json() == item
        listed.record.model_validate_json(detail.content)


async def test_records_carry_what_belongs_to_them(client: httpx.AsyncClient) -> None:
    steel = await get(client, "/v1/materials/s235")
    assert [name["text"] for name in steel["designations"]] == ["S235JR", "1.0038"]
    gold = await get(client, "/v1/finishes/gold-plate")
    assert [each["substrate_family"] for each in gold["substrates"]] == ["copper alloy"]
    trigger = {"environment": {"tags": {"has": "sulfide"}}}
    assert (await get(client, "/v1/rules/earth"))["trigger"] == trigger


@pytest.mark.parametrize(
    ("address", "ids"),
    [
        ("/v1/materials?electrode_id=zinc", ["zinc-sheet"]),
        ("/v1/materials?is_conductive=false", ["s235"]),
        ("/v1/materials?q=1.0038", ["s235"]),
        ("/v1/materials?q=ZINC%20sheet", ["zinc-sheet"]),
        ("/v1/materials?q=unobtainium", []),
        ("/v1/finishes?substances=Ni", ["nickel-plate"]),
        ("/v1/compounds?helps=salt", ["grease"]),
        ("/v1/measurements?subject_kind=electrode&quantity=corrosion_potential", ["zinc-in-brine"]),
        ("/v1/rules?affects=seal&kind=mandatory", ["earth"]),
    ],
)
async def test_filters_keep_what_they_say(client: httpx.AsyncClient, address: str, ids: list[str]) -> None:
    page = await get(client, address)
    assert [item["id"] for item in page["items"]] == ids
    assert page["total"] == len(ids)


async def test_a_walk_by_links_meets_every_record_once(client: httpx.AsyncClient) -> None:
    seen: list[str] = []
    address: str | None = "/v1/measurements?limit=1"
    while address:
        response = await client.get(address)
        page = response.json()
        seen += [item["id"] for item in page["items"]]
        address = response.links.get("next", {}).get("url")
        assert address == page["next"]
    assert seen == ["steel-density", "zinc-in-brine"]


async def test_a_walk_stays_in_its_release(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        client = application.client
        first = await get(client, "/v1/materials?limit=1")
        package = small_package()
        package["materials"].append(row("materials", id="t-new", electrode_id="zinc"))
        publish_package(published_url, package, "2026.01.02-1")
        assert application.services.shelf.refresh()
        rest = await get(client, first["next"])
        assert [item["id"] for item in rest["items"]] == ["zinc-sheet"]
        assert rest["release"] == first["release"]
        assert (await get(client, "/v1/materials"))["total"] == 3
        assert (await get(client, f"/v1/materials?as_of={LABEL}"))["total"] == 2


async def test_what_the_caller_holds_is_not_sent_again(client: httpx.AsyncClient) -> None:
    for address in ("/v1/materials", "/v1/materials/s235"):
        first = await client.get(address)
        assert first.headers["repr-digest"].startswith("sha-256=:")
        again = await client.get(address, headers={"If-None-Match": f'"other", W/{first.headers["etag"]}'})
        assert (again.status_code, again.content) == (304, b"")
        assert again.headers["etag"] == first.headers["etag"]
        other = await client.get(address, headers={"If-None-Match": '"other"'})
        assert other.content == first.content


async def test_pages_that_differ_have_different_tags(client: httpx.AsyncClient) -> None:
    addresses = ["/v1/materials", "/v1/materials?limit=1", "/v1/materials?q=zinc", "/v1/finishes"]
    tags = [(await client.get(address)).headers["etag"] for address in addresses]
    assert len(set(tags)) == len(tags)


async def test_an_unknown_record_names_near_ones(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/materials/zinc_sheet"), 404, "unknown-record")
    assert faults(body) == {"/id": ["zinc-sheet"]}
    by_name = problem(await client.get("/v1/materials/S235JR"), 404, "unknown-record")
    assert "s235" in faults(by_name)["/id"]


async def test_an_unknown_parameter_names_the_near_one(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/materials?famly=x&limt=2"), 422, "invalid-request")
    assert faults(body) == {"/famly": ["family"], "/limt": ["limit"]}
    problem(await client.get("/v1/materials/s235?limit=2"), 422, "invalid-request")


async def test_a_parameter_given_twice_is_refused(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/materials?limit=2&limit=3"), 422, "invalid-request")
    assert body["errors"][0]["code"] == "repeated"


@pytest.mark.parametrize("query", ["limit=0", "limit=201", "limit=many", "is_conductive=perhaps"])
async def test_a_value_out_of_bounds_is_refused(client: httpx.AsyncClient, query: str) -> None:
    body = problem(await client.get(f"/v1/materials?{query}"), 422, "invalid-request")
    assert list(faults(body)) == ["/" + query.partition("=")[0]]


async def test_a_near_word_of_a_closed_set_is_suggested(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/finishes?role=metalic"), 422, "invalid-request")
    assert faults(body)["/role"][0] == "metallic"


FOREIGN = base64.urlsafe_b64encode(b'["s235","2026.01.01-1","0000000000000000"]').decode()


@pytest.mark.parametrize("cursor", ["x", "!!!", "eyJhIjoxfQ", "WzEsMiwzXQ", FOREIGN.rstrip("="), "é"])
async def test_a_bad_cursor_is_a_problem(client: httpx.AsyncClient, cursor: str) -> None:
    problem(await client.get("/v1/materials", params={"cursor": cursor}), 404, "bad-cursor")


async def test_a_cursor_of_other_filters_or_of_another_release_is_a_problem(started: Running) -> None:
    page = (await started.client.get("/v1/measurements?limit=1")).json()
    address = page["next"]
    problem(await started.client.get(f"{address}&subject_kind=electrode"), 404, "bad-cursor")
    problem(await started.client.get(f"{address}&as_of=1999"), 404, "unknown-release")


async def test_an_unknown_release_is_a_problem(client: httpx.AsyncClient) -> None:
    problem(await client.get("/v1/materials?as_of=1999.01.01-1"), 404, "unknown-release")
    problem(await client.get("/v1/materials/s235?as_of=1999.01.01-1"), 404, "unknown-release")


async def test_a_number_beyond_all_bounds_is_refused(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/v1/sources?year=98589929817489266442240"), 422, "invalid-request")
    assert list(faults(body)) == ["/year"]
