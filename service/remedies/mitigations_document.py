"""Ranked mitigations as plain JSON values."""

from __future__ import annotations

import json
from collections.abc import Sequence

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Compound, Mitigation
from service.judgement.evidence import citation
from service.remedies import explanation
from service.remedies.acceptance import why
from service.remedies.attempts import Ruled
from service.remedies.mitigations import Mistake, Mitigations, Remedy
from service.remedies.plain import Document, changed_figures, conditions, header, judged, life


def mitigations_document(found: Mitigations) -> Document:
    """Build the document of a search for mitigations.

    Parameters
    ----------
    found : Mitigations

    Returns
    -------
    dict
        JSON values; the same joint gives the same document.
    """
    situation = found.situation
    catalogue, before = situation.catalogue, situation.before
    return {
        **header(catalogue, situation.policy),
        "summary": {
            "line": explanation.mitigations_line(found),
            "paragraph": explanation.mitigations_paragraph(found),
        },
        "environment": {"id": before.environment.id, "name": before.environment.name},
        "before": judged(before, catalogue),
        "mitigations": [_row(rank, remedy, found) for rank, remedy in enumerate(found.ranking, start=1)],
        "insufficient": _ruled(found.insufficient),
        "infeasible": _ruled(found.infeasible),
        "needs_consent": [
            {"substances": substances.split(";"), "count": count} for substances, count in found.hidden
        ],
    }


def _row(rank: int, remedy: Remedy, found: Mitigations) -> Document:
    catalogue = found.situation.catalogue
    after = remedy.after
    low, high = remedy.life_years
    return {
        "rank": rank,
        "measures": [_measure(measure, catalogue) for measure in remedy.measures],
        "verdict": after.verdict.value,
        "judged_verdict": after.judgement.outcome.verdict.value,
        "capped_because": after.capped_because or None,
        "joints": [judged(judgement, catalogue) for judgement in after.judgements],
        "environment_changes": changed_figures(
            found.situation.before.environment, after.arrangement.environment
        ),
        "better": list(remedy.comparison.better),
        "worse": list(remedy.comparison.worse),
        "chain": explanation.remedy_chain(remedy),
        "conditions": conditions(remedy.conditions),
        "functions": [
            {"function": each.function.value, "effect": each.effect.value, "statement": each.statement}
            for each in remedy.functions
        ],
        "life": life(after.measures.life),
        "renewal": {
            "low_years": low,
            "high_years": high,
            "compounds": [compound.reapplication for compound in remedy.compounds if compound.reapplication],
        },
        "inspection": [measure.inspection for measure in remedy.measures if measure.inspection],
        "residual_risk": [_risk(mistake) for mistake in remedy.mistakes],
        "compounds": [_compound(compound) for compound in remedy.compounds],
        "attacked_here": [
            {"compound": compound_id, "family": family} for compound_id, family in remedy.attacked
        ],
        "cautions": list(remedy.cautions),
        "directions": [
            {"measure": name, "steps": [{"step": step.step, "text": step.text} for step in steps]}
            for name, steps in remedy.steps
        ],
    }


def _measure(mitigation: Mitigation, catalogue: Catalogue) -> Document:
    return {
        "id": mitigation.id,
        "name": mitigation.name,
        "transform": mitigation.transform,
        "has_sourced_efficacy": mitigation.has_sourced_efficacy,
        "citation": citation(catalogue.sources[mitigation.source_id], mitigation.locator),
        "note": mitigation.note or None,
    }


def _risk(mistake: Mistake) -> Document:
    severity = mistake.judgement.outcome.severity
    parameters = json.loads(mistake.mitigation.parameters)
    return {
        "measure": mistake.mitigation.id,
        "done_badly": mistake.mitigation.done_badly,
        "likelihood": parameters.get("leak_probability"),
        "verdict": mistake.judgement.outcome.verdict.value,
        "severity": severity.value if severity is not None else "unknown",
        "why": why(mistake.judgement),
    }


def _compound(compound: Compound) -> Document:
    return {
        "id": compound.id,
        "name": compound.name,
        "attacks": list(compound.attacks),
        "reapplication": compound.reapplication or None,
        "caution": compound.caution or None,
    }


def _ruled(entries: Sequence[Ruled]) -> list[Document]:
    return [
        {
            "measures": [{"id": measure.id, "name": measure.name} for measure in entry.measures],
            "reason": entry.obstacle.value,
            "detail": entry.detail,
        }
        for entry in entries
    ]
