"""What can go wrong when the process is to tell about itself."""

from __future__ import annotations


class TelemetryError(Exception):
    """Something about logs, metrics or traces is not in order."""


class TracingNotInstalledError(TelemetryError):
    """Traces are asked for, but what sends them is not installed."""

    def __init__(self) -> None:
        super().__init__("traces need the packages of the extra 'tracing': pip install 'faying[tracing]'")
