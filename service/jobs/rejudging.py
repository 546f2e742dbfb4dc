"""Judging stored assemblies again: the new report, what it rests on, and what it changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import orjson

from service.assemblies import Assembly, Report, check
from service.assemblies.errors import AssemblyError
from service.assemblies.house_policy import HousePolicy
from service.assemblies.outcomes import Outcomes
from service.catalogue.catalogue import Catalogue
from service.catalogue.difference import Change
from service.curation.dependence import keys_of_answer, keys_of_part
from service.curation.reach import Reach
from service.jobs.errors import UnreadableAssemblyError
from service.jobs.verdicts import Happening, happenings, summary_of, withdrawn, without_report
from service.judgement import ENGINE_VERSION, Answer, Inquiry, JudgementError
from service.storage.engine import Database, WriteSession
from service.storage.errors import NotStoredError
from service.storage.repositories.assemblies import AssembliesRepository, JudgedVersion, StoredAssembly
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.releases import ReleasesRepository
from service.storage.shelf import Shelf

PINNED = "pinned"
"""The one key of an assembly whose programme is pinned to a release: no later one touches it."""


@dataclass(frozen=True, slots=True)
class Readable:
    """A stored assembly as it is judged: its parts and joints, the policy of its house."""

    assembly: Assembly
    house: HousePolicy


Read = Callable[[Mapping[str, Any], Catalogue], Readable]
"""Turns what a tenant has stored into an assembly; raises ``UnreadableAssemblyError`` where it cannot."""


@dataclass(frozen=True, slots=True)
class JudgedAssembly:
    """The outcome for one assembly, ready to be written."""

    stored: StoredAssembly
    judged: JudgedVersion
    found: tuple[Happening, ...]

    @property
    def line(self) -> dict[str, Any]:
        """What the job's result says of it."""
        return {
            "assembly": self.stored.name,
            "verdict": self.judged.summary["verdict"],
            "joints": self.judged.joints,
            "changed_joints": sum(
                len(each.detail["joints"]) + each.detail["more_joints"] for each in self.found
            ),
            "events": [each.kind.value for each in self.found],
        }

    def write(self, session: WriteSession) -> None:
        """Keep the report and tell what changed, unless the assembly was edited or judged meanwhile."""
        kept = AssembliesRepository(session).keep_report(
            self.stored.id, self.judged, held_under=self.stored.holds_under
        )
        if kept:
            tell(session, self.stored, self.found)


def tell(session: WriteSession, stored: StoredAssembly, found: Sequence[Happening]) -> None:
    """Write lines of the feed about an assembly, for its tenant alone."""
    changes = ChangesRepository(session)
    for each in found:
        changes.append(each.kind.value, stored.name, stored.tenant_id, **each.detail)


def remove(session: WriteSession, stored: StoredAssembly) -> None:
    """Take an assembly off the list; the line that says so stays in the feed."""
    assemblies = AssembliesRepository(session)
    about = {"version": stored.version, "reason": "the assembly was removed", "release": None}
    tell(session, stored, [withdrawn(assemblies.summary(stored.id), about)])
    assemblies.remove(stored.id)


