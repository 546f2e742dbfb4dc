"""The report on an assembly: joints and parts worst first, what was not understood, totals and a hash."""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from service.assemblies.assembly import Assembly
from service.assemblies.assumed_contacts import AssumedContacts, assume_contacts
from service.assemblies.effectivity import is_effective
from service.assemblies.errors import InvalidAssemblyError, ReleaseMismatchError
from service.assemblies.judged import JudgedJoint, inquiries_of, judge_joints
from service.assemblies.networks import AssemblyNetwork, networks_of
from service.assemblies.outcomes import Outcomes, canonical, object_of
from service.assemblies.surfaces import Surfaces
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Inquiry, Policy, Severity, Verdict


@dataclass(frozen=True)
class Report:
    """A judged assembly, with all that was assumed about it. ``joints`` are worst first."""

    assembly: Assembly
    catalogue: Catalogue
    policy: Policy
    surfaces: Surfaces
    joints: tuple[JudgedJoint, ...]
    networks: tuple[AssemblyNetwork, ...]
    contacts: AssumedContacts | None
    never_together: tuple[str, ...]

    @cached_property
    def json(self) -> bytes:
        """The report as canonical JSON, its own hash in it.

        Written piece by piece: as values, a large report takes six times the memory.
        """
        from service.assemblies.report_document import sections_of

        sections = sections_of(self)
        digest = hashlib.sha256()
        for piece in object_of(sections):
            digest.update(piece)
        return b"".join(object_of({**sections, "sha256": [canonical(digest.hexdigest())]}))

    @property
    def document(self) -> dict[str, Any]:
        """The report as plain JSON values, read from its JSON."""
        document: dict[str, Any] = json.loads(self.json)
        return document

    @cached_property
    def sha256(self) -> str:
        """Hash of the canonical JSON without the hash."""
        return str(self.document["sha256"])

    @property
    def totals(self) -> dict[str, Any]:
        """How many joints and parts came out how."""
        verdicts = Counter(item.verdict for item in self.joints)
        severities = Counter(item.severity for item in self.joints)
        return {
            "joints": len(self.joints),
            "pairs": sum(len(item.joint.pairs) for item in self.joints),
            "assumed_joints": sum(item.joint.is_assumed for item in self.joints),
            "by_verdict": {verdict.value: verdicts[verdict] for verdict in Verdict},
            "by_severity": {
                **{severity.value: severities[severity] for severity in Severity},
                "unknown": severities[None],
            },
            "parts": len(self.assembly.parts),
            "parts_with_surface": sum(part.names_surface for part in self.assembly.parts.values()),
        }


def check(
    assembly: Assembly,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
    advance: Callable[[int], object] = lambda _: None,
    outcomes: Outcomes | None = None,
) -> Report:
    """Judge an assembly.

    Parameters
    ----------
    assembly : Assembly
        Where it has no joints, contacts are assumed (``assumed_contacts``).
    catalogue : Catalogue
        The release to judge by.
    policy : Policy
        Bands, defaults and house limits.
    advance : callable
        Hears how many more joints are done.
    outcomes : Outcomes, optional
        What the same release and policy have judged before; it is used and added to.

    Returns
    -------
    Report
        The same assembly, release and policy give the same bytes.

    Raises
    ------
    ReleaseMismatchError
        If the programme is pinned to another release.
    InvalidAssemblyError
        If a joint names a part that does not exist.
    """
    ready = _prepared(assembly, catalogue)
    judged = judge_joints(ready.assembly, outcomes or Outcomes(catalogue, policy), advance=advance)
    return Report(
        assembly=ready.assembly,
        catalogue=catalogue,
        policy=policy,
        surfaces=ready.surfaces,
        joints=tuple(sorted(judged, key=lambda item: item.urgency)),
        networks=networks_of(ready.assembly, judged, ready.surfaces, policy),
        contacts=ready.contacts,
        never_together=ready.never_together,
    )


def questions_of(assembly: Assembly, catalogue: Catalogue) -> list[Inquiry]:
    """Questions that a check of an assembly asks, so that many assemblies can be judged together.

    Raises
    ------
    ReleaseMismatchError
        If the programme is pinned to another release.
    InvalidAssemblyError
        If a joint names a part that does not exist.
    """
    return inquiries_of(_prepared(assembly, catalogue).assembly)


@dataclass(frozen=True, slots=True)
class _Prepared:
    """An assembly with its surfaces named and its contacts assumed."""

    assembly: Assembly
    surfaces: Surfaces
    contacts: AssumedContacts | None
    never_together: tuple[str, ...]


def _prepared(assembly: Assembly, catalogue: Catalogue) -> _Prepared:
    pinned = assembly.programme.release
    if pinned and pinned != catalogue.label:
        raise ReleaseMismatchError(assembly.programme.name, pinned, catalogue.label)
    _check_ends(assembly)
    surfaces = Surfaces(catalogue)
    chosen, never_together = effective(assembly)
    named = replace(chosen, parts={name: surfaces.named(part) for name, part in chosen.parts.items()})
    contacts = None
    if not assembly.joints:
        contacts = assume_contacts(named, surfaces)
        named = replace(named, joints=contacts.joints)
    return _Prepared(named, surfaces, contacts, never_together)


def effective(assembly: Assembly) -> tuple[Assembly, tuple[str, ...]]:
    """Keep the parts of the programme's unit or date, and joints whose parts ever meet.

    Returns
    -------
    Assembly
        Without the parts that are not built in.
    tuple of str
        Joints that were left out because their parts never meet.
    """
    at = assembly.programme.effective_at
    parts = {
        name: part for name, part in assembly.parts.items() if not at or is_effective(part.effectivity, at)
    }
    held = [joint for joint in assembly.joints if joint.first in parts and joint.second in parts]
    apart = tuple(joint.id for joint in held if not assembly.are_together(joint))
    joints = tuple(joint for joint in held if assembly.are_together(joint))
    return replace(assembly, parts=parts, joints=joints), apart


def _check_ends(assembly: Assembly) -> None:
    for place, joint in enumerate(assembly.joints):
        for side in ("first", "second"):
            if getattr(joint, side) not in assembly.parts:
                raise InvalidAssemblyError(
                    f"/joints/{place}/{side}", f"no part has the identifier {getattr(joint, side)!r}"
                )
