"""The overlay of a tenant as the API shows and changes it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from fastapi import Request

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError
from service.catalogue.overlay import Overlay
from service.catalogue.tables import KEYS
from service.curation import change_overlay
from service.curation.errors import UnknownRowError
from service.curation.overlays import (
    PutRow,
    RowName,
    checked_private_row,
    overlay_of,
    overlay_rows,
    private_key,
)
from service.storage.engine import WriteSession
from service.storage.repositories.overlays import Rows
from service.storage.rows import key_text
from service.web.conditional import may_replace
from service.web.curation_errors import blaming
from service.web.errors import Fault, InvalidRequestError
from service.web.proposals import key_parts
from service.web.schemas.overlays import OverlayChange, OverlayReplacement, PrivateRow, PrivateRowName
from service.web.state import principal, services
from service.web.work_errors import VersionMismatchError

Document = dict[str, Any]


def shown(request: Request) -> Document:
    """Return the overlay of the caller's tenant."""
    tenant_id = principal(request).tenant_id
    with services(request).database.reading() as session:
        rows = overlay_rows(session, tenant_id)
    return _document(rows, overlay_of(rows, tenant_id), services(request).shelf.current.label)


def replaced(request: Request, wanted: OverlayReplacement, if_match: str | None) -> Document:
    """Put new rows in the place of all that are there."""
    kept = {_name_of(each.table, each.record) for each in wanted.rows}

    def remove(rows: Rows) -> list[RowName]:
        return [name for name in _named(rows) if name not in kept]

    return _change(request, wanted.rows, "/rows", remove, if_match)


def changed(request: Request, wanted: OverlayChange, if_match: str | None) -> Document:
    """Put some rows and take others away."""
    names = [_name(each, place) for place, each in enumerate(wanted.remove)]
    return _change(request, wanted.put, "/put", lambda _: names, if_match)


def _change(
    request: Request,
    given: Sequence[PrivateRow],
    pointer: str,
    remove: Callable[[Rows], list[RowName]],
    if_match: str | None,
) -> Document:
    held, caller = services(request), principal(request)
    release = held.shelf.current.catalogue
    put = [_checked(each, f"{pointer}/{place}", release) for place, each in enumerate(given)]
    _check_distinct(put, pointer)
    with held.database.writing() as session:
        before = overlay_rows(session, caller.tenant_id)
        known = _named(before)
        new = [(table, row) for table, row in put if known.get(_name_of(table, row)) != row]
        _check_match(if_match, overlay_of(before, caller.tenant_id))
        with _blaming_rows(put, pointer):
            overlay = _changed(session, request, new, remove(before), release)
        rows = overlay_rows(session, caller.tenant_id)
    held.tenants.refresh()
    return _document(rows, overlay, release.label)


def _changed(
    session: WriteSession, request: Request, put: list[PutRow], remove: list[RowName], release: Catalogue
) -> Overlay:
    caller = principal(request)
    return change_overlay(session, caller.tenant_id, put=put, remove=remove, on=release, by=caller.key_id)


def _named(rows: Rows) -> dict[RowName, Any]:
    return {_name_of(table, row): row for table, held in rows.items() for row in held}


def _name_of(table: str, row: Any) -> RowName:
    """Name a row; one that lacks its key is refused elsewhere."""
    try:
        return table, private_key(table, row)
    except KeyError:
        return table, ""


def _check_distinct(put: Sequence[PutRow], pointer: str) -> None:
    seen: set[RowName] = set()
    for place, (table, row) in enumerate(put):
        name = _name_of(table, row)
        if name in seen:
            detail = f"{table} {name[1]!r} is there twice."
            raise InvalidRequestError(Fault("body", f"{pointer}/{place}", "repeated", detail))
        seen.add(name)


def _checked(given: PrivateRow, pointer: str, release: Catalogue) -> PutRow:
    with blaming(release, f"{pointer}/record"):
        return given.table, checked_private_row(given.table, given.record)


@contextmanager
def _blaming_rows(put: Sequence[PutRow], pointer: str) -> Iterator[None]:
    """Point at the row that names what is not there, or at those that were taken away."""
    try:
        yield
    except DanglingOverlayError as error:
        name = (error.table, _key_text(error.table, error.key))
        places = [place for place, (table, row) in enumerate(put) if (table, private_key(table, row)) == name]
        where = f"{pointer}/{places[-1]}/record/{error.field}" if places else "/remove"
        raise InvalidRequestError(Fault("body", where, "unknown", str(error))) from error
    except UnknownRowError as error:
        detail = f"The overlay has no row {error.key!r} in {error.table}."
        raise InvalidRequestError(Fault("body", "/remove", "unknown", detail)) from error


def _name(given: PrivateRowName, place: int) -> RowName:
    names = KEYS.get(given.table, ("finish_id",))
    if len(given.key) != len(names):
        detail = f"A key of {given.table} has {len(names)} parts: {', '.join(names)}."
        raise InvalidRequestError(Fault("body", f"/remove/{place}/key", "length", detail))
    return given.table, _key_text(given.table, given.key)


def _key_text(table: str, key: Sequence[str]) -> str:
    return key_text(table, dict(zip(KEYS[table], key, strict=True))) if table in KEYS else key[0]


def _check_match(if_match: str | None, overlay: Overlay) -> None:
    if not may_replace(if_match, tag(overlay.content_hash)):
        raise VersionMismatchError(tag(overlay.content_hash))


def tag(overlay_hash: str) -> str:
    """Return the entity tag of an overlay, unquoted; having none has one too."""
    return overlay_hash or "none"


def _document(rows: Rows, overlay: Overlay, label: str) -> Document:
    shown_rows = [
        {"table": table, "key": _parts(table, row), "record": row}
        for table, held in rows.items()
        for row in held
    ]
    return {"overlay_hash": overlay.content_hash, "release": label, "rows": shown_rows}


def _parts(table: str, row: Any) -> list[str]:
    key = private_key(table, row)
    return key_parts(table, key) if table in KEYS else [key]
