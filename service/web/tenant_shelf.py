"""Open releases as each tenant sees them: which overlay is in force is known without asking the database."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Mapping

from service.catalogue.overlay import hash_of_both
from service.curation.views import Views
from service.web.shelf import OpenRelease, ReleaseShelf


class TenantShelf:
    """The releases of a shelf, with overlays on top for the tenants that have one.

    A process that changes an overlay refreshes at once; others do when they look next, as with releases.
    What is kept here is found by the hash of its overlay, so a changed overlay can never be taken for the
    one before, and what was dropped is opened again.
    """

    def __init__(
        self, shelf: ReleaseShelf, views: Views, in_force: Callable[[], Mapping[str, str]], size: int
    ) -> None:
        self._shelf = shelf
        self._views = views
        self._read = in_force
        self._size = size
        self._in_force: Mapping[str, str] = {}
        self._opened: OrderedDict[tuple[str, str], OpenRelease] = OrderedDict()
        self._lock = threading.Lock()
        self._reading = threading.Lock()
        self._opening = threading.Lock()

    def refresh(self) -> None:
        """Look which overlays are in force; one look at a time, so that a later one never loses."""
        with self._reading:
            self._in_force = self._read()

    def overlay_hash(self, tenant_id: str) -> str:
        """Hash of the overlay that is in force for a tenant, empty for none."""
        return self._in_force.get(tenant_id, "")

    def current_hash(self, tenant_id: str) -> str:
        """Content hash of the current release as a tenant sees it, empty before the first release."""
        current = self._shelf.current_hash
        return hash_of_both(current, self._in_force.get(tenant_id, "")) if current else ""

    def at_hand(self, label: str | None, tenant_id: str) -> OpenRelease | None:
        """Return a release as a tenant sees it if that is in memory; no label asks for the current one."""
        release = self._shelf.at_hand(label)
        overlay_hash = self.overlay_hash(tenant_id)
        if release is None or not overlay_hash:
            return release
        with self._lock:
            return self._opened.get((release.label, overlay_hash))

    def fetch(self, label: str | None, tenant_id: str, overlay_hash: str | None = None) -> OpenRelease:
        """Return a release as a tenant sees it, or with ``overlay_hash`` as it once saw it.

        Raises
        ------
        UnknownReleaseError
            If there is no such release.
        DanglingOverlayError
            If the overlay names something that this release does not hold.
        """
        release = self._shelf.current if label is None else self._shelf.fetch(label)
        wanted = self.overlay_hash(tenant_id) if overlay_hash is None else overlay_hash
        if not wanted:
            return release
        key = (release.label, wanted)
        with self._opening:  # who comes second finds what the first has opened
            with self._lock:
                known = self._opened.get(key)
            opened = known or OpenRelease.of(self._views.of(release.label, tenant_id, wanted))
            self._keep(key, opened)
        return opened

    def _keep(self, key: tuple[str, str], opened: OpenRelease) -> None:
        with self._lock:
            self._opened[key] = opened
            self._opened.move_to_end(key)
            while len(self._opened) > self._size:
                self._opened.popitem(last=False)
