"""Ranked alternatives as plain JSON values."""

from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.judgement import Judgement
from service.remedies import explanation
from service.remedies.acceptance import why
from service.remedies.alternatives import Alternative, Alternatives
from service.remedies.plain import Document, conditions, figure, header, judged, life, surface_document

HOW_RANKED = (
    "Options that no other option beats in every objective come first; among them, and after them, the "
    "weighted sum of the objectives decides, each brought to 0 (best) to 1."
)


def alternatives_document(found: Alternatives) -> Document:
    """Build the document of a search.

    Parameters
    ----------
    found : Alternatives

    Returns
    -------
    dict
        JSON values; the same search gives the same document.
    """
    question = found.question
    catalogue = question.catalogue
    return {
        **header(catalogue, question.policy),
        "summary": {
            "line": explanation.alternatives_line(found),
            "paragraph": explanation.alternatives_paragraph(found),
        },
        "environment": {"id": question.environment.id, "name": question.environment.name},
        "before": judged(found.before.judgement, catalogue),
        "searched": {"couples_judged": found.judged, "found": found.found, "shown": len(found.ranking)},
        "weights": {name.value: share for name, share in question.constraints.weights.normalised().items()},
        "how_ranked": HOW_RANKED,
        "alternatives": [
            _row(rank, alternative, catalogue) for rank, alternative in enumerate(found.ranking, start=1)
        ],
        "excluded": [
            {
                "reason": group.reason.value,
                "constraint": group.constraint,
                "unit": group.unit,
                "count": group.count,
                "example": group.example,
            }
            for group in found.excluded
        ],
        "blocked_by": [
            {
                "constraint": blocker.constraint,
                "options_without_it": blocker.options,
                "example": blocker.example,
            }
            for blocker in found.blockers
        ],
    }


def _row(rank: int, row: Alternative, catalogue: Catalogue) -> Document:
    return {
        "rank": rank,
        "is_on_pareto_front": row.is_on_front,
        "score": figure(row.score),
        **judged(row.judgement, catalogue),
        "conditions": conditions(row.judgement.outcome.conditions),
        "requirements": conditions(row.candidate.requirements),
        "life": life(row.measures.life),
        "hazard_points": figure(row.measures.hazard_points),
        "function_points": figure(row.measures.function_points),
        "cost_tier": row.measures.cost_tier,
        "change_effort": row.measures.effort,
        "better": list(row.comparison.better),
        "worse": list(row.comparison.worse),
        "when_worn": _worn(row.worn),
        "alike": [
            {
                "first": surface_document(couple.first, catalogue),
                "second": surface_document(couple.second, catalogue),
            }
            for couple in row.alike
        ],
    }


def _worn(judgement: Judgement | None) -> Document | None:
    if judgement is None:
        return None
    severity = judgement.outcome.severity
    return {
        "verdict": judgement.outcome.verdict.value,
        "severity": severity.value if severity is not None else "unknown",
        "why": why(judgement),
    }
