from __future__ import annotations

import json

from service.catalogue.catalogue import Catalogue
from service.judgement import Function
from service.remedies.mitigations import find_mitigations
from service.remedies.mitigations_document import mitigations_document
from service.remedies.plain import Document
from tests.factories.remedies import couple_of, place


def document(catalogue: Catalogue, *functions: Function) -> Document:
    couple = couple_of(functions=functions or (Function.STRUCTURAL,))
    return mitigations_document(find_mitigations(couple, place(catalogue), catalogue))


def row(shown: Document, measure: str) -> Document:
    found: Document = next(
        each for each in shown["mitigations"] if [part["id"] for part in each["measures"]] == [measure]
    )
    return found


def test_it_is_plain_json_and_always_the_same(catalogue: Catalogue) -> None:
    once, again = document(catalogue), document(catalogue)
    assert json.dumps(once, sort_keys=True, allow_nan=False) == json.dumps(again, sort_keys=True)


def test_before_after_and_why_it_is_no_better(catalogue: Catalogue) -> None:
    seal = row(document(catalogue), "seal-fillet")
    assert seal["judged_verdict"] == "suitable"
    assert seal["verdict"] == "conditional"
    assert seal["capped_because"]
    assert seal["environment_changes"]["electrolyte_class"] == {"before": "chloride", "after": "none"}
    assert seal["better"]


def test_residual_risk_tells_the_mistake_and_its_verdict(catalogue: Catalogue) -> None:
    (risk,) = row(document(catalogue), "seal-fillet")["residual_risk"]
    assert risk["likelihood"] == 0.05
    assert risk["verdict"] == "unsuitable"
    assert risk["done_badly"]
    assert risk["why"]
    (paint,) = row(document(catalogue), "paint-cathode")["residual_risk"]
    assert "anode" in paint["done_badly"]
    assert paint["verdict"] == "unsuitable"


def test_compounds_directions_and_renewal(catalogue: Catalogue) -> None:
    seal = row(document(catalogue), "seal-fillet")
    assert seal["compounds"][0]["id"] in catalogue.compounds
    assert seal["attacked_here"] == []
    (directions,) = seal["directions"]
    assert directions["steps"][0]["step"] == "prepare"
    assert seal["renewal"]["low_years"] == 5.0
    assert seal["inspection"]
    assert all(part["citation"] for part in seal["measures"])


def test_what_is_not_ranked_has_its_reason(catalogue: Catalogue) -> None:
    shown = document(catalogue, Function.PROTECTIVE_EARTH)
    reasons = {entry["measures"][0]["id"]: entry["reason"] for entry in shown["infeasible"]}
    assert reasons["isolating-washer"] == "refused-by-rule"
    assert reasons["wet-assemble"] == "ends-function"
    assert all(entry["detail"] for entry in (*shown["infeasible"], *shown["insufficient"]))
    assert shown["needs_consent"] == [
        {"substances": ["Cd", "CrVI"], "count": 1},
        {"substances": ["CrVI"], "count": 1},
    ]
