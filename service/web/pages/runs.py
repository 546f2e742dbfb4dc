"""Bills of materials that somebody dropped on the page: their files, how far judging is, the report.

They live in memory of this process and the oldest make room for new ones: the page is for looking.
Work that must outlive the process goes through the API.
"""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.assemblies.reading import ReadAssembly

_MOST_RUNS = 40


@dataclass(slots=True)
class Run:
    """One check of a bill of materials, changed by the thread that judges it."""

    id: str
    owner: str
    read: ReadAssembly
    joints: int
    done: int = 0
    failure: str = ""
    document: Mapping[str, Any] | None = None

    @property
    def is_over(self) -> bool:
        """Whether there is nothing to wait for."""
        return bool(self.failure) or self.document is not None

    def advance(self, by: int) -> None:
        """Count joints that are done."""
        self.done += by


class Runs:
    """The latest runs by id; only the tenant that began one may see it."""

    def __init__(self, most: int = _MOST_RUNS) -> None:
        self._most = most
        self._held: OrderedDict[str, Run] = OrderedDict()
        self._lock = threading.Lock()

    def begin(self, owner: str, read: ReadAssembly) -> Run:
        """Keep a new run."""
        run = Run(secrets.token_urlsafe(12), owner, read, len(read.assembly.joints))
        with self._lock:
            self._held[run.id] = run
            while len(self._held) > self._most:
                self._held.popitem(last=False)
        return run

    def find(self, owner: str, run_id: str) -> Run | None:
        """Return a run of this owner."""
        run = self._held.get(run_id)
        return run if run and run.owner == owner else None
