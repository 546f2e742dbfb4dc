"""Stored assemblies under a release: which of them it can touch, and what it changes in those.

An assembly remembers what its report rests on. A new release judges only those again that one of its
changes can touch; of the others it is noted that their reports hold. What changed becomes lines of the
feed, written with the new report in the transaction that ends the chunk, and so exactly once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import orjson
from sqlalchemy.orm import Session

from service.curation.reach import Reach
from service.jobs.kinds import Outcome, Piece
from service.jobs.queue import Queue
from service.jobs.rejudging import PINNED, Read, Rejudging
from service.judgement import ENGINE_VERSION
from service.storage.engine import Database, WriteSession
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly
from service.storage.repositories.jobs import Input, Job, JobsRepository
from service.storage.shelf import Shelf

NAME = "portfolio"
JOINTS_PER_CHUNK = 400
ASSEMBLIES_PER_CHUNK = 50
PAGE = 500


@dataclass(frozen=True, slots=True)
class Plan:
    """What a release asks for: the assemblies to judge again in portions, and those that hold."""

    portions: tuple[tuple[StoredAssembly, ...], ...]
    holding: Mapping[str, list[str]]
    examined: int


@dataclass(frozen=True, slots=True)
class Portfolio:
    """The kind of work that judges stored assemblies."""

    database: Database
    shelf: Shelf
    read: Read
    name: str = NAME

    def run(self, piece: Piece) -> Outcome:
        """Judge the assemblies of a chunk under the release of its job."""
        now = self.shelf.as_of(piece.job.release_label or "")
        rejudging = Rejudging(self.database, self.shelf, self.read, now)
        judged = rejudging.judge_all(orjson.loads(piece.input))

        def effect(session: WriteSession) -> None:
            for outcome in judged:
                outcome.write(session)

        lines = (orjson.dumps(outcome.line) + b"\n" for outcome in judged)
        return Outcome(b"".join(lines), effect)

    def sum_up(self, session: WriteSession, job: Job) -> bytes | None:
        """Count what came out."""
        lines = [
            orjson.loads(line)
            for chunk in JobsRepository(session).all_results(job.id)
            for line in chunk.splitlines()
        ]
        return orjson.dumps(
            {"judged": len(lines), "changed": sum(line["changed_joints"] > 0 for line in lines)}
        )

    def submit(self, queue: Queue, tenant_id: str, *, by: str, dedupe_key: str | None = None) -> Job:
        """Plan a tenant's assemblies against the current release and put in what is to be judged again."""
        self.shelf.refresh()
        label = self.shelf.current.label
        with self.database.reading() as session:
            planned = self.plan(session, tenant_id, label)
        request = {"examined": planned.examined, "holding": sum(map(len, planned.holding.values()))}
        with self.database.writing() as session:
            assemblies = AssembliesRepository(session)
            for before, ids in planned.holding.items():
                assemblies.say_holding(ids, before=before, after=label)
            return self._add(
                session, queue, tenant_id, planned.portions, request, by=by, dedupe_key=dedupe_key
            )

    def submit_one(self, session: WriteSession, queue: Queue, assembly: StoredAssembly, *, by: str) -> Job:
        """Put in the judging of one assembly that is new or was edited."""
        self.shelf.refresh()
        request = {"examined": 1, "holding": 0, "assembly": assembly.name}
        return self._add(session, queue, assembly.tenant_id, ((assembly,),), request, by=by)

    def plan(self, session: Session, tenant_id: str, label: str) -> Plan:
        """Tell the assemblies that a release can touch from those whose reports hold."""
        touched: list[StoredAssembly] = []
        holding: dict[str, list[str]] = {}
        reaches: dict[str, Reach] = {}
        examined = 0
        for stored, rests_on in _behind(session, tenant_id, label):
            examined += 1
            if self._holds(stored, rests_on, label, reaches):
                holding.setdefault(stored.holds_under or "", []).append(stored.id)
            else:
                touched.append(stored)
        return Plan(tuple(_portions(touched)), holding, examined)

    def _holds(
        self, stored: StoredAssembly, rests_on: Sequence[str], label: str, reaches: dict[str, Reach]
    ) -> bool:
        if stored.holds_under is None or stored.engine != ENGINE_VERSION or not rests_on:
            return False
        if list(rests_on) == [PINNED] or stored.holds_under == label:
            return True
        if stored.holds_under not in reaches:
            before = self.shelf.as_of(stored.holds_under)
            reaches[stored.holds_under] = Reach.of(before, self.shelf.as_of(label))
        return not reaches[stored.holds_under].touching(rests_on)

    def _add(
        self,
        session: WriteSession,
        queue: Queue,
        tenant_id: str,
        portions: Sequence[Sequence[StoredAssembly]],
        request: Mapping[str, Any],
        *,
        by: str,
        dedupe_key: str | None = None,
    ) -> Job:
        inputs = [
            Input(
                sum(max(1, stored.joints) for stored in portion),
                orjson.dumps([stored.id for stored in portion]),
            )
            for portion in portions
        ]
        jobs, label = JobsRepository(session), self.shelf.current.label
        facts: dict[str, Any] = {"created_by": by, "tenant_id": tenant_id, "release_label": label}
        content = orjson.dumps(request)
        if dedupe_key is None:
            job, is_new = jobs.add(NAME, content, inputs, **facts), True
        else:
            job, is_new = jobs.add_once(NAME, content, inputs, dedupe_key=dedupe_key, **facts)
        if is_new:
            queue.enqueue(session, job)
        return job


def _behind(session: Session, tenant_id: str, label: str) -> Iterator[tuple[StoredAssembly, Sequence[str]]]:
    assemblies, after = AssembliesRepository(session), ""
    while page := assemblies.behind(tenant_id, label, ENGINE_VERSION, after=after, limit=PAGE):
        yield from page
        after = page[-1][0].id


def _portions(touched: Sequence[StoredAssembly]) -> Iterator[tuple[StoredAssembly, ...]]:
    portion: list[StoredAssembly] = []
    joints = 0
    for stored in touched:
        if portion and (joints + stored.joints > JOINTS_PER_CHUNK or len(portion) >= ASSEMBLIES_PER_CHUNK):
            yield tuple(portion)
            portion, joints = [], 0
        portion.append(stored)
        joints += stored.joints
    if portion:
        yield tuple(portion)
