"""From what a model refuses to the faults of a problem document, wherever the values came from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from service.web.errors import Fault, InvalidRequestError
from service.web.nearness import nearest
from service.web.operations import Operation
from service.web.schemas.surfaces import NOT_BLANK

Entry = Mapping[str, Any]
"""One error of pydantic; the first step of its ``loc`` is body, query, path or header."""

_UNKNOWN = "extra_forbidden"


def invalid_request(entries: Sequence[Entry], operation: Operation) -> InvalidRequestError:
    """Blame every field that a model refused, with near names where one is unknown."""
    reasons = [entry for entry in entries if not _follows(entry, entries)]
    return InvalidRequestError(*(_fault(entry, operation) for entry in reasons))


def _follows(entry: Entry, entries: Sequence[Entry]) -> bool:
    """Whether a list is called too short only because its own members were refused."""
    where = entry["loc"]
    return entry["type"] == "too_short" and any(
        other["loc"][: len(where)] == where for other in entries if other is not entry
    )


def _fault(entry: Entry, operation: Operation) -> Fault:
    location, *path = entry["loc"]
    if entry["type"] == _UNKNOWN:
        return _unknown(str(location), path, operation)
    suggestions: tuple[str, ...] = ()
    if entry["type"] in {"enum", "literal_error"} and isinstance(entry.get("input"), str):
        words = entry["ctx"]["expected"].replace(" or ", ", ").split(", ")
        suggestions = nearest(entry["input"], [word.strip("'") for word in words])
    is_blank = entry.get("ctx", {}).get("pattern") == NOT_BLANK
    detail = "Give at least one visible character" if is_blank else entry["msg"]
    return Fault(str(location), pointer_to(path), entry["type"], detail, suggestions)


def _unknown(location: str, path: Sequence[str | int], operation: Operation) -> Fault:
    """A member that does not exist there, with the near ones or, where none is near, with what there is."""
    known = sorted(operation.members_at(location, tuple(path)))
    near = nearest(str(path[-1]), known)
    there_is = "" if near or not known else f"; there are {', '.join(known)}"
    return Fault(
        location, pointer_to(path), _UNKNOWN, f"There is no field {path[-1]!r} here{there_is}.", near
    )


def pointer_to(path: Iterable[str | int]) -> str:
    """Write a JSON pointer (RFC 6901)."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)
