"""How the findings of all witnesses become one verdict. This file is the whole rule.

1. A mandatory rule that refuses decides: codes outvote kinetics.
2. Where a reversal rule applies, its polarity replaces the computed one, and the documented
   outcome replaces the computed severity.
3. Otherwise the computed severity (kinetics) and documented experience are weighed: the worse
   decides when they are a step apart, the better graded when they are further apart. Milder
   experience that was read decides a step apart too where the figures are worse graded and even
   the high end of the computed loss stays within the allowance.
   Where neither speaks, screening decides; where none speaks, the verdict is undetermined.
4. Damage to a cathode, local attack in a crevice and hazards to a declared function can make
   the outcome worse, never better.
5. ``suitable`` needs a deciding figure better than memory, or two independent witnesses that
   agree; otherwise the verdict is conditional on confirmation.
6. Where the computed loss exceeds the allowance and another witness makes the couple ``suitable``,
   it is conditional on settling which of them is right; confidence is a level lower where
   computation or experience is more than a step away from the outcome.
7. A conditional verdict always says what it hangs on.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.severity import VERDICT_OF, Severity, Verdict

CONFIRM = Condition(
    code="confirm-evidence",
    action="Confirm by test or by a read source: the deciding figures are remembered or class values.",
    who="materials engineer",
    how_verified="exposure or electrochemical test report, or a cited measurement entered and reviewed",
)

SETTLE = Condition(
    code="settle-contradiction",
    action="Computation expects more loss than the joint can stand, practice little: test, or inspect early.",
    who="materials engineer",
    how_verified="exposure test, or loss beside the joint measured within the first years",
)
"""What a suitable couple hangs on whose computed loss exceeds its allowance."""

PROTECT = Condition(
    code="protect-or-inspect",
    action="Moderate attack is expected: seal or coat the joint, or inspect it until its loss is known.",
    who="designer",
    how_verified="protection or interval of inspection on the drawing",
)
"""What a conditional verdict hangs on where no witness says more."""

_AGGRAVATING = (Witness.CATHODE_DAMAGE, Witness.CREVICE, Witness.HAZARDS)
_ALWAYS_BINDING = (Witness.KINETICS, Witness.FUNCTION, Witness.SELF_CORROSION)
"""Witnesses whose conditions hold whatever the severity; a rule's advice binds from moderate on."""

_READ = "B"
"""Weakest grade of a statement that was read in its source or a reproduction."""

_WEIGHED = (Witness.KINETICS, Witness.EXPERIENCE)
_INDEPENDENT = (*_WEIGHED, Witness.SCREENING)


@dataclass(frozen=True, slots=True)
class Outcome:
    """The combined verdict with the witness that decided it and those that disagree."""

    verdict: Verdict
    severity: Severity | None
    anode: Anode
    is_polarity_in_doubt: bool
    deciding: Witness | None
    dissenting: tuple[Witness, ...]
    conditions: tuple[Condition, ...]
    confidence: Confidence = Confidence.LOW


UNDETERMINED = Outcome(
    verdict=Verdict.UNDETERMINED,
    severity=None,
    anode=Anode.NONE,
    is_polarity_in_doubt=True,
    deciding=None,
    dissenting=(),
    conditions=(),
)


def combine(findings: Mapping[Witness, Finding]) -> Outcome:
    """Combine the findings of one couple; the rule is stated at the top of this file.

    Parameters
    ----------
    findings : mapping of Witness to Finding
        Those that abstain are not heard.

    Returns
    -------
    Outcome
    """
    speaking = {witness: finding for witness, finding in findings.items() if finding.applies}
    mandatory = speaking.get(Witness.MANDATORY)
    if mandatory and mandatory.refuses:
        return _outcome(speaking, Witness.MANDATORY, Severity.SEVERE, Verdict.UNSUITABLE)
    deciding = _deciding(speaking)
    if deciding is None:
        return UNDETERMINED
    severity = speaking[deciding].severity or Severity.NONE
    for witness in _AGGRAVATING:
        finding = speaking.get(witness)
        if finding and finding.severity and finding.severity.rank > severity.rank:
            deciding, severity = witness, finding.severity
    return _outcome(speaking, deciding, severity, VERDICT_OF[severity])


def _deciding(speaking: Mapping[Witness, Finding]) -> Witness | None:
    if Witness.REVERSAL in speaking and speaking[Witness.REVERSAL].severity is not None:
        return Witness.REVERSAL
    kinetics, experience = speaking.get(Witness.KINETICS), speaking.get(Witness.EXPERIENCE)
    if kinetics and experience and kinetics.severity is not None and experience.severity is not None:
        return _weighed(kinetics, experience)
    for witness in (Witness.KINETICS, Witness.EXPERIENCE, Witness.SCREENING):
        if witness in speaking and speaking[witness].severity is not None:
            return witness
    return None


