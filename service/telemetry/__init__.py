"""What the process tells about itself: logs, metrics and traces."""

from service.telemetry.errors import TelemetryError, TracingNotInstalledError
from service.telemetry.logs import request_id, set_up
from service.telemetry.metrics import UNROUTED, Metrics, exposed
from service.telemetry.request_log import RequestLog
from service.telemetry.tally import Source
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
