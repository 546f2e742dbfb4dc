"""Traces: none unless asked for, then one span a request with its parts, within the caller's trace."""

from __future__ import annotations

import socket
import subprocess
import sys
import threading
from collections.abc import Iterable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib import import_module
from typing import Any
from unittest.mock import Mock

import pytest
from opentelemetry.proto.collector.trace.v1.trace_service_pb2 import ExportTraceServiceRequest
from opentelemetry.proto.common.v1.common_pb2 import KeyValue
from opentelemetry.proto.trace.v1.trace_pb2 import Span
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter

from service import telemetry
from service.settings import Settings
from service.telemetry import Tracing, TracingNotInstalledError, traces
from tests.factories.http import publish_seed, running

QUESTION = {"first": "zinc", "second": "S235JR", "environment": "heated-indoor"}
MANY = 600
"""Requests that fill more than one message to a collector."""

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


class Collector(ThreadingHTTPServer):
    """Takes traces as a collector does: OTLP over HTTP."""

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), _Receiving)
        self.address = f"http://127.0.0.1:{self.server_port}/v1/traces"
        self.spans: list[Span] = []
        self.services: set[str] = set()


class _Receiving(BaseHTTPRequestHandler):
    server: Collector

    def do_POST(self) -> None:
        assert (self.path, self.headers["content-type"]) == ("/v1/traces", "application/x-protobuf")
        body = self.rfile.read(int(self.headers["content-length"]))
        for sent in ExportTraceServiceRequest.FromString(body).resource_spans:
            self.server.services |= {plain(sent.resource.attributes)["service.name"]}
            for scope in sent.scope_spans:
                self.server.spans.extend(scope.spans)
        self.send_response(200)
        self.end_headers()

    def log_message(self, *_: object) -> None:
        """Say nothing."""


def plain(attributes: Iterable[KeyValue]) -> dict[str, Any]:
    return {
        each.key: getattr(each.value, each.value.WhichOneof("value") or "string_value") for each in attributes
    }


@pytest.fixture
def collector() -> Iterator[Collector]:
    with Collector() as server:
        serving = threading.Thread(target=server.serve_forever)
        serving.start()
        yield server
        server.shutdown()
        serving.join()


@pytest.mark.anyio
async def test_spans_reach_a_collector(sqlite_url: str, collector: Collector) -> None:
    publish_seed(sqlite_url)
    settings = Settings(database_url=sqlite_url, traces_endpoint=collector.address)
    async with running(settings) as application:
        parent = {"traceparent": f"00-{TRACE}-b7ad6b7169203331-01"}
        response = await application.client.get("/v1/couples", params=QUESTION, headers=parent)
        await application.client.get("/v1/materials/none")
    spans = {span.name: span for span in collector.spans}
    assert collector.services == {"faying"}
    assert set(spans) == {"judge", "GET /v1/couples", "GET /v1/materials/{id}"}
    asked, judged = spans["GET /v1/couples"], spans["judge"]
    assert (asked.trace_id.hex(), asked.parent_span_id.hex()) == (TRACE, "b7ad6b7169203331")
    assert judged.parent_span_id == asked.span_id
    assert plain(asked.attributes) == {
        "http.request.method": "GET",
        "http.route": "/v1/couples",
        "http.response.status_code": 200,
        "faying.request_id": response.headers["x-request-id"],
    }
    assert plain(spans["GET /v1/materials/{id}"].attributes)["http.response.status_code"] == 404


@pytest.fixture(params=["refuses", "is silent"])
def dead_address(request: pytest.FixtureRequest) -> Iterator[str]:
    """Where a collector should be: nobody listens, or somebody who never answers."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        port = server.getsockname()[1]
        if request.param == "refuses":
            server.close()
        yield f"http://127.0.0.1:{port}/v1/traces"


@pytest.mark.anyio
async def test_without_its_collector_a_service_answers_the_same(
    sqlite_url: str, dead_address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(traces, "PATIENCE_S", 0.1)
    publish_seed(sqlite_url)
    async with running(Settings(database_url=sqlite_url)) as application:
        expected = await application.client.get("/v1/couples", params=QUESTION)
    settings = Settings(database_url=sqlite_url, traces_endpoint=dead_address, request_burst=MANY)
    async with running(settings) as application:
        responses = [await application.client.get("/v1/couples", params=QUESTION) for _ in range(MANY)]
    assert {(response.status_code, response.content) for response in responses} == {(200, expected.content)}


def test_a_process_that_ends_does_not_wait_for_a_dead_collector(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(traces, "PATIENCE_S", 0.1)
    has_answered = threading.Event()
    provider = Mock(shutdown=Mock(side_effect=has_answered.wait))
    Tracing(Mock(), provider).close()
    provider.shutdown.assert_called_once_with()
    assert not has_answered.is_set()
    has_answered.set()


def test_without_an_address_nothing_is_traced_and_no_package_is_loaded() -> None:
    with telemetry.part("judge", couples=1):
        pass
    assert Settings().traces_endpoint == ""
    look = "import service.app, sys; print([name for name in sys.modules if 'opentelemetry.sdk' in name])"
    done = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


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