@dataclass(slots=True)
class Rejudging:
    """Judges assemblies one after the other; what they have in common is judged once."""

    database: Database
    shelf: Shelf
    read: Read
    now: Catalogue
    keys: dict[Inquiry, frozenset[str]] = field(default_factory=dict)
    outcomes: dict[tuple[str, str], Outcomes] = field(default_factory=dict)
    reaches: dict[str, Reach] = field(default_factory=dict)

    def judge(self, assembly_id: str) -> JudgedAssembly | None:
        """Judge an assembly, ``None`` if it is gone, or known to hold under a later release."""
        with self.database.reading() as session:
            assemblies = AssembliesRepository(session)
            try:
                stored = assemblies.get(assembly_id)
            except NotStoredError:
                return None
            if self._is_older(stored.holds_under, ReleasesRepository(session)):
                return None
            body, before = assemblies.body(assembly_id), assemblies.summary(assembly_id)
        about = {"version": stored.version, **self._occasion(stored)}
        try:
            report, rests_on = self._report(body)
        except (UnreadableAssemblyError, AssemblyError, JudgementError) as error:
            return self._unreadable(stored, before, str(error), about)
        summary = summary_of(report)
        inquiries = {item.joint.id: [case.inquiry for case, _ in item.cases] for item in report.joints}
        reach = self._reach(stored)

        def because(joint: str) -> Sequence[Change]:
            if reach is None:
                return ()
            return reach.touching(set().union(*(self.keys[each] for each in inquiries[joint])))

        judged = JudgedVersion(
            version=stored.version,
            engine=ENGINE_VERSION,
            release_label=self.now.label,
            joints=len(report.joints),
            rests_on=rests_on,
            summary=summary,
            report=report.json,
        )
        return JudgedAssembly(stored, judged, tuple(happenings(before, summary, because, about)))

    def _is_older(self, held_under: str | None, releases: ReleasesRepository) -> bool:
        """Whether this release came before the one under which a report is known to hold."""
        held = releases.find(held_under) if held_under else None
        now = releases.find(self.now.label)
        return held is not None and now is not None and now.published_at < held.published_at

    def _report(self, body: Mapping[str, Any]) -> tuple[Report, list[str]]:
        readable = self.read(body, self.now)
        pinned = readable.assembly.programme.release
        if pinned and pinned != self.now.label:
            catalogue = self.shelf.as_of(pinned)
            readable = self.read(body, catalogue)
            return check(readable.assembly, catalogue, readable.house.bands), [PINNED]
        outcomes = self._outcomes(readable.house)
        report = check(readable.assembly, self.now, readable.house.bands, outcomes=outcomes)
        return report, self._rests_on(report)

    def _outcomes(self, house: HousePolicy) -> Outcomes:
        key = (self.now.label, house.bands.digest())
        if key not in self.outcomes:
            self.outcomes[key] = Outcomes(self.now, house.bands, self._hear)
        return self.outcomes[key]

    def _hear(self, inquiry: Inquiry, given: Answer) -> None:
        self.keys[inquiry] = frozenset(keys_of_answer(given))

    def _rests_on(self, report: Report) -> list[str]:
        found: set[str] = set()
        for item in report.joints:
            for case, _ in item.cases:
                found |= self.keys[case.inquiry]
        for part in report.assembly.parts.values():
            found |= keys_of_part(part, report.surfaces.surface(part), self.now)
        return sorted(found)

    def _occasion(self, stored: StoredAssembly) -> dict[str, Any]:
        """Why it is judged, for the events."""
        if stored.release_label is None:
            reason = "the assembly was stored"
        elif stored.holds_under is None:
            reason = "the assembly was edited"
        elif stored.engine != ENGINE_VERSION:
            reason = f"engine {ENGINE_VERSION} judges otherwise than {stored.engine}"
        else:
            reason = "the knowledge base has changed"
        return {"reason": reason, "release": {"before": stored.release_label, "after": self.now.label}}

    def _reach(self, stored: StoredAssembly) -> Reach | None:
        before = stored.holds_under
        if before is None or before == self.now.label:
            return None
        if before not in self.reaches:
            self.reaches[before] = Reach.of(self.shelf.as_of(before), self.now)
        return self.reaches[before]

    def _unreadable(
        self, stored: StoredAssembly, before: Mapping[str, Any] | None, why: str, about: Mapping[str, Any]
    ) -> JudgedAssembly:
        summary = without_report(why)
        judged = JudgedVersion(
            version=stored.version,
            engine=ENGINE_VERSION,
            release_label=self.now.label,
            joints=0,
            rests_on=(),
            summary=summary,
            report=orjson.dumps(summary),
        )
        told = () if before == summary else (withdrawn(before, {**about, "reason": why}),)
        return JudgedAssembly(stored, judged, told)
