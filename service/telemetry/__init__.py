"""What the process tells about itself: logs."""

from service.telemetry.logs import RequestLog, request_id, set_up

__all__ = ["RequestLog", "request_id", "set_up"]
