"""Parts that all documents of this room share, as plain JSON values with three significant digits at most."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import ENGINE_VERSION, Judgement, Policy, Verdict
from service.judgement import explanation as told
from service.judgement.findings import Anode, Condition, Witness
from service.judgement.rules import Hit
from service.judgement.surface_names import surface_name
from service.remedies.acceptance import why
from service.remedies.measures import Life, hazards_of

Document = dict[str, Any]


def header(catalogue: Catalogue, policy: Policy) -> Document:
    """What an answer depends on besides the question."""
    return {
        "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        "engine": ENGINE_VERSION,
        "policy": policy.name,
    }


def surface_document(surface: Surface, catalogue: Catalogue) -> Document:
    """A surface by name and by structure, as ``POST /v1/couples`` takes it."""
    return {
        "name": surface_name(surface, catalogue),
        "material_id": surface.material_id,
        "basis_family": surface.basis_family,
        "layers": [
            {
                "finish_id": layer.finish_id,
                "name": catalogue.finishes[layer.finish_id].name,
                "thickness_um": figure(layer.thickness_um),
            }
            for layer in surface.layers
        ],
        "temper": surface.temper,
        "strength_class": surface.strength_class,
        "condition": surface.condition.value,
    }


def judged(judgement: Judgement, catalogue: Catalogue, verdict: Verdict | None = None) -> Document:
    """A judgement in short: verdict, who decided and why, which side, how much, what it hangs on."""
    outcome = judgement.outcome
    ratio = judgement.findings[Witness.KINETICS].figures.get("loss_over_allowance")
    return {
        "first": surface_document(judgement.couple.first, catalogue),
        "second": surface_document(judgement.couple.second, catalogue),
        "verdict": (verdict or outcome.verdict).value,
        "severity": outcome.severity.value if outcome.severity is not None else "unknown",
        "confidence": outcome.confidence.value,
        "line": told.line(judgement, verdict or outcome.verdict, catalogue),
        "deciding_witness": outcome.deciding.value if outcome.deciding else None,
        "why": why(judgement),
        "anode": _anode(judgement),
        "loss_over_allowance": (
            {"median": figure(ratio["median"]), "high": figure(ratio["high"])} if ratio else None
        ),
        "hazards": [hazard(hit) for hit in hazards_of(judgement)],
    }


def _anode(judgement: Judgement) -> Document:
    outcome = judgement.outcome
    is_known = outcome.anode is not Anode.NONE
    return {"side": outcome.anode.value, "is_in_doubt": outcome.is_polarity_in_doubt and is_known}


def hazard(hit: Hit) -> Document:
    """A rule about damage besides the computed loss."""
    return {
        "id": hit.rule.id,
        "name": hit.rule.name,
        "severity": hit.rule.severity or None,
        "statement": hit.rule.statement,
        "advice": hit.rule.advice,
        "caution": hit.rule.caution or None,
    }


def conditions(given: Iterable[Condition]) -> list[Document]:
    """Conditions in the shape of every answer: code, action, who, how verified."""
    return [dataclasses.asdict(condition) for condition in given]


def life(known: Life | None) -> Document | None:
    """Years until the first coat or section is used up."""
    if known is None:
        return None
    return {
        "low_years": figure(known.low_years),
        "high_years": figure(known.high_years),
        "basis": known.basis,
    }


def changed_figures(before: Environment, after: Environment) -> Document:
    """What measures changed about the place, field by field."""
    changes: Document = {}
    for field in dataclasses.fields(before):
        was, now = getattr(before, field.name), getattr(after, field.name)
        if was != now:
            changes[field.name] = {"before": _value(was), "after": _value(now)}
    return changes


def figure(value: float | None) -> float | None:
    """A number with three significant digits at most."""
    return None if value is None else float(f"{value:.3g}")


def _value(value: Any) -> Any:
    if isinstance(value, float):
        return figure(value)
    return list(value) if isinstance(value, tuple) else value
