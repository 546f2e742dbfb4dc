"""The joints of an assembly, judged and ordered: what needs a decision first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from service.assemblies.assembly import Assembly
from service.assemblies.joints import Joint
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Answer, Policy, Severity, Verdict, answer

BLOCK_JOINTS = 64
"""Joints judged between two reports of progress."""

_URGENCY = (Verdict.UNSUITABLE, Verdict.UNDETERMINED, Verdict.CONDITIONAL, Verdict.SUITABLE)


@dataclass(frozen=True, slots=True)
class JudgedJoint:
    """A joint with its answer."""

    joint: Joint
    answer: Answer

    @property
    def severity(self) -> Severity | None:
        """Severity of the leading judgement, ``None`` where a surface is not known."""
        judgement = self.answer.judgement
        return judgement.outcome.severity if judgement else None

    @property
    def urgency(self) -> tuple[int, int]:
        """Sort key: unsuitable first, then what is not known, then by severity."""
        severity = self.severity
        return _URGENCY.index(self.answer.verdict), -(severity.rank if severity else 0)


def judge_joints(
    assembly: Assembly,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
    advance: Callable[[int], object] = lambda _: None,
) -> list[JudgedJoint]:
    """Judge every joint and return them worst first; ``advance`` hears how many more are done.

    Raises
    ------
    InvalidInquiryError
        If a joint names an environment or compound that the catalogue does not have.
    """
    judged = []
    for start in range(0, len(assembly.joints), BLOCK_JOINTS):
        block = assembly.joints[start : start + BLOCK_JOINTS]
        answers = answer([assembly.inquiry(joint) for joint in block], catalogue, policy)
        judged += [JudgedJoint(joint, given) for joint, given in zip(block, answers, strict=True)]
        advance(len(block))
    return sorted(judged, key=lambda item: item.urgency)
