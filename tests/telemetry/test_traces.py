"""Traces: none unless asked for, then one span a request with its parts, within the caller's trace."""

from __future__ import annotations

from importlib import import_module

import pytest
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter

from service import telemetry
from service.settings import Settings
from service.telemetry import Tracing, TracingNotInstalledError
from tests.factories.http import publish_seed, running

QUESTION = {"first": "zinc", "second": "S235JR", "environment": "heated-indoor"}
TRACE = "0af7651916cd43dd8448eb211c80319c"


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
def spans() -> InMemorySpanExporter:
    return InMemorySpanExporter()


@pytest.mark.anyio
async def test_a_request_is_one_span_with_its_judging_in_the_trace_of_the_caller(
    sqlite_url: str, spans: InMemorySpanExporter, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish_seed(sqlite_url)
    monkeypatch.setattr(Tracing, "sending_to", lambda _: Tracing.through(SimpleSpanProcessor(spans)))
    settings = Settings(database_url=sqlite_url, traces_endpoint="http://127.0.0.1:1/v1/traces")
    async with running(settings) as application:
        parent = {"traceparent": f"00-{TRACE}-b7ad6b7169203331-01"}
        response = await application.client.get("/v1/couples", params=QUESTION, headers=parent)
        await application.client.get("/v1/materials/none")
    judged, asked, other = spans.get_finished_spans()
    assert asked.name == "GET /v1/couples"
    assert asked.attributes is not None
    assert asked.attributes["http.response.status_code"] == 200
    assert asked.attributes["faying.request_id"] == response.headers["x-request-id"]
    assert asked.context is not None
    assert f"{asked.context.trace_id:032x}" == TRACE
    assert judged.name == "judge"
    assert judged.parent is not None
    assert judged.parent.span_id == asked.context.span_id
    assert other.attributes is not None
    assert other.attributes["http.response.status_code"] == 404


def test_without_an_address_nothing_is_traced_and_no_package_is_loaded() -> None:
    with telemetry.part("judge", couples=1):
        pass
    assert Settings().traces_endpoint == ""


def test_who_asks_for_traces_without_the_packages_is_told_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def missing(name: str) -> object:
        if name.startswith("opentelemetry."):
            raise ImportError(name)
        return import_module(name)

    monkeypatch.setattr("service.telemetry.traces.import_module", missing)
    with pytest.raises(TracingNotInstalledError, match=r"faying\[tracing\]"):
        Tracing.sending_to("http://127.0.0.1:4318/v1/traces")
    with pytest.raises(TracingNotInstalledError):
        Tracing.through(object())