def _weighed(kinetics: Finding, experience: Finding) -> Witness:
    assert kinetics.severity is not None  # noqa: S101 - checked by the caller
    assert experience.severity is not None  # noqa: S101 - checked by the caller
    distance = experience.severity.rank - kinetics.severity.rank
    if abs(distance) <= 1:
        gives_way = distance < 0 and _gives_way(kinetics, experience)
        return Witness.EXPERIENCE if distance > 0 or gives_way else Witness.KINETICS
    return Witness.EXPERIENCE if (experience.grade or "Z") <= (kinetics.grade or "Z") else Witness.KINETICS


def _gives_way(kinetics: Finding, experience: Finding) -> bool:
    """Whether computation within the allowance gives way to milder experience that was read."""
    grade = experience.grade or "Z"
    return grade <= _READ and grade < (kinetics.grade or "Z") and not _exceeds_allowance(kinetics)


def _exceeds_allowance(kinetics: Finding | None) -> bool:
    """Whether the high end of the computed loss is more than the joint can stand."""
    if kinetics is None:
        return False
    ratio = kinetics.figures.get("loss_over_allowance")
    return ratio is None or ratio["high"] > 1.0


def _outcome(
    speaking: Mapping[Witness, Finding], deciding: Witness, severity: Severity, verdict: Verdict
) -> Outcome:
    conditions = list(_conditions(speaking, verdict))
    if verdict is Verdict.SUITABLE and not _is_supported(speaking, deciding):
        verdict = Verdict.CONDITIONAL
        conditions.append(CONFIRM)
    kinetics = speaking.get(Witness.KINETICS)
    if verdict is Verdict.SUITABLE and kinetics and _is_harmful(kinetics) and _exceeds_allowance(kinetics):
        conditions.append(SETTLE)
    if verdict is Verdict.SUITABLE and conditions:
        verdict = Verdict.CONDITIONAL
    if verdict is Verdict.CONDITIONAL and not conditions:
        conditions.append(PROTECT)
    anode, is_in_doubt = _polarity(speaking)
    return Outcome(
        verdict,
        severity,
        anode,
        is_in_doubt,
        deciding,
        _dissenting(speaking, deciding, severity),
        tuple(dict.fromkeys(conditions)),
        _confidence(speaking, deciding, severity),
    )


def _is_harmful(finding: Finding) -> bool:
    return finding.severity is not None and finding.severity.rank >= Severity.MODERATE.rank


def _confidence(speaking: Mapping[Witness, Finding], deciding: Witness, severity: Severity) -> Confidence:
    """That of the deciding witness, a level lower where computation or experience contradicts it."""
    confidence = speaking[deciding].confidence
    words = [speaking[witness].severity for witness in _WEIGHED if witness in speaking]
    if all(word is None or abs(word.rank - severity.rank) <= 1 for word in words):
        return confidence
    return Confidence.MEDIUM if confidence is Confidence.HIGH else Confidence.LOW


def _is_supported(speaking: Mapping[Witness, Finding], deciding: Witness) -> bool:
    if (speaking[deciding].grade or "E") <= "C":
        return True
    agreeing = [
        witness
        for witness in _INDEPENDENT
        if witness in speaking and speaking[witness].severity in {Severity.NONE, Severity.SLIGHT}
    ]
    return len(agreeing) >= 2  # noqa: PLR2004 - two witnesses


def _conditions(speaking: Mapping[Witness, Finding], verdict: Verdict) -> list[Condition]:
    if verdict is Verdict.UNSUITABLE:
        return []
    return [
        condition
        for witness, finding in speaking.items()
        if witness in _ALWAYS_BINDING
        or (finding.severity is not None and finding.severity.rank >= Severity.MODERATE.rank)
        for condition in finding.conditions
    ]


def _polarity(speaking: Mapping[Witness, Finding]) -> tuple[Anode, bool]:
    reversal = speaking.get(Witness.REVERSAL)
    if reversal and reversal.anode:
        return reversal.anode, True
    kinetics, screening = speaking.get(Witness.KINETICS), speaking.get(Witness.SCREENING)
    experience = speaking.get(Witness.EXPERIENCE)
    for finding in (kinetics, experience, screening):
        if finding and finding.anode:
            disagrees = any(
                other and other.anode not in {None, Anode.NONE, Anode.BOTH, finding.anode}
                for other in (experience, screening)
            )
            return finding.anode, finding.is_polarity_in_doubt or disagrees
    return Anode.NONE, True


def _dissenting(
    speaking: Mapping[Witness, Finding], deciding: Witness, severity: Severity
) -> tuple[Witness, ...]:
    return tuple(
        witness
        for witness, finding in speaking.items()
        if witness is not deciding
        and witness in {*_INDEPENDENT, Witness.REVERSAL}
        and finding.severity is not None
        and VERDICT_OF[finding.severity] is not VERDICT_OF[severity]
    )
