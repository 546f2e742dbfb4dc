"""The lock file as a list of packages, each with who wants it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).parents[2]
LOCK = PROJECT / "requirements.lock"
OURSELVES = "faying"
_DEVELOPMENT = "# --- development"
_HEAD = re.compile(r"^([a-z0-9][a-z0-9._-]*)==(\S+)")
_VIA = re.compile(r"^    # (?:via)?\s*([a-z0-9][a-z0-9._-]*)?")


@dataclass(frozen=True)
class Package:
    """One package of the lock file."""

    name: str
    version: str
    is_runtime: bool
    wanted_by: tuple[str, ...]


def packages(text: str | None = None) -> list[Package]:
    """Read the lock file: what the service needs, then what its contributors need."""
    text = LOCK.read_text(encoding="utf-8") if text is None else text
    runtime, _, development = text.partition(_DEVELOPMENT)
    return [*_read(runtime, is_runtime=True), *_read(development, is_runtime=False)]


def _read(text: str, *, is_runtime: bool) -> list[Package]:
    found = []
    for entry in re.split(r"^(?=[a-z0-9])", text, flags=re.MULTILINE):
        head = _HEAD.match(entry)
        if head:
            wanted_by = [match[1] for line in entry.splitlines() if (match := _VIA.match(line)) and match[1]]
            found.append(Package(head[1], head[2], is_runtime, tuple(wanted_by)))
    return found
