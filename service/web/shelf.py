"""Releases that are open: their catalogue, and their tables ready to send."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from service.callouts import Resolver
from service.catalogue.catalogue import Catalogue
from service.storage.shelf import Shelf
from service.web.collections import Collection, collections_of


@dataclass(frozen=True, slots=True)
class OpenRelease:
    """One release with everything that a lookup needs; a request uses one from its start to its end."""

    catalogue: Catalogue
    collections: Mapping[str, Collection]

    @classmethod
    def of(cls, catalogue: Catalogue) -> Self:
        """Make a release ready to be asked, its reader of drawing texts included."""
        Resolver.of(catalogue)
        return cls(catalogue, collections_of(catalogue))

    @property
    def label(self) -> str:
        """Label of the release."""
        return self.catalogue.label

    @property
    def content_hash(self) -> str:
        """SHA-256 of the release's export."""
        return self.catalogue.content_hash


class ReleaseShelf:
    """The current release and a few old ones.

    The current one is replaced by a single assignment once it is complete, so nobody waits for a new
    release and no answer mixes two.
    """

    def __init__(self, shelf: Shelf, size: int) -> None:
        self._shelf = shelf
        self._size = size
        self._lock = threading.Lock()
        self._old: OrderedDict[str, OpenRelease] = OrderedDict()
        self._current: OpenRelease | None = None

    @property
    def current(self) -> OpenRelease:
        """The newest release as of the last ``refresh``.

        Raises
        ------
        NothingPublishedError
            If there was none.
        """
        return self._current or OpenRelease.of(self._shelf.current)

    @property
    def current_hash(self) -> str:
        """Content hash of the current release, empty before the first."""
        return self._current.content_hash if self._current else ""

    def refresh(self) -> bool:
        """Look for a newer release, open it, then make it the current one; tell whether there was one."""
        is_newer = self._shelf.refresh()
        if is_newer:
            before, self._current = self._current, OpenRelease.of(self._shelf.current)
            if before:
                self._keep(before)
        return is_newer

    def at_hand(self, label: str | None) -> OpenRelease | None:
        """Return a release that is in memory; no label asks for the current one."""
        if label is None or (self._current and self._current.label == label):
            return self.current
        with self._lock:
            return self._old.get(label)

    def fetch(self, label: str) -> OpenRelease:
        """Return a release, reading it from the database unless it is in memory.

        Raises
        ------
        UnknownReleaseError
            If there is no such release.
        DamagedReleaseError
            If its stored content does not match its hash.
        """
        if known := self.at_hand(label):
            return known
        opened = OpenRelease.of(self._shelf.as_of(label))
        self._keep(opened)
        return opened

    def _keep(self, opened: OpenRelease) -> None:
        with self._lock:
            self._old[opened.label] = opened
            self._old.move_to_end(opened.label)
            while len(self._old) > self._size:
                self._old.popitem(last=False)
