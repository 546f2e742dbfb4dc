"""Substitutes: what changes, joint by joint, when one part of an assembly gives way to another.

The joints of the part are judged before and after, by the same release and bands; its networks too.
A change is better, the same, worse or undetermined, with reasons; a readable rule makes accept,
review or reject of all reasons together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.assemblies.assembly import Assembly
from service.assemblies.errors import InvalidAssemblyError
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY, HousePolicy
from service.assemblies.joints import Joint
from service.assemblies.judged import JudgedJoint
from service.assemblies.outcomes import Outcomes
from service.assemblies.parts import Part
from service.assemblies.policy_checks import joint_violations, part_violations
from service.assemblies.report import Report, check
from service.assemblies.substitution_rules import Change, Reason, compare, decide
from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.judgement import Verdict


@dataclass(frozen=True, slots=True)
class Substitute:
    """One offered substitute: a part that takes the place of another one."""

    ref: str
    part: Part


@dataclass(frozen=True, slots=True)
class JointChange:
    """One joint before and after."""

    before: JudgedJoint
    after: JudgedJoint
    change: Change
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class SubstitutionResult:
    """What one substitute changes. ``decided_by`` is the reason on which the decision rests."""

    substitute: Substitute
    report: Report
    joints: tuple[JointChange, ...]
    reasons: tuple[Reason, ...]
    decision: str
    decided_by: Reason | None

    @property
    def change(self) -> Change:
        """The worst change of any joint."""
        return max((item.change for item in self.joints), key=tuple(Change).index, default=Change.SAME)


def check_substitutes(
    assembly: Assembly,
    part: str,
    offered: Sequence[Substitute],
    catalogue: Catalogue,
    house: HousePolicy = DEFAULT_HOUSE_POLICY,
) -> tuple[Report, tuple[SubstitutionResult, ...]]:
    """Judge what substitutes change.

    Parameters
    ----------
    assembly : Assembly
        As it is; without joints its contacts are assumed.
    part : str
        Identifier or number of the part that is to be replaced, at all places that bear the number.
    offered : sequence of Substitute
    catalogue : Catalogue
    house : HousePolicy
        Bands, bans and the rules of acceptance.

    Returns
    -------
    Report
        The assembly as it is.
    tuple of SubstitutionResult
        One for each substitute, in order.

    Raises
    ------
    InvalidAssemblyError
        If no part bears the name, or none is built into the unit that the programme asks for.
    """
    places = [name for name, each in assembly.parts.items() if part in {name, each.number}]
    if not places:
        raise InvalidAssemblyError("/part", f"no part has the identifier or number {part!r}")
    outcomes = Outcomes(catalogue, house.bands)
    found = check(assembly, catalogue, house.bands, outcomes=outcomes)
    places = [name for name in places if name in found.assembly.parts]
    if not places:
        at = assembly.programme.effective_at
        raise InvalidAssemblyError("/part", f"part {part!r} is not built into {at!r}")
    before = replace(
        check(_apart(found.assembly, frozenset(places)), catalogue, house.bands, outcomes=outcomes),
        contacts=found.contacts,
    )
    return before, tuple(_result(before, places, substitute, outcomes, house) for substitute in offered)


def _apart(assembly: Assembly, places: frozenset[str]) -> Assembly:
    """Give each pair with a replaced part a joint of its own, so that it can change without its likes."""
    joints: list[Joint] = []
    for joint in assembly.joints:
        moved = [pair for pair in joint.alike if places & set(pair)]
        joints.append(replace(joint, alike=tuple(pair for pair in joint.alike if pair not in moved)))
        joints += [
            replace(joint, id=f"{joint.id} ({first} / {second})", first=first, second=second, alike=())
            for first, second in moved
        ]
    freed = (each for joint in joints for each in _freed(joint, places))
    return replace(assembly, joints=tuple(freed))


def _freed(joint: Joint, places: frozenset[str]) -> list[Joint]:
    """Take the likes of a joint off it where its own pair holds a replaced part."""
    if not (joint.alike and places & {joint.first, joint.second}):
        return [joint]
    (first, second), *others = joint.alike
    rest = replace(joint, id=f"{joint.id} (others)", first=first, second=second, alike=tuple(others))
    return [replace(joint, alike=()), rest]


def _result(
    before: Report,
    places: Sequence[str],
    substitute: Substitute,
    outcomes: Outcomes,
    house: HousePolicy,
) -> SubstitutionResult:
    """Put the substitute in and judge again; joints stay those of before, assumed ones included."""
    parts = dict(before.assembly.parts)
    for name in places:
        parts[name] = before.surfaces.named(_in_place(substitute.part, parts[name]))
    assembly = replace(before.assembly, parts=parts)
    after = check(assembly, outcomes.catalogue, house.bands, outcomes=outcomes)
    known = {item.joint.id: item for item in before.joints}
    touched = [item for item in after.joints if {item.joint.first, item.joint.second} & set(places)]
    joints = tuple(_change(known[item.joint.id], item, before, after, house) for item in touched)
    of_joints = (reason for item in joints for reason in item.reasons)
    reasons = (*_reasons_of_part(before, after, places, house), *of_joints)
    if not joints:
        reasons = (*reasons, Reason("no-joints", "the part is in no joint, so nothing could be compared"))
    decision, decided_by = decide(reasons, house.acceptance)
    return SubstitutionResult(substitute, after, joints, reasons, decision, decided_by)


def _in_place(offered: Part, replaced: Part) -> Part:
    """The offered part at the place of the replaced one: its tree, zone, net and number of pieces."""
    return replace(
        offered,
        id=replaced.id,
        number=offered.number or replaced.number,
        description=offered.description or replaced.description,
        parent=replaced.parent,
        quantity=offered.quantity if offered.quantity is not None else replaced.quantity,
        wetted_area_m2=offered.wetted_area_m2 or replaced.wetted_area_m2,
        net=offered.net or replaced.net,
        is_isolated=offered.is_isolated or replaced.is_isolated,
        zone=offered.zone or replaced.zone,
        effectivity=offered.effectivity or replaced.effectivity,
    )


def _change(
    before: JudgedJoint, after: JudgedJoint, old: Report, new: Report, house: HousePolicy
) -> JointChange:
    change, reasons = compare(before, after)
    is_open = after.verdict is Verdict.UNDETERMINED  # a reason for review, and no broken limit yet
    known = {violation.rule for violation in joint_violations(before, old.assembly, old.surfaces, house)}
    broken = tuple(
        Reason(f"{violation.kind}-violated", f"{violation.statement} ({violation.detail})", after.joint.id)
        for violation in joint_violations(after, new.assembly, new.surfaces, house)
        if violation.rule not in known and not (violation.kind == "limit" and is_open)
    )
    return JointChange(before, after, change, (*reasons, *broken))


def _reasons_of_part(
    before: Report, after: Report, places: Sequence[str], house: HousePolicy
) -> tuple[Reason, ...]:
    """What is to say about the substitute itself: how it was read, and whether it is banned."""
    part = after.assembly.parts[places[0]]
    reading = after.surfaces.reading(part)
    reasons = []
    if reading is not None and reading.match in {Match.FUZZY, Match.AMBIGUOUS}:
        detail = reading.question or f"{reading.text.strip()!r} was read by likeness"
        reasons.append(Reason("read-loosely", detail))
    if reading is None or reading.match is Match.UNKNOWN:
        reasons.append(Reason("undetermined", "the surface of the substitute is not understood"))
    reasons += [
        Reason("banned", f"{violation.statement} ({violation.detail})")
        for violation in part_violations(part, after.assembly, after.surfaces, house)
    ]
    if before.contacts is not None:
        reasons.append(Reason("assumed-contacts", "the joints were assumed, because the assembly names none"))
    return (*reasons, *_from_networks(before, after))


def _from_networks(before: Report, after: Report) -> tuple[Reason, ...]:
    """Parts that their network treats worse than before, wherever they are."""
    known = _severities(before)
    return tuple(
        Reason("worse", f"{name} is attacked worse in its network: {severity.value}")
        for name, severity in _severities(after).items()
        if name in known and severity.rank > known[name].rank
    )


def _severities(report: Report) -> dict[str, Any]:
    return {
        each.finding.part: each.finding.severity
        for network in report.networks
        for each in network.parts
        if not each.is_sacrificial
    }


def document_of_substitution(
    before: Report, results: Sequence[SubstitutionResult], part: str, house: HousePolicy
) -> Mapping[str, Any]:
    """The comparison as plain JSON values, with its hash."""
    from service.assemblies.substitution_document import substitution_document

    return substitution_document(before, results, part, house)
