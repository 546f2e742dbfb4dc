"""Figures for Prometheus, and that the dashboard and the alerts ask for those that there are."""

from __future__ import annotations

import json
import re
import socket
from collections.abc import AsyncIterator
from pathlib import Path

import httpx
import pytest
import yaml
from prometheus_client.parser import text_string_to_metric_families

from service.settings import Settings
from service.telemetry import UNROUTED, Metrics, exposed
from service.web.state import Services
from tests.factories.http import Running, publish_seed, running

FOLDER = Path(__file__).resolve().parents[2] / "service" / "telemetry"
QUESTION = {"first": "zinc", "second": "S235JR", "environment": "heated-indoor"}
NAME = re.compile(r"\b(?:faying|process|python)_[a-z_]+\b")
pytestmark = pytest.mark.anyio


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
async def application(sqlite_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    publish_seed(sqlite_url)
    async with running(Settings(database_url=sqlite_url)) as started:
        yield started


def figures(services: Services) -> dict[tuple[str, tuple[tuple[str, str], ...]], float]:
    from prometheus_client import generate_latest

    text = generate_latest(services.metrics.registry).decode()
    return {
        (sample.name, tuple(sorted(sample.labels.items()))): sample.value
        for family in text_string_to_metric_families(text)
        for sample in family.samples
    }


def without_database(services: Services) -> dict[tuple[str, tuple[tuple[str, str], ...]], float]:
    services.database.engine.dispose()
    file = Path(str(services.database.engine.url.database))
    away = file.rename(file.with_suffix(".away"))
    try:
        return figures(services)
    finally:
        away.replace(file)


async def test_requests_are_counted_by_route_and_couples_by_where_their_answer_came_from(
    application: Running,
) -> None:
    client = application.client
    for _ in range(3):
        await client.get("/v1/couples", params=QUESTION)
    await client.post("/v1/couples", json=QUESTION)
    await client.head("/v1/materials/al-6082-t6")
    await client.get("/v1/nowhere/else")
    lines = "\n".join(
        json.dumps({**QUESTION, "environment": place}) for place in ("heated-indoor", "atlantis")
    )
    await client.post("/v1/couples/batch", content=lines, headers={"Content-Type": "application/x-ndjson"})
    found = figures(application.services)

    def requests(method: str, route: str, status: str) -> float:
        labels = (("method", method), ("route", route), ("status", status))
        return found["faying_request_seconds_count", labels]

    assert requests("GET", "/v1/couples", "200") == 3
    assert requests("HEAD", "/v1/materials/{id}", "200") == 1
    assert requests("GET", UNROUTED, "404") == 1
    for source, count in {"known": 2, "kept": 1, "judged": 1}.items():
        assert found["faying_answers_total", (("source", source),)] == count
    for outcome in ("answered", "failed"):
        assert found["faying_batch_couples_total", (("outcome", outcome),)] == 1
    assert found["faying_judged_together_sum", ()] == 1
    assert found["faying_ready", ()] == found["faying_database_up", ()] == 1
    assert found["faying_memory_bytes", (("of", "answers"),)] > 1000


async def test_the_dashboard_and_the_alerts_name_only_figures_that_there_are(application: Running) -> None:
    await application.client.get("/v1/couples", params=QUESTION)
    there = {name for name, _ in figures(application.services)}
    dashboard = json.loads((FOLDER / "dashboard.json").read_text(encoding="utf-8"))
    asked = [target["expr"] for panel in dashboard["panels"] for target in panel["targets"]]
    asked += [variable["query"] for variable in dashboard["templating"]["list"]]
    alerts = yaml.safe_load((FOLDER / "alerts.yml").read_text(encoding="utf-8"))
    rules = [rule for group in alerts["groups"] for rule in group["rules"]]
    asked += [rule["expr"] for rule in rules]
    asked += [text for rule in rules for text in rule["annotations"].values()]
    named = {name for text in asked for name in NAME.findall(text)}
    assert len(named) > 10
    assert named - there == set()


async def test_figures_are_shown_on_a_port_of_their_own(sqlite_url: str) -> None:
    publish_seed(sqlite_url)
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    async with running(Settings(database_url=sqlite_url, metrics_port=port)) as application:
        async with httpx.AsyncClient(trust_env=False) as client:
            response = await client.get(f"http://127.0.0.1:{port}/metrics")
        assert response.status_code == 200
        assert 'faying_release_info{engine="' in response.text
        assert (await application.client.get("/metrics")).status_code == 404


async def test_without_a_database_the_other_figures_remain(application: Running) -> None:
    found = without_database(application.services)
    assert found["faying_database_up", ()] == 0
    assert found["faying_ready", ()] == 1
    assert not any(name == "faying_jobs_unfinished" for name, _ in found)


def test_the_port_is_free_again_afterwards() -> None:
    with exposed(Metrics(), "127.0.0.1", 0) as port:
        assert httpx.get(f"http://127.0.0.1:{port}/metrics", trust_env=False).status_code == 200
    with pytest.raises(httpx.TransportError):
        httpx.get(f"http://127.0.0.1:{port}/metrics", trust_env=False)
