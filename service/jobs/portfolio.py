"""Stored assemblies under a release: which of them it can touch, and what it changes in those.

An assembly remembers what its report rests on. A new release judges only those again that one of its
changes can touch; of the others it is noted that their reports hold. What changed becomes lines of the
feed, written with the new report in the transaction that ends the chunk, and so exactly once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import orjson
from sqlalchemy.orm import Session

from service.catalogue.errors import DanglingOverlayError
from service.curation.dependence import PINNED
from service.curation.reaches import Reaches
from service.curation.views import Views
from service.jobs.errors import HopelessError
from service.jobs.kinds import Outcome, Piece
from service.jobs.queue import Queue
from service.jobs.rejudging import Read, Rejudging, See
from service.judgement import ENGINE_VERSION
from service.storage.engine import Database, WriteSession
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly, View
from service.storage.repositories.jobs import Input, Job, JobsRepository
from service.storage.repositories.overlays import OverlaysRepository
from service.storage.shelf import Shelf

NAME = "portfolio"
MISFIT = "overlay-misfit"
"""Why a tenant's assemblies cannot be judged: its overlay names what the release does not hold."""

JOINTS_PER_CHUNK = 400
ASSEMBLIES_PER_CHUNK = 50
PAGE = 500


@dataclass(frozen=True, slots=True)
class Plan:
    """What a release asks for: the assemblies to judge again in portions, and those that hold."""

    portions: tuple[tuple[StoredAssembly, ...], ...]
    holding: Mapping[View, list[str]]
    examined: int


@dataclass(frozen=True, slots=True)
class Portfolio:
    """The kind of work that judges stored assemblies."""

    database: Database
    shelf: Shelf
    views: Views
    read: Read
    name: str = NAME
    reaches: Reaches = field(default_factory=Reaches)

    def run(self, piece: Piece) -> Outcome:
        """Judge the assemblies of a chunk under the release of its job."""
        see = self._see(piece.job.tenant_id or "")
        try:
            now = see(piece.job.release_label or "", piece.job.overlay_hash)
        except DanglingOverlayError as error:
            raise HopelessError(MISFIT, str(error)) from error
        rejudging = Rejudging(self.database, see, self.read, now, reaches=self.reaches)
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
            after = (label, OverlaysRepository(session).in_force(tenant_id))
            planned = self.plan(session, tenant_id, after)
        request = {"examined": planned.examined, "holding": sum(map(len, planned.holding.values()))}
        with self.database.writing() as session:
            assemblies = AssembliesRepository(session)
            for before, ids in planned.holding.items():
                assemblies.say_holding(ids, before=before, after=after)
            return self._add(
                session, queue, tenant_id, planned.portions, request, after, by=by, dedupe_key=dedupe_key
            )

    def submit_one(self, session: WriteSession, queue: Queue, assembly: StoredAssembly, *, by: str) -> Job:
        """Put in the judging of one assembly that is new or was edited."""
        request = {"examined": 1, "holding": 0, "assembly": assembly.name}
        return self._add_now(session, queue, [assembly], request, by=by)

    def submit_these(
        self, session: WriteSession, queue: Queue, assemblies: Sequence[StoredAssembly], *, by: str
    ) -> Job:
        """Put in the judging of some assemblies of one tenant, because their policy was edited."""
        request = {"examined": len(assemblies), "holding": 0}
        return self._add_now(session, queue, assemblies, request, by=by)

    def _add_now(
        self,
        session: WriteSession,
        queue: Queue,
        assemblies: Sequence[StoredAssembly],
        request: Mapping[str, Any],
        *,
        by: str,
    ) -> Job:
        self.shelf.refresh()
        tenant_id = assemblies[0].tenant_id
        view = (self.shelf.current.label, OverlaysRepository(session).in_force(tenant_id))
        return self._add(session, queue, tenant_id, tuple(_portions(assemblies)), request, view, by=by)

    def plan(self, session: Session, tenant_id: str, after: View) -> Plan:
        """Tell the assemblies that a release or overlay can touch from those whose reports hold."""
        touched: list[StoredAssembly] = []
        holding: dict[View, list[str]] = {}
        examined = 0
        for stored, rests_on in _behind(session, tenant_id, after):
            examined += 1
            if self._holds(stored, rests_on, after):
                holding.setdefault((stored.holds_under or "", stored.overlay_hash), []).append(stored.id)
            else:
                touched.append(stored)
        return Plan(tuple(_portions(touched)), holding, examined)

    def _holds(self, stored: StoredAssembly, rests_on: Sequence[str], after: View) -> bool:
        if stored.holds_under is None or stored.engine != ENGINE_VERSION or not rests_on:
            return False
        before = (stored.holds_under, stored.overlay_hash)
        if before == after:
            return True
        if list(rests_on) == [PINNED]:
            return stored.overlay_hash == after[1]
        see = self._see(stored.tenant_id)
        try:
            reach = self.reaches.between(see(*before), see(*after))
        except DanglingOverlayError:
            return False  # the job that judges it will say so
        return not reach.touching(rests_on)

    def _see(self, tenant_id: str) -> See:
        return lambda label, overlay_hash: self.views.of(label, tenant_id, overlay_hash)

    def _add(
        self,
        session: WriteSession,
        queue: Queue,
        tenant_id: str,
        portions: Sequence[Sequence[StoredAssembly]],
        request: Mapping[str, Any],
        view: View,
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
        jobs = JobsRepository(session)
        facts: dict[str, Any] = {"created_by": by, "tenant_id": tenant_id}
        facts |= {"release_label": view[0], "overlay_hash": view[1]}
        content = orjson.dumps(request)
        if dedupe_key is None:
            job, is_new = jobs.add(NAME, content, inputs, **facts), True
        else:
            job, is_new = jobs.add_once(NAME, content, inputs, dedupe_key=dedupe_key, **facts)
        if is_new:
            queue.enqueue(session, job)
        return job


def _behind(session: Session, tenant_id: str, view: View) -> Iterator[tuple[StoredAssembly, Sequence[str]]]:
    assemblies, last = AssembliesRepository(session), ""
    label, overlay_hash = view
    while page := assemblies.behind(tenant_id, label, ENGINE_VERSION, overlay_hash, after=last, limit=PAGE):
        yield from page
        last = page[-1][0].id


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
