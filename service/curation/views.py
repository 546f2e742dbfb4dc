"""Releases as tenants see them: with their overlay on top, also that of an earlier day."""

from __future__ import annotations

import threading
from collections import OrderedDict

from service.catalogue.catalogue import Catalogue
from service.catalogue.overlay import apply_overlay
from service.curation.errors import UnknownOverlayError
from service.curation.overlays import overlay_of
from service.storage.engine import Database
from service.storage.repositories.overlays import OverlaysRepository
from service.storage.shelf import Shelf

DEFAULT_SIZE = 8


class Views:
    """Gives catalogues by release, tenant and hash of the overlay.

    Both are immutable, so nothing here ever grows stale, and what was dropped is made again. A hash
    belongs to one tenant, and its rows are looked for under that tenant alone.
    """

    def __init__(self, database: Database, shelf: Shelf, size: int = DEFAULT_SIZE) -> None:
        self._database = database
        self._shelf = shelf
        self._size = size
        self._lock = threading.Lock()
        self._made: OrderedDict[tuple[str, str, str], Catalogue] = OrderedDict()

    def of(self, label: str, tenant_id: str, overlay_hash: str) -> Catalogue:
        """Return a release with an overlay of a tenant on top; without a hash the release itself.

        Raises
        ------
        UnknownReleaseError
            If there is no such release.
        UnknownOverlayError
            If the tenant never had this overlay.
        DanglingOverlayError
            If a row of the overlay names something that this release does not hold.
        """
        release = self._shelf.as_of(label)
        if not overlay_hash:
            return release
        key = (label, tenant_id, overlay_hash)
        with self._lock:
            if (known := self._made.get(key)) is not None:
                self._made.move_to_end(key)
                return known
        view = self._make(release, tenant_id, overlay_hash)
        with self._lock:
            self._made[key] = view
            while len(self._made) > self._size:
                self._made.popitem(last=False)
        return view

    def _make(self, release: Catalogue, tenant_id: str, overlay_hash: str) -> Catalogue:
        with self._database.reading() as session:
            rows = OverlaysRepository(session).version(tenant_id, overlay_hash)
        if rows is None:
            raise UnknownOverlayError(overlay_hash)
        return apply_overlay(release, overlay_of(rows, tenant_id))
