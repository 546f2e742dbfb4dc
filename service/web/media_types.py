"""Content negotiation (RFC 9110, sections 8.3 and 12.5.1), as far as this service needs it."""

from __future__ import annotations

from collections.abc import Iterable

_JSON = "application/json"


def is_json(content_type: str) -> bool:
    """Whether a Content-Type names JSON, whatever its parameters."""
    essence = content_type.partition(";")[0].strip().lower()
    return essence == _JSON or (essence.startswith("application/") and essence.endswith("+json"))


def is_acceptable(accept: str, offered: Iterable[str]) -> bool:
    """Whether an Accept header lets one of the offered media types through."""
    ranges = dict(_ranges(accept))
    return any(_quality(media_type, ranges) > 0 for media_type in offered)


def _quality(media_type: str, ranges: dict[str, float]) -> float:
    """The most specific range decides, so ``*/*, text/html;q=0`` excludes HTML alone."""
    for pattern in (media_type, f"{media_type.partition('/')[0]}/*", "*/*"):
        if pattern in ranges:
            return ranges[pattern]
    return 0.0


def _ranges(accept: str) -> Iterable[tuple[str, float]]:
    for part in accept.lower().split(","):
        media_range, *parameters = (piece.strip() for piece in part.split(";"))
        quality = 1.0
        for parameter in parameters:
            name, _, value = parameter.partition("=")
            if name.strip() == "q":
                quality = _number(value)
        yield media_range, quality


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return 1.0
