"""Witnesses that speak from rules of the knowledge base rather than from a computation."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.catalogue.grading import grade, is_read
from service.catalogue.records import Rule, RuleKind
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.rules import Hit
from service.judgement.severity import Severity, worst

WITNESS_OF = {
    RuleKind.MANDATORY: Witness.MANDATORY,
    RuleKind.REVERSAL: Witness.REVERSAL,
    RuleKind.EXPERIENCE: Witness.EXPERIENCE,
    RuleKind.CREVICE: Witness.CREVICE,
    RuleKind.CATHODE_DAMAGE: Witness.CATHODE_DAMAGE,
    RuleKind.HAZARD: Witness.HAZARDS,
}


def rule_findings(found: Sequence[Hit]) -> dict[Witness, Finding]:
    """Sum up the rules that apply to a couple, witness by witness.

    Parameters
    ----------
    found : sequence of Hit
        Rules of any kind that apply, or could, to the couple.

    Returns
    -------
    dict of Witness to Finding
        One finding for each kind of rule; it abstains where none applies.
    """
    by_kind: dict[RuleKind, list[Hit]] = {}
    for hit in found:
        by_kind.setdefault(hit.rule.kind, []).append(hit)
    return {
        witness: finding_of(kind, by_kind[kind]) if kind in by_kind else _SILENT[kind]
        for kind, witness in WITNESS_OF.items()
    }


def finding_of(kind: RuleKind, found: Sequence[Hit]) -> Finding:
    """Sum up the rules of one kind that apply to a couple.

    Parameters
    ----------
    kind : RuleKind
    found : sequence of Hit
        Rules of that kind.

    Returns
    -------
    Finding
        Several rules keep the worst severity; the statement is that of the rule that set it.
        Rules that state none leave the severity open. Rules that could apply, if a fact were
        known, are reported as missing facts and set no severity.
    """
    certain = [hit for hit in found if hit.match.is_certain]
    missing = tuple(
        f"{hit.rule.name}: {', '.join(hit.match.unknown)}" for hit in found if not hit.match.is_certain
    )
    if not certain:
        return replace(_SILENT[kind], missing=missing)
    leading = max(certain, key=_weight)
    severities = [severity for hit in certain if (severity := severity_of(hit.rule)) is not None]
    anodes = {anode for hit in certain if (anode := anode_of(hit)) is not None}
    return Finding(
        WITNESS_OF[kind],
        leading.rule.statement,
        severity=worst(severities) if severities else None,
        anode=anode_of(leading),
        is_polarity_in_doubt=len(anodes) > 1,
        confidence=Confidence.HIGH if is_read(leading.rule.obtained) else Confidence.MEDIUM,
        grade=grade(leading.rule.obtained),
        refuses=any(hit.rule.refuses for hit in certain),
        figures={"rules": [hit.rule.id for hit in certain]},
        evidence=tuple(("rules", hit.rule.id) for hit in certain),
        conditions=tuple(_condition(hit.rule) for hit in certain if hit.rule.advice),
        cautions=tuple(dict.fromkeys(hit.rule.caution for hit in certain if hit.rule.caution)),
        missing=missing,
    )


_SILENT = {
    kind: Finding(witness, f"No {kind.value} rule applies.", abstains="no rule applies")
    for kind, witness in WITNESS_OF.items()
}


def severity_of(rule: Rule) -> Severity | None:
    """Severity that a rule states.

    Parameters
    ----------
    rule : Rule

    Returns
    -------
    Severity or None
        ``None`` for a remark.
    """
    return _SEVERITIES[rule.severity] if rule.severity else None


_SEVERITIES = {severity.value: severity for severity in Severity}


def anode_of(hit: Hit) -> Anode | None:
    """Side that a rule says is eaten, in the order of the couple as asked.

    Parameters
    ----------
    hit : Hit

    Returns
    -------
    Anode or None
        ``None`` where the rule names no side.
    """
    if hit.rule.anode not in {"first", "second"}:
        return None
    anode = Anode(hit.rule.anode)
    return anode.other if hit.match.is_swapped else anode


def _weight(hit: Hit) -> tuple[bool, int, bool, str]:
    severity = severity_of(hit.rule)
    return (
        hit.rule.refuses,
        severity.rank if severity else -1,
        is_read(hit.rule.obtained),
        hit.rule.id,
    )


def _condition(rule: Rule) -> Condition:
    return Condition(
        code=rule.id,
        action=rule.advice,
        who="designer",
        how_verified="drawing review against the named rule",
    )
