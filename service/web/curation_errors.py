"""What can go wrong with proposals and overlays, told with pointers into the request."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.catalogue.overlay import OVERLAY_TABLES
from service.catalogue.tables import TABLES
from service.curation import errors as curation
from service.curation.rows import allowed_values
from service.storage.errors import BadReleaseLabelError, NotStoredError
from service.web.errors import Fault, InvalidRequestError, WebError
from service.web.nearness import nearest

_MOST_SHOWN = 20


class UnknownProposalError(WebError):
    """There is no such proposal."""

    def __init__(self, proposal_id: str) -> None:
        super().__init__(f"There is no proposal {proposal_id!r}.")


class RecordInUseError(WebError):
    """Other records name the one that is to go."""

    def __init__(self, error: curation.RowInUseError) -> None:
        super().__init__(f"{len(error.users)} other records name {error.key!r} of {error.table}.")
        self._users = error.users

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The records that name it."""
        users = tuple(f"{table} {key}" for table, key in self._users[:_MOST_SHOWN])
        return (Fault("body", "/key", "in_use", str(self), users),)


class UnusableReleaseError(WebError):
    """What would be published cannot be opened."""

    def __init__(self, reason: str) -> None:
        super().__init__(f"The release could not be opened: {reason}")


@contextmanager
def blaming(catalogue: Catalogue | None, record: str = "/record") -> Iterator[None]:
    """Tell errors of curation with pointers into a request whose row lies at ``record``.

    Suggestions are near names of ``catalogue``.

    Raises
    ------
    InvalidRequestError
        If a field of the request cannot be used.
    RecordInUseError
        If other records name the one that is to go.
    UnknownProposalError
        If there is no such proposal.
    """
    try:
        yield
    except tuple(_TOLD) as error:
        raise _TOLD[type(error)](error, catalogue, record) from error


def _unknown_table(error: curation.UnknownTableError, *_: Any) -> WebError:
    return _invalid("/table", "unknown", str(error), nearest(error.table, TABLES))


def _not_for_overlays(error: NotForOverlaysError, *_: Any) -> WebError:
    near = nearest(error.table, OVERLAY_TABLES) or OVERLAY_TABLES
    return _invalid("/table", "not_allowed", str(error), near)


def _unknown_row(error: curation.UnknownRowError, catalogue: Catalogue | None, _: str) -> WebError:
    return _invalid("/key", "unknown", str(error), _near_record(catalogue, error.table, error.key))


def _malformed(error: MalformedRowError, _: Any, record: str) -> WebError:
    detail = f"{error.field} {error.reason}."
    return _invalid(f"{record}/{error.field}", "malformed", detail, _near_field(error))


def _dangling(error: curation.DanglingProposalError, catalogue: Catalogue | None, record: str) -> WebError:
    near = _near_record(catalogue, error.target, error.value)
    return _invalid(f"{record}/{error.column}", "unknown", str(error), near)


def _dangling_overlay(error: DanglingOverlayError, _: Any, record: str) -> WebError:
    return _invalid(f"{record}/{error.field}", "unknown", str(error))


_TOLD: Mapping[type[Exception], Callable[[Any, Catalogue | None, str], WebError]] = {
    curation.UnknownTableError: _unknown_table,
    NotForOverlaysError: _not_for_overlays,
    curation.UnknownRowError: _unknown_row,
    MalformedRowError: _malformed,
    curation.DanglingProposalError: _dangling,
    DanglingOverlayError: _dangling_overlay,
    curation.ReasonMissingError: lambda error, *_: _invalid("/reason", "missing", str(error)),
    curation.RowInUseError: lambda error, *_: RecordInUseError(error),
    BadReleaseLabelError: lambda error, *_: _invalid("/label", "malformed", str(error)),
    NotStoredError: lambda error, *_: UnknownProposalError(error.identifier),
}


def _invalid(pointer: str, code: str, detail: str, near: tuple[str, ...] = ()) -> InvalidRequestError:
    return InvalidRequestError(Fault("body", pointer, code, detail, near))


def _near_field(error: MalformedRowError) -> tuple[str, ...]:
    """Near words for a value of a closed set, or near names of an unknown field."""
    if error.table not in TABLES:
        return ()
    names = [field.name for field in fields(TABLES[error.table])]
    if error.field not in names:
        return nearest(error.field, names)
    words = allowed_values(error.table, error.field)
    return nearest(str(error.value), words) or words[:_MOST_SHOWN]


def _near_record(catalogue: Catalogue | None, table: str, name: str) -> tuple[str, ...]:
    held: Any = getattr(catalogue, table, ())
    return nearest(name, held) if name and isinstance(held, Mapping) else ()
