"""An answer as plain JSON values: the shape that every route, export and page shows."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from service.callouts.reading import Candidate, Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Surface
from service.judgement import evidence as evidence_items
from service.judgement import explanation
from service.judgement.answer_record import AnswerRecord
from service.judgement.areas import DEFAULT_AREA_M2, DEFAULT_BORE_M, wetted_areas_m2
from service.judgement.couples import Geometry
from service.judgement.exposed import outer_electrode_id
from service.judgement.findings import Finding, Witness
from service.judgement.json_values import figure, plain
from service.judgement.judge import Judgement
from service.judgement.surface_names import surface_name
from service.judgement.version import ENGINE_VERSION


def document_of(answer: AnswerRecord) -> dict[str, Any]:
    """Build the document of an answer.

    Parameters
    ----------
    answer : AnswerRecord

    Returns
    -------
    dict of str to Any
        Plain JSON values; every figure has three significant digits at most and its unit in its
        name.
    """
    judgement, catalogue = answer.judgement, answer.catalogue
    outcome = judgement.outcome if judgement else None
    line = explanation.line(judgement, answer.verdict, catalogue)
    return {
        "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        "engine": ENGINE_VERSION,
        "verdict": answer.verdict.value,
        "severity": outcome.severity.value if outcome and outcome.severity else "unknown",
        "confidence": outcome.confidence.value if outcome else "low",
        "summary": {
            "line": line,
            "paragraph": explanation.paragraph(judgement, answer.verdict, answer.question, line),
            "chain": explanation.chain(judgement, catalogue),
        },
        "anode": _anode(judgement, catalogue),
        "surfaces": {
            name: _surface(reading, catalogue)
            for name, reading in zip(("first", "second"), answer.readings, strict=True)
        },
        "environment": _environment(answer),
        "joint": _joint(answer),
        "loss": _loss(judgement),
        "by_condition": _by_condition(answer),
        "by_reading": _by_reading(answer),
        "deciding_witness": outcome.deciding.value if outcome and outcome.deciding else None,
        "dissenting_witnesses": [witness.value for witness in outcome.dissenting] if outcome else [],
        "findings": [_finding(finding) for finding in judgement.findings.values()] if judgement else [],
        "conditions": [plain(condition) for condition in outcome.conditions] if outcome else [],
        "cautions": _cautions(judgement),
        "hazards": _hazards(judgement, catalogue),
        "warnings": [{"code": code, "detail": detail} for code, detail in answer.warnings],
        "missing": list(answer.missing),
        "question": answer.question or None,
        "evidence": _evidence(judgement, catalogue),
        "would_change_if": plain(answer.tipping_point) if answer.tipping_point else None,
    }


def _anode(judgement: Judgement | None, catalogue: Catalogue) -> dict[str, Any]:
    if judgement is None:
        return {"side": "none", "name": None, "is_in_doubt": True, "probability": None}
    outcome = judgement.outcome
    surfaces = {"first": judgement.couple.first, "second": judgement.couple.second}
    surface = surfaces.get(outcome.anode.value)
    return {
        "side": outcome.anode.value,
        "name": surface_name(surface, catalogue) if surface else None,
        "is_in_doubt": outcome.is_polarity_in_doubt,
        "probability": judgement.findings[Witness.KINETICS].figures.get("probability_of_anode"),
    }


def _surface(reading: Reading, catalogue: Catalogue) -> dict[str, Any]:
    leading = reading.candidates[0] if reading.candidates else None
    shown = _candidate(leading, catalogue) if leading else _candidate(None, catalogue)
    return {
        "text": reading.text,
        "match": reading.match.value,
        **shown,
        "question": reading.question or None,
        "suggestions": list(reading.suggestions),
        "alternatives": [_candidate(candidate, catalogue) for candidate in reading.candidates[1:]],
    }


def _candidate(candidate: Candidate | None, catalogue: Catalogue) -> dict[str, Any]:
    surface = candidate.surface if candidate else Surface(None)
    material = catalogue.materials.get(surface.material_id or "")
    return {
        "name": surface_name(surface, catalogue) if candidate else None,
        "material": {"id": material.id, "name": material.name} if material else None,
        "basis_family": surface.basis_family or (material.family if material else None),
        "layers": [
            {
                "finish_id": layer.finish_id,
                "name": catalogue.finishes[layer.finish_id].name,
                "thickness_um": layer.thickness_um,
                "thickness_max_um": layer.thickness_max_um,
            }
            for layer in surface.layers
        ],
        "condition": surface.condition.value,
        "outer_electrode": outer_electrode_id(surface, catalogue) if candidate else None,
        "confidence": round(candidate.confidence, 3) if candidate else 0.0,
        "assumptions": list(candidate.assumptions) if candidate else [],
        "missing": list(candidate.missing) if candidate else [],
        "spans": [plain(span) for span in candidate.spans] if candidate else [],
    }


def _environment(answer: AnswerRecord) -> dict[str, Any]:
    environment = answer.environment
    return {
        "id": environment.id,
        "name": environment.name,
        "exposure": environment.exposure.value,
        "electrolyte_class": environment.electrolyte_class.value,
        "screening_class": environment.screening_class,
        "temperature_C": environment.temperature_C,
        "conductivity_S_per_m": environment.conductivity_S_per_m,
        "film_thickness_um": environment.film_thickness_um,
        "tags": list(environment.tags),
    }


def _joint(answer: AnswerRecord) -> dict[str, Any]:
    inquiry = answer.inquiry
    judgement = answer.judgement
    first, second = wetted_areas_m2(judgement.couple) if judgement else (DEFAULT_AREA_M2, DEFAULT_AREA_M2)
    defaults = []
    if inquiry.design_life_years is None:
        defaults.append("design_life_years")
    if inquiry.first_area_m2 is None or inquiry.second_area_m2 is None:
        defaults.append("areas")
    if inquiry.section_allowance_um is None:
        defaults.append("section_allowance_um")
    is_pipe = inquiry.geometry is Geometry.PIPE
    if is_pipe and inquiry.bore_m is None:
        defaults.append("bore_mm")
    return {
        "first_area_cm2": figure(first * 1e4),
        "second_area_cm2": figure(second * 1e4),
        "geometry": inquiry.geometry.value,
        "bore_mm": figure((inquiry.bore_m or DEFAULT_BORE_M) * 1e3) if is_pipe else None,
        "functions": [function.value for function in inquiry.functions],
        "design_life_years": inquiry.design_life_years or answer.policy.default_design_life_years,
        "compound": inquiry.compound_id or None,
        "is_isolated": inquiry.is_isolated,
        "policy": answer.policy.name,
        "defaults_used": defaults,
    }


def _loss(judgement: Judgement | None) -> dict[str, Any] | None:
    if judgement is None or not judgement.kinetics.lanes:
        return None
    figures = judgement.findings[Witness.KINETICS].figures
    return {name: value for name, value in figures.items() if name != "states"}


def _by_condition(answer: AnswerRecord) -> list[dict[str, Any]]:
    return [_outcome_under(condition, judgement) for condition, judgement in answer.by_condition]


def _outcome_under(condition: Condition, judgement: Judgement) -> dict[str, Any]:
    outcome = judgement.outcome
    deciding = judgement.findings[outcome.deciding].statement if outcome.deciding else ""
    return {
        "condition": condition.value,
        "verdict": outcome.verdict.value,
        "severity": outcome.severity.value if outcome.severity else "unknown",
        "why": deciding,
    }


def _by_reading(answer: AnswerRecord) -> list[dict[str, Any]]:
    if len(answer.judgements) < 2:  # noqa: PLR2004 - one reading needs no comparison
        return []
    return [
        {
            "first": surface_name(judgement.couple.first, answer.catalogue),
            "second": surface_name(judgement.couple.second, answer.catalogue),
            "verdict": judgement.outcome.verdict.value,
        }
        for judgement in answer.judgements
    ]


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "witness": finding.witness.value,
        "applies": finding.applies,
        "abstains": finding.abstains or None,
        "severity": finding.severity.value if finding.severity is not None else None,
        "anode": finding.anode.value if finding.anode else None,
        "is_polarity_in_doubt": finding.is_polarity_in_doubt,
        "confidence": finding.confidence.value,
        "grade": finding.grade,
        "statement": finding.statement,
        "figures": plain(finding.figures),
        "evidence": [f"{table}/{record}" for table, record in finding.evidence],
    }


def _cautions(judgement: Judgement | None) -> list[str]:
    if judgement is None:
        return []
    return list(dict.fromkeys(text for finding in judgement.findings.values() for text in finding.cautions))


def _hazards(judgement: Judgement | None, catalogue: Catalogue) -> list[dict[str, Any]]:
    if judgement is None:
        return []
    return [
        {
            "id": hit.rule.id,
            "kind": hit.rule.kind.value,
            "name": hit.rule.name,
            "severity": hit.rule.severity or None,
            "is_certain": hit.match.is_certain,
            "unknown_facts": list(hit.match.unknown),
            "affects": list(hit.rule.affects),
            "statement": hit.rule.statement,
            "advice": hit.rule.advice,
            "caution": hit.rule.caution or None,
            "citation": evidence_items.citation(catalogue.sources[hit.rule.source_id], hit.rule.locator),
        }
        for hit in judgement.hits
    ]


def _evidence(judgement: Judgement | None, catalogue: Catalogue) -> list[dict[str, Any]]:
    if judgement is None:
        return []
    return [
        {**_record(table, record_id, catalogue), "used_by": names}
        for (table, record_id), names in evidence_items.used_by(judgement.findings).items()
    ]


@lru_cache(maxsize=4096)
def _record(table: str, record_id: str, catalogue: Catalogue) -> Mapping[str, Any]:
    """What an answer says of one record, whoever used it; the same records serve most answers."""
    item = evidence_items.item(table, record_id, catalogue, ())
    return {**plain(item), "csl": evidence_items.csl(catalogue.sources[item.source_id])}
