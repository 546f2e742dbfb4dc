"""Batches as they come in: NDJSON or one JSON document, item by item, without holding all of them as objects.

In NDJSON a first line may hold ``surfaces`` and ``defaults``; every other line is a couple. In JSON the same
two stand beside ``couples``. A couple is an object like that of a single question, with an optional ``ref``
that its answer echoes; an integer as ``first`` or ``second`` counts into ``surfaces``. A list
``[first, second]`` or ``[first, second, ref]`` is such a couple too.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import IO, Any

import msgspec

from service.web.errors import Fault, InvalidRequestError, MalformedBodyError
from service.web.nesting import check_nesting
from service.web.spool import IN_MEMORY_BYTES, size_of

MAX_COUPLES = 100_000
MAX_LINE_BYTES = 65_536
MAX_REF = 200
MAX_DEPTH = 24
"""Levels of a couple or of what couples have in common; none that can be used has more than a third of it."""

JSON, NDJSON = "application/json", "application/x-ndjson"

_COUPLES = "couples"
_SURFACES = "surfaces"
_DEFAULTS = "defaults"
_SPACE = b" \t\r\n"
_HEAD = {_SURFACES, _DEFAULTS}

Ref = str | int | None


@dataclass(frozen=True, slots=True)
class Head:
    """What the couples of a batch have in common, as plain JSON values."""

    surfaces: tuple[Any, ...] = ()
    defaults: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch: what is common to its couples, how many there are, and each as it was written."""

    head: Head
    count: int
    raws: Iterator[bytes]


class _Document(msgspec.Struct, forbid_unknown_fields=True):
    couples: list[msgspec.Raw]
    surfaces: list[Any] = []
    defaults: dict[str, Any] = {}


class _Header(msgspec.Struct, forbid_unknown_fields=True):
    surfaces: list[Any] = []
    defaults: dict[str, Any] = {}


_DOCUMENT = msgspec.json.Decoder(_Document)
_HEADER = msgspec.json.Decoder(_Header)


def read_batch(body: IO[bytes], content_type: str) -> Batch:
    """Read what the couples have in common, and give the couples one by one as they were written.

    Raises
    ------
    MalformedBodyError
        If the body is no such document. Later lines can only spoil themselves.
    InvalidRequestError
        If there are too many couples.
    """
    if content_type == NDJSON:
        return _read_lines(body)
    try:
        document = _DOCUMENT.decode(body.read())
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        message = f"The batch cannot be read: {error}."
        raise MalformedBodyError(message) from error
    check_nesting([document.surfaces, document.defaults], MAX_DEPTH)
    count = _checked_count(len(document.couples))
    head = Head(tuple(document.surfaces), document.defaults)
    return Batch(head, count, (bytes(raw) for raw in document.couples))


def _checked_count(count: int) -> int:
    if count > MAX_COUPLES:
        raise _refusal("", "too_many", f"A batch has at most {MAX_COUPLES} couples; this one has {count}.")
    return count


def _read_lines(body: IO[bytes]) -> Batch:
    if size_of(body) <= IN_MEMORY_BYTES:
        lines = [line for written in body.read().split(b"\n") if (line := written.strip(_SPACE))]
        head = _head_of(lines[0]) if lines else None
        raws = lines[1:] if head else lines
        return Batch(head or Head(), _checked_count(len(raws)), iter(raws))
    count = sum(1 for _ in _lines(body))
    body.seek(0)
    # The first line may be a table of surfaces, which is longer than a couple can be.
    while (first := body.readline()) and not first.strip():
        pass
    head = _head_of(first)
    if head is None:
        return Batch(Head(), _checked_count(count), _from(first.strip(), body))
    return Batch(head, _checked_count(count - 1), _lines(body))


def _from(first: bytes, rest: IO[bytes]) -> Iterator[bytes]:
    if first:
        yield first
        yield from _lines(rest)


def _lines(body: IO[bytes]) -> Iterator[bytes]:
    """Lines with something in them. Of one that is too long enough is given to tell that it is."""
    while line := body.readline(MAX_LINE_BYTES + 2):
        if not line.endswith(b"\n") and len(line) > MAX_LINE_BYTES:
            _skip_line(body)
        if stripped := line.strip(_SPACE):
            yield stripped


def _skip_line(body: IO[bytes]) -> None:
    while (rest := body.readline(MAX_LINE_BYTES)) and not rest.endswith(b"\n"):
        pass


def _head_of(line: bytes) -> Head | None:
    """The head if the first line is one; a long table of surfaces is read to its end."""
    if not any(b'"%s"' % name.encode() in line for name in _HEAD):
        return None
    try:
        names = msgspec.json.decode(line, type=dict[str, msgspec.Raw]).keys()
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return None
    if not names & _HEAD or names & {"first", "second"}:
        return None
    try:
        header = _HEADER.decode(line)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        message = f"The first line cannot be read: {error}."
        raise MalformedBodyError(message) from error
    check_nesting([header.surfaces, header.defaults], MAX_DEPTH)
    return Head(tuple(header.surfaces), header.defaults)


@dataclass(frozen=True, slots=True)
class Couple:
    """One couple as written: the caller's ``ref`` and the members of the question."""

    ref: Ref
    members: Mapping[str, Any]


def couple_of(raw: bytes) -> Couple:
    """Read one couple.

    Raises
    ------
    InvalidRequestError
        If it is neither an object nor a list of two indices and a ``ref``.
    """
    if len(raw) > MAX_LINE_BYTES:
        raise _refusal("", "too_long", f"A couple has at most {MAX_LINE_BYTES} bytes.")
    try:
        value = msgspec.json.decode(raw)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise _refusal("", "malformed", f"The couple is no JSON: {error}.") from error
    # Counting brackets costs next to nothing, and almost no couple has so many.
    if raw.count(b"[") + raw.count(b"{") > MAX_DEPTH:
        check_nesting(value, MAX_DEPTH)
    if isinstance(value, list) and 2 <= len(value) <= 3:  # noqa: PLR2004 - two indices, perhaps a ref
        ref = value[2] if len(value) > 2 else None  # noqa: PLR2004
        return Couple(_checked(ref, "/2"), {"first": value[0], "second": value[1]})
    if not isinstance(value, dict):
        raise _refusal("", "type", "A couple is an object, or a list of two indices and a ref.")
    return Couple(_checked(value.pop("ref", None), "/ref"), value)


def _checked(ref: object, pointer: str) -> Ref:
    if ref is None or (isinstance(ref, int) and not isinstance(ref, bool)):
        return ref
    if isinstance(ref, str) and len(ref) <= MAX_REF:
        return ref
    raise _refusal(pointer, "type", f"A ref is a number or a text of at most {MAX_REF} characters.")


def _refusal(pointer: str, code: str, detail: str) -> InvalidRequestError:
    return InvalidRequestError(Fault("body", pointer, code, detail))
