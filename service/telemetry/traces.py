"""OpenTelemetry traces: off unless an address is set, and then one span a request with what is slow in it.

The sending packages are an extra of their own and are loaded only then. A request that comes with a
``traceparent`` continues its caller's trace.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from importlib import import_module
from threading import Thread
from typing import Any

from opentelemetry.propagate import extract
from opentelemetry.trace import Span, SpanKind, Status, StatusCode, Tracer

from service.telemetry.errors import TracingNotInstalledError

_tracer: ContextVar[Tracer | None] = ContextVar("tracer", default=None)
_FAILED = 500
PATIENCE_S = 3.0
"""For so long a process that ends waits for its collector; the exporter itself would try for 30 s."""


@dataclass(frozen=True, slots=True)
class Tracing:
    """What makes spans, and what sends them."""

    tracer: Tracer
    provider: Any

    @classmethod
    def sending_to(cls, endpoint: str) -> Tracing:
        """Send spans to an OTLP/HTTP address, in the background.

        Raises
        ------
        TracingNotInstalledError
            If the extra is not installed.
        """
        try:
            export = import_module("opentelemetry.sdk.trace.export")
            otlp = import_module("opentelemetry.exporter.otlp.proto.http.trace_exporter")
        except ImportError as error:
            raise TracingNotInstalledError from error
        return cls.through(export.BatchSpanProcessor(otlp.OTLPSpanExporter(endpoint)))

    @classmethod
    def through(cls, processor: Any) -> Tracing:
        """Hand spans to a processor."""
        try:
            sdk, resources = (import_module(f"opentelemetry.sdk.{name}") for name in ("trace", "resources"))
        except ImportError as error:
            raise TracingNotInstalledError from error
        resource = resources.Resource.create({"service.name": "faying"})
        provider = sdk.TracerProvider(resource=resource, shutdown_on_exit=False)
        provider.add_span_processor(processor)
        return cls(provider.get_tracer("service"), provider)

    @contextmanager
    def request(self, method: str, headers: Mapping[bytes, bytes]) -> Iterator[Span]:
        """Follow one request; spans inside it become its parts."""
        carrier = {name: headers.get(name.encode(), b"").decode("latin-1") for name in _CARRIED}
        token = _tracer.set(self.tracer)
        try:
            with self.tracer.start_as_current_span(
                method, context=extract({name: value for name, value in carrier.items() if value}),
                kind=SpanKind.SERVER, attributes={"http.request.method": method},
            ) as current:  # fmt: skip
                yield current
        finally:
            _tracer.reset(token)

    def close(self) -> None:
        """Send what is waiting and stop; a collector that does not take it is not waited for."""
        closing = Thread(target=self.provider.shutdown, name="traces", daemon=True)
        closing.start()
        closing.join(PATIENCE_S)


_CARRIED = ("traceparent", "tracestate")


def describe(span: Span, method: str, route: str, status: int, request_id: str) -> None:
    """Say what became of a request."""
    span.update_name(f"{method} {route}")
    span.set_attributes(
        {"http.route": route, "http.response.status_code": status, "faying.request_id": request_id}
    )
    if status >= _FAILED:
        span.set_status(Status(StatusCode.ERROR))


@contextmanager
def part(name: str, **attributes: str | float) -> Iterator[None]:
    """Follow a part of a request; costs nothing where traces are off."""
    tracer = _tracer.get()
    if tracer is None:
        yield
        return
    with tracer.start_as_current_span(name, attributes=attributes):
        yield
