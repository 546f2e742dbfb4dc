"""Judging stored assemblies again: the new report, what it rests on, and what it changes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import orjson

from service.assemblies import Assembly, Report, check
from service.assemblies.errors import AssemblyError
from service.assemblies.house_policy import HousePolicy
from service.assemblies.outcomes import Outcomes
from service.assemblies.report import questions_of
from service.catalogue.catalogue import Catalogue
from service.catalogue.difference import Change
from service.curation.dependence import PINNED, keys_of_answer, keys_of_part
from service.curation.reach import Reach
from service.curation.reaches import Reaches
from service.jobs.errors import UnreadableAssemblyError
from service.jobs.verdicts import Because, Happening, happenings, summary_of, withdrawn, without_report
from service.judgement import ENGINE_VERSION, Answer, Inquiry, JudgementError
from service.storage.engine import Database, WriteSession
from service.storage.errors import NotStoredError
from service.storage.repositories.assemblies import AssembliesRepository, JudgedVersion, StoredAssembly
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.policies import PoliciesRepository
from service.storage.repositories.releases import ReleasesRepository


@dataclass(frozen=True, slots=True)
class Readable:
    """A stored assembly as it is judged: its parts and joints, the policy of its house.

    ``policy`` is name@version of a stored policy; ``follows_policy`` if a later version takes its place.
    """

    assembly: Assembly
    house: HousePolicy
    policy: str | None = None
    follows_policy: bool = False


Read = Callable[[str, Mapping[str, Any], Catalogue], Readable]
"""Turns what a tenant has stored into an assembly; raises ``UnreadableAssemblyError`` where it cannot."""


See = Callable[[str, str], Catalogue]
"""Gives a release with an overlay of the tenant on top, by label and hash."""


@dataclass(frozen=True, slots=True)
class JudgedAssembly:
    """The outcome for one assembly, ready to be written."""

    stored: StoredAssembly
    judged: JudgedVersion
    found: tuple[Happening, ...]
    followed_policy: str = ""

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
            self.stored.id,
            self.judged,
            held_under=self.stored.holds_under,
            held_with=self.stored.overlay_hash,
        )
        if kept:
            tell(session, self.stored, self.found)
            self._look_at_policy(session)

    def _look_at_policy(self, session: WriteSession) -> None:
        """Leave the report in doubt if its policy was edited meanwhile: the job of that edit comes to it."""
        name = self.followed_policy.partition("@")[0]
        newest = PoliciesRepository(session).find(self.stored.tenant_id, name) if name else None
        if newest is not None and newest.reference != self.followed_policy:
            AssembliesRepository(session).say_doubtful([self.stored.id])


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


@dataclass(frozen=True, slots=True)
class _Opened:
    """A stored assembly with what was said of it, read for judging; or why it cannot be read."""

    stored: StoredAssembly
    before: Mapping[str, Any] | None
    readable: Readable | None
    why: str = ""


@dataclass(slots=True)
class Rejudging:
    """Judges assemblies under one release; what they have in common is judged once."""

    database: Database
    see: See
    read: Read
    now: Catalogue
    keys: dict[Inquiry, frozenset[str]] = field(default_factory=dict)
    outcomes: dict[str, Outcomes] = field(default_factory=dict)
    reaches: Reaches = field(default_factory=Reaches)

    def judge_all(self, assembly_ids: Iterable[str]) -> list[JudgedAssembly]:
        """Judge assemblies, all their joints together; those that are gone or hold already are left out."""
        opened = [found for found in map(self._open, assembly_ids) if found is not None]
        self._ask_together(found.readable for found in opened if found.readable is not None)
        return [self._judge(found) for found in opened]

    def _open(self, assembly_id: str) -> _Opened | None:
        """Read an assembly, ``None`` if it is gone, or known to hold under a later release."""
        with self.database.reading() as session:
            assemblies = AssembliesRepository(session)
            try:
                stored = assemblies.get(assembly_id)
            except NotStoredError:
                return None
            if self._is_older(stored.holds_under, ReleasesRepository(session)):
                return None
            body, before = assemblies.body(assembly_id), assemblies.summary(assembly_id)
        try:
            return _Opened(stored, before, self._readable(stored.tenant_id, body))
        except UnreadableAssemblyError as error:
            return _Opened(stored, before, None, str(error))

    def _readable(self, tenant_id: str, body: Mapping[str, Any]) -> Readable:
        """Read a body by the release of the job, or by that to which its programme is pinned."""
        readable = self.read(tenant_id, body, self.now)
        pinned = readable.assembly.programme.release
        if not pinned or pinned == self.now.label:
            return readable
        return self.read(tenant_id, body, self.see(pinned, self.now.overlay_hash))

    def _ask_together(self, readables: Iterable[Readable]) -> None:
        """Judge the questions of many assemblies at once: arrays pay for many, not for few."""
        asked: dict[str, list[Inquiry]] = defaultdict(list)
        for readable in readables:
            try:
                questions = questions_of(readable.assembly, self.now)
            except AssemblyError:
                continue  # its own check will say why
            asked[readable.house.bands.digest()] += questions
            self._outcomes(readable.house)
        for policy, questions in asked.items():
            self.outcomes[policy].of(questions)

    def _judge(self, opened: _Opened) -> JudgedAssembly:
        stored, before, readable = opened.stored, opened.before, opened.readable
        about = {"version": stored.version, **self._occasion(stored, readable)}
        if readable is None:
            return self._unreadable(stored, before, opened.why, about)
        try:
            report, rests_on = self._report(readable)
        except (AssemblyError, JudgementError) as error:
            return self._unreadable(stored, before, str(error), about)
        summary = summary_of(report) | {"stored_policy": readable.policy}
        because = self._because(stored, report)
        judged = JudgedVersion(
            version=stored.version,
            engine=ENGINE_VERSION,
            release_label=self.now.label,
            overlay_hash=self.now.overlay_hash,
            joints=len(report.joints),
            rests_on=rests_on,
            summary=summary,
            report=report.json,
        )
        told = tuple(happenings(before, summary, because, about))
        followed = (readable.policy or "") if readable.follows_policy else ""
        return JudgedAssembly(stored, judged, told, followed)

    def _because(self, stored: StoredAssembly, report: Report) -> Because:
        """Find the changes that can touch a joint."""
        reach = self._reach(stored)
        inquiries = {item.joint.id: [case.inquiry for case, _ in item.cases] for item in report.joints}

        def find(joint: str) -> Sequence[Change]:
            if reach is None:
                return ()
            return reach.touching(set().union(*(self.keys[each] for each in inquiries[joint])))

        return find

    def _is_older(self, held_under: str | None, releases: ReleasesRepository) -> bool:
        """Whether this release came before the one under which a report is known to hold."""
        held = releases.find(held_under) if held_under else None
        now = releases.find(self.now.label)
        return held is not None and now is not None and now.published_at < held.published_at

    def _report(self, readable: Readable) -> tuple[Report, list[str]]:
        pinned, bands = readable.assembly.programme.release, readable.house.bands
        if pinned and pinned != self.now.label:
            return check(readable.assembly, self.see(pinned, self.now.overlay_hash), bands), [PINNED]
        report = check(readable.assembly, self.now, bands, outcomes=self._outcomes(readable.house))
        return report, self._rests_on(report)

    def _outcomes(self, house: HousePolicy) -> Outcomes:
        policy = house.bands.digest()
        if policy not in self.outcomes:
            self.outcomes[policy] = Outcomes(self.now, house.bands, self._hear)
        return self.outcomes[policy]

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

    def _occasion(self, stored: StoredAssembly, readable: Readable | None) -> dict[str, Any]:
        """Why it is judged, for the events."""
        if stored.release_label is None:
            reason = "the assembly was stored"
        elif stored.holds_under is None:
            follows = readable is not None and readable.follows_policy
            reason = "the assembly or its policy was edited" if follows else "the assembly was edited"
        elif stored.engine != ENGINE_VERSION:
            reason = f"engine {ENGINE_VERSION} judges otherwise than {stored.engine}"
        elif stored.holds_under == self.now.label:
            reason = "the overlay of the tenant has changed"
        else:
            reason = "the knowledge base has changed"
        return {"reason": reason, "release": {"before": stored.release_label, "after": self.now.label}}

    def _reach(self, stored: StoredAssembly) -> Reach | None:
        before = stored.holds_under
        if before is None or (before, stored.overlay_hash) == (self.now.label, self.now.overlay_hash):
            return None
        return self.reaches.between(self.see(before, stored.overlay_hash), self.now)

    def _unreadable(
        self, stored: StoredAssembly, before: Mapping[str, Any] | None, why: str, about: Mapping[str, Any]
    ) -> JudgedAssembly:
        summary = without_report(why)
        judged = JudgedVersion(
            version=stored.version,
            engine=ENGINE_VERSION,
            release_label=self.now.label,
            overlay_hash=self.now.overlay_hash,
            joints=0,
            rests_on=(),
            summary=summary,
            report=orjson.dumps(summary),
        )
        told = () if before == summary else (withdrawn(before, {**about, "reason": why}),)
        return JudgedAssembly(stored, judged, told)
