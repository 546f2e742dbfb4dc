"""What can go wrong between a request and its answer.

::

    WebError
    ├── InvalidRequestError          fields that cannot be used, all of them at once
    ├── InconsistentRequestError     fields that are sound alone and do not fit together
    ├── UnreadableFileError          a file that is no table
    ├── MalformedBodyError           the body is no JSON, or nested too deeply
    ├── BodyTooLargeError
    ├── UnsupportedMediaTypeError
    ├── NotAcceptableError
    ├── TargetTooLongError
    ├── TooSlowError
    ├── TookTooLongError
    ├── NoSuchPathError
    ├── MethodNotAllowedError
    ├── NoSuchRecordError
    ├── BadCursorError
    ├── UnknownAnswerError
    ├── IdempotencyConflictError
    ├── IdempotencyInProgressError
    └── NotReadyError
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing in a request that cannot be used.

    ``pointer`` is a JSON pointer into the request; a query or header parameter is written as if the
    parameters were the members of one object, so that both ways of asking have the same pointers.
    ``location`` is body, query, path or header.
    """

    location: str
    pointer: str
    code: str
    detail: str
    suggestions: tuple[str, ...] = ()


class WebError(Exception):
    """The request cannot be answered as it stands."""

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Which parts of the request are to blame."""
        return ()

    @property
    def headers(self) -> dict[str, str]:
        """Headers that the answer must carry."""
        return {}


class InvalidRequestError(WebError):
    """Some fields of the request cannot be used."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("; ".join(fault.detail for fault in faults))
        self._faults = faults

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Every field that cannot be used."""
        return self._faults


class InconsistentRequestError(InvalidRequestError):
    """Each field could be used, but they do not fit together."""


class UnreadableFileError(InvalidRequestError):
    """A file of the request cannot be read as a table."""


class MalformedBodyError(WebError):
    """The body is not a JSON document that this service reads."""

    def __init__(self, detail: str) -> None:
        super().__init__(detail)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The body as a whole."""
        return (Fault("body", "", "malformed", str(self)),)


class BodyTooLargeError(WebError):
    """The body is larger than the service takes."""

    def __init__(self, limit_bytes: int) -> None:
        super().__init__(f"The body is larger than {limit_bytes} bytes.")


class TooSlowError(WebError):
    """The request was not there when the patience of the service was over."""

    def __init__(self, stall_s: float) -> None:
        super().__init__(f"The request stalled for more than {stall_s:g} seconds.")


class TookTooLongError(WebError):
    """The answer had not begun when the patience of the service was over."""

    def __init__(self, patience_s: float) -> None:
        super().__init__(f"The answer would take more than {patience_s:g} seconds.")

    @property
    def headers(self) -> dict[str, str]:
        """When to ask again."""
        return {"Retry-After": "10"}


class TargetTooLongError(WebError):
    """The path with its query is longer than the service takes."""

    def __init__(self, limit_bytes: int) -> None:
        super().__init__(
            f"The path with its query is longer than {limit_bytes} bytes; POST takes longer requests."
        )


class UnsupportedMediaTypeError(WebError):
    """The body comes in a format that this route does not read."""

    def __init__(self, found: str, accepted: tuple[str, ...]) -> None:
        super().__init__(
            f"This route reads {', '.join(accepted)}, not {found or 'a body without Content-Type'}."
        )
        self.accepted = accepted

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The header that names the format."""
        return (Fault("header", "/Content-Type", "unsupported", str(self), self.accepted),)

    @property
    def headers(self) -> dict[str, str]:
        """What would be accepted."""
        return {"Accept-Post": ", ".join(self.accepted)}


class NotAcceptableError(WebError):
    """The caller accepts no format that this route writes."""

    def __init__(self, offered: tuple[str, ...]) -> None:
        super().__init__(f"This route writes {', '.join(offered)} only.")
        self.offered = offered

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The header that asks for something else."""
        return (Fault("header", "/Accept", "unsupported", str(self), self.offered),)


class NoSuchPathError(WebError):
    """Nothing has this path."""

    def __init__(self, path: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(f"Nothing is at {path}.")
        self.path = path
        self.suggestions = suggestions

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The path."""
        return (Fault("path", "", "unknown", str(self), self.suggestions),)


class MethodNotAllowedError(WebError):
    """The path exists and does not take this method."""

    def __init__(self, method: str, allowed: tuple[str, ...]) -> None:
        super().__init__(f"This path takes {', '.join(allowed)}, not {method}.")
        self.allowed = allowed

    @property
    def headers(self) -> dict[str, str]:
        """The methods that the path takes."""
        return {"Allow": ", ".join(self.allowed)}


class NoSuchRecordError(WebError):
    """The release has no record with this identifier."""

    def __init__(self, table: str, record_id: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(f"No record of {table} has the identifier {record_id!r} in this release.")
        self.table = table
        self.record_id = record_id
        self.suggestions = suggestions

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The identifier in the path."""
        return (Fault("path", "/id", "unknown", str(self), self.suggestions),)


class BadCursorError(WebError):
    """The cursor does not come from this list with these filters."""

    def __init__(self, detail: str) -> None:
        super().__init__(detail)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The cursor."""
        return (Fault("query", "/cursor", "bad_cursor", str(self)),)


class UnknownAnswerError(WebError):
    """No answer was issued under this digest."""

    def __init__(self, digest: str) -> None:
        super().__init__(f"No answer has the digest {digest}.")
        self.digest = digest


class IdempotencyConflictError(WebError):
    """The Idempotency-Key was used for another request."""

    def __init__(self) -> None:
        super().__init__("This Idempotency-Key was used for a request with another content.")

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The header."""
        return (Fault("header", "/Idempotency-Key", "reused", str(self)),)


class IdempotencyInProgressError(WebError):
    """The first request with this Idempotency-Key is still at work."""

    def __init__(self) -> None:
        super().__init__("The first request with this Idempotency-Key is still at work.")

    @property
    def headers(self) -> dict[str, str]:
        """When to ask again."""
        return {"Retry-After": "1"}


class NotReadyError(WebError):
    """The service cannot answer yet or any more."""

    def __init__(self, detail: str) -> None:
        super().__init__(detail)

    @property
    def headers(self) -> dict[str, str]:
        """When to ask again."""
        return {"Retry-After": "2"}
