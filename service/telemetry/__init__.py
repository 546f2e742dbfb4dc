"""What the process tells about itself: logs, metrics and traces."""

from service.telemetry.errors import TelemetryError, TracingNotInstalledError
from service.telemetry.logs import RequestLog, request_id, set_up
from service.telemetry.metrics import UNROUTED, Metrics, Source, exposed
from service.telemetry.traces import Tracing, describe, part

__all__ = [
    "UNROUTED",
    "Metrics",
    "RequestLog",
    "Source",
    "TelemetryError",
    "Tracing",
    "TracingNotInstalledError",
    "describe",
    "exposed",
    "part",
    "request_id",
    "set_up",
]
