"""Catalogues kept at hand: the current one, and a few old ones for questions ``as_of`` a release."""

from __future__ import annotations

import threading
from collections import OrderedDict

from service.catalogue.catalogue import Catalogue
from service.storage.engine import Database
from service.storage.errors import NothingPublishedError
from service.storage.releases import current_release, load

DEFAULT_SIZE = 4


class Shelf:
    """Serves catalogues from memory; only a label that is not at hand costs a query.

    Threads share one shelf. A release is immutable, so nothing on it ever grows stale; only which
    one is current changes, when ``refresh`` is called.
    """

    def __init__(self, database: Database, size: int = DEFAULT_SIZE) -> None:
        self._database = database
        self._size = size
        self._lock = threading.Lock()
        self._old: OrderedDict[str, Catalogue] = OrderedDict()
        self._current: Catalogue | None = None

    @property
    def current(self) -> Catalogue:
        """The newest release as of the last ``refresh``.

        Raises
        ------
        NothingPublishedError
            If there was none.
        """
        if self._current is None:
            raise NothingPublishedError
        return self._current

    def refresh(self) -> bool:
        """Look for a newer release; tell whether there is one."""
        with self._database.reading() as session:
            newest = current_release(session)
            if newest is None or (self._current and self._current.label == newest.label):
                return False
            self._current = load(session, newest.label)
        return True

    def as_of(self, label: str) -> Catalogue:
        """Return the catalogue of a release.

        Raises
        ------
        UnknownReleaseError
            If there is no such release.
        """
        if self._current is not None and self._current.label == label:
            return self._current
        with self._lock:
            catalogue = self._old.get(label)
            if catalogue is None:
                with self._database.reading() as session:
                    catalogue = load(session, label)
                self._old[label] = catalogue
            self._old.move_to_end(label)
            while len(self._old) > self._size:
                self._old.popitem(last=False)
        return catalogue
