"""Comparisons of releases, made once: all parts of a job, and all assemblies in a part, ask for the same."""

from __future__ import annotations

import threading
from collections import OrderedDict

from service.catalogue.catalogue import Catalogue
from service.curation.reach import Reach

DEFAULT_SIZE = 4

Key = tuple[str, str, str, str]


class Reaches:
    """The last few comparisons of two releases, each with its overlay; both are immutable and never stale."""

    def __init__(self, size: int = DEFAULT_SIZE) -> None:
        self._size = size
        self._lock = threading.Lock()
        self._made: OrderedDict[Key, Reach] = OrderedDict()

    def between(self, before: Catalogue, after: Catalogue) -> Reach:
        """Return what the changes from one release to another can touch."""
        key = (before.content_hash, before.overlay_hash, after.content_hash, after.overlay_hash)
        with self._lock:
            if (known := self._made.get(key)) is not None:
                self._made.move_to_end(key)
                return known
        made = Reach.of(before, after)
        with self._lock:
            self._made[key] = made
            while len(self._made) > self._size:
                self._made.popitem(last=False)
        return made
