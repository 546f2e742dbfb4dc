"""What a kind of work has to offer; everything else about jobs is the same for all kinds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol

from service.jobs.errors import UnknownKindError
from service.storage.engine import WriteSession
from service.storage.repositories.jobs import Job


def nothing(_session: WriteSession) -> None:
    """Write nothing besides the result."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One chunk of a job: what the whole job asked for, and the chunk's own part of it."""

    job: Job
    request: bytes
    chunk: int
    input: bytes


@dataclass(frozen=True, slots=True)
class Outcome:
    """The result of a chunk and what has to be written with it.

    ``effect`` runs in the transaction that keeps the result, and only there: work that was done twice
    has its effect once.
    """

    result: bytes
    effect: Callable[[WriteSession], None] = nothing


class Kind(Protocol):
    """A kind of work."""

    @property
    def name(self) -> str:
        """Name under which jobs are stored."""

    def run(self, piece: Piece) -> Outcome:
        """Do one chunk. It may be done again after a crash, so it changes nothing itself.

        Raises
        ------
        HopelessError
            If it can never be done.
        """

    def sum_up(self, session: WriteSession, job: Job) -> bytes | None:
        """Return what sums up all chunks, in the transaction of the last one; ``None`` for nothing."""


Kinds = Mapping[str, Kind]


def kind_named(kinds: Kinds, name: str) -> Kind:
    """Return a kind of work.

    Raises
    ------
    UnknownKindError
        If there is none of this name.
    """
    try:
        return kinds[name]
    except KeyError:
        raise UnknownKindError(name, tuple(sorted(kinds))) from None
