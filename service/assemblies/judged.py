"""Joints with their outcomes: every case of each, the worst of them deciding."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from service.assemblies.assembly import Assembly
from service.assemblies.cases import Case, cases_of
from service.assemblies.joints import Joint
from service.assemblies.outcomes import URGENCY, Outcome, Outcomes, Refusal
from service.judgement import Inquiry, Severity, Verdict
from service.judgement.findings import Anode
from service.judgement.severity import worst as worst_severity

BLOCK_JOINTS = 256
"""Joints judged between two reports of progress; bounds the memory of a large assembly."""


@dataclass(frozen=True, slots=True)
class JudgedJoint:
    """A joint with the outcome of each of its cases, and what kept a case from being judged.

    The joint is as bad as its worst case. Without any outcome it is undetermined.
    """

    joint: Joint
    cases: tuple[tuple[Case, Outcome], ...]
    refusals: tuple[Refusal, ...] = ()

    @property
    def worst(self) -> tuple[Case, Outcome] | None:
        """The case that decides, ``None`` where nothing could be judged."""
        return min(self.cases, key=lambda entry: entry[1].urgency, default=None)

    @property
    def verdict(self) -> Verdict:
        """Verdict of the worst case; a case that was refused leaves at best an open question."""
        verdicts = [outcome.verdict for _, outcome in self.cases]
        if self.refusals or not verdicts:
            verdicts.append(Verdict.UNDETERMINED)
        return min(verdicts, key=URGENCY.index)

    @property
    def severity(self) -> Severity | None:
        """Severity of the worst case."""
        return self.worst[1].severity if self.worst else None

    @property
    def urgency(self) -> tuple[int, int, float]:
        """Sort key, the worst first."""
        own = self.worst[1].urgency if self.worst else (0, -len(Severity), 0.0)
        return (URGENCY.index(self.verdict), *own[1:])

    @property
    def depends_on_case(self) -> bool:
        """Whether the cases have different verdicts: the unknown area or the place decides."""
        return len({outcome.verdict for _, outcome in self.cases}) > 1

    def kinetic_severity_of(self, part: str) -> Severity | None:
        """Worst computed severity of the attack on one of the parts, ``None`` where nothing was computed."""
        sides = {
            side
            for side, end in ((Anode.FIRST, self.joint.first), (Anode.SECOND, self.joint.second))
            if end == part
        }
        found = [
            outcome.kinetic_severity if outcome.kinetic_anode in sides else Severity.NONE
            for _, outcome in self.cases
            if outcome.kinetic_severity is not None
        ]
        return worst_severity(found) if found else None


def judge_joints(
    assembly: Assembly,
    outcomes: Outcomes,
    joints: Sequence[Joint] | None = None,
    advance: Callable[[int], object] = lambda _: None,
) -> list[JudgedJoint]:
    """Judge joints in their order.

    Parameters
    ----------
    assembly : Assembly
    outcomes : Outcomes
        Judges, and remembers what it judged.
    joints : sequence of Joint, optional
        All joints of the assembly unless given.
    advance : callable
        Hears after each block how many more are done.
    """
    wanted = assembly.joints if joints is None else joints
    judged: list[JudgedJoint] = []
    for start in range(0, len(wanted), BLOCK_JOINTS):
        block = wanted[start : start + BLOCK_JOINTS]
        cases = [_cases(joint, assembly) for joint in block]
        found = iter(
            outcomes.of([case.inquiry for each in cases if isinstance(each, tuple) for case in each])
        )
        judged += [
            JudgedJoint(joint, (), (each,))
            if isinstance(each, Refusal)
            else _judged(joint, [(case, next(found)) for case in each])
            for joint, each in zip(block, cases, strict=True)
        ]
        advance(len(block))
    return judged


def inquiries_of(assembly: Assembly) -> list[Inquiry]:
    """Questions of all joints of an assembly, in their order; joints that cannot be asked about have none."""
    cases = (_cases(joint, assembly) for joint in assembly.joints)
    return [case.inquiry for each in cases if isinstance(each, tuple) for case in each]


def _cases(joint: Joint, assembly: Assembly) -> tuple[Case, ...] | Refusal:
    for side, end in (("first", joint.first), ("second", joint.second)):
        if not assembly.parts[end].names_surface:
            return Refusal(f"/{side}", f"part {end!r} names no surface", ())
    return cases_of(joint, assembly) or Refusal("/environment", "nothing says where the joint lives", ())


def _judged(joint: Joint, found: list[tuple[Case, Outcome | Refusal]]) -> JudgedJoint:
    cases = tuple((case, outcome) for case, outcome in found if isinstance(outcome, Outcome))
    refusals = dict.fromkeys(outcome for _, outcome in found if isinstance(outcome, Refusal))
    return JudgedJoint(joint, cases, tuple(refusals))


def by_part(judged: Sequence[JudgedJoint]) -> Mapping[str, list[JudgedJoint]]:
    """Judged joints of every part, those included that it shares with others alike."""
    found: dict[str, list[JudgedJoint]] = {}
    for item in judged:
        for end in dict.fromkeys(end for pair in item.joint.pairs for end in pair):
            found.setdefault(end, []).append(item)
    return found
