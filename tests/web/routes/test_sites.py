"""A place by itself over HTTP."""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any

import httpx
import pytest

from service.settings import Settings
from service.web.schemas.sites import SiteAnswer
from tests.factories.http import faults, problem, running

pytestmark = pytest.mark.anyio
PATH = "/v1/sites/assessment"


@pytest.fixture
async def seeded(seed_url: str) -> AsyncIterator[httpx.AsyncClient]:
    async with running(Settings(database_url=seed_url)) as application:
        yield application.client


async def assess(client: httpx.AsyncClient, **body: Any) -> SiteAnswer:
    response = await client.post(PATH, json=body)
    assert response.status_code == 200, response.text
    return SiteAnswer.model_validate_json(response.content)


async def test_a_known_place_has_its_losses_and_its_films(seeded: httpx.AsyncClient) -> None:
    site = await assess(seeded, environment="marine-atmosphere-0-100-m", period_years=20)
    assert {metal.metal for metal in site.metals} == {"carbon_steel", "zinc", "copper", "aluminium"}
    assert all(metal.first_year_um.low < metal.first_year_um.median for metal in site.metals)
    assert site.wetness is not None
    assert [film.name for film in site.films] == ["rain", "deliquesced", "drying"]


async def test_a_place_may_be_figures_as_they_are_reported(seeded: httpx.AsyncClient) -> None:
    place = {
        "name": "Skerrivoe quay (invented)", "exposure": "atmosphere", "electrolyte_class": "chloride",
        "temperature_C": 9, "relative_humidity_pct": 83, "so2_ug_per_m3": 5,
        "chloride_dry_plate_mg_per_m2_d": 100, "precipitation_mm_per_year": 1200,
    }  # fmt: skip
    twin = {name: value for name, value in place.items() if not name.startswith(("so2", "chlo", "prec"))}
    twin |= {"so2_mg_per_m2_d": 4, "chloride_mg_per_m2_d": 240, "hours_rain_per_year": 706}
    assert await assess(seeded, environment=place) == await assess(seeded, environment=twin)


async def test_salt_gives_water_its_conductivity(seeded: httpx.AsyncClient) -> None:
    known = {"id": "seawater-quiescent", "salinity_g_per_kg": 8, "temperature_C": 10}
    site = await assess(seeded, environment=known)
    assert site.water is not None
    assert site.water.salinity_g_per_kg == pytest.approx(8, abs=0.05)
    judged = await seeded.post(
        "/v1/couples", json={"first": "S235JR", "second": "1.4401", "environment": known}
    )
    assert judged.status_code == 200


async def test_coupons_are_classified(seeded: httpx.AsyncClient) -> None:
    site = await assess(
        seeded,
        environment="heated-indoor",
        weighed=[{"metal": "copper", "loss_mg_per_m2_per_year": 120}],
        filmed=[{"metal": "silver", "film_angstrom": 1200, "exposure_days": 30}],
    )
    assert [each.result for each in (*site.weighed, *site.filmed)] == ["IC2", "G3"]
    assert site.indoor_um_per_year


@pytest.mark.parametrize(
    ("status", "body", "pointer"),
    [
        (422, {"environment": "heated-indoor", "period_years": 0}, "/period_years"),
        (422, {"environment": "x", "filmed": [{"metal": "gold", "film_angstrom": 1, "exposure_days": 1}]},
         "/filmed/0/metal"),
        (409, {"environment": {"id": "heated-indoor", "so2_ug_per_m3": 1, "so2_mg_per_m2_d": 1}},
         "/environment/so2_ug_per_m3"),
        (409, {"environment": {"id": "seawater-quiescent", "salinity_g_per_kg": 35, "temperature_C": 90}},
         "/environment/temperature_C"),
    ],
)  # fmt: skip
async def test_what_cannot_be_is_refused_with_its_place(
    seeded: httpx.AsyncClient, status: int, body: dict[str, Any], pointer: str
) -> None:
    refused = await seeded.post(PATH, json=body)
    assert refused.status_code == status, refused.text
    assert refused.json()["errors"][0]["pointer"] == pointer


async def test_a_place_that_nobody_knows_is_not_found(seeded: httpx.AsyncClient) -> None:
    body = problem(await seeded.post(PATH, json={"environment": "sea-front"}), 404, "unknown-reference")
    assert list(faults(body)) == ["/environment/id"]
