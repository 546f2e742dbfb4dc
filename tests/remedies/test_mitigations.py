from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.judgement import Function, Verdict
from service.remedies import Constraints, find_mitigations, mitigations_document
from tests.factories.remedies import couple_of, place


def test_a_measure_that_is_ranked_helps(catalogue: Catalogue) -> None:
    found = find_mitigations(couple_of(), place(catalogue), catalogue)
    assert found.before.verdict is Verdict.UNSUITABLE
    assert found.ranking
    assert {remedy.after.verdict for remedy in found.ranking} <= {Verdict.SUITABLE, Verdict.CONDITIONAL}


def test_combinations_have_three_measures_at_most(catalogue: Catalogue) -> None:
    found = find_mitigations(couple_of(), place(catalogue), catalogue)
    assert max(len(remedy.measures) for remedy in found.ranking) <= 3


def test_isolation_is_never_ranked_in_a_protective_earth_joint(catalogue: Catalogue) -> None:
    couple = couple_of(functions=(Function.PROTECTIVE_EARTH,))
    document = mitigations_document(find_mitigations(couple, place(catalogue), catalogue))
    ranked = {measure["transform"] for row in document["mitigations"] for measure in row["measures"]}
    assert "isolate" not in ranked
    refused = {measure["id"] for row in document["infeasible"] for measure in row["measures"]}
    assert any(catalogue.mitigations[name].transform == "isolate" for name in refused)


def test_without_sourced_efficacy_a_verdict_is_conditional_at_most(catalogue: Catalogue) -> None:
    found = find_mitigations(couple_of(), place(catalogue), catalogue)
    for remedy in found.ranking:
        if not all(measure.has_sourced_efficacy for measure in remedy.measures):
            assert remedy.after.verdict is not Verdict.SUITABLE


def test_every_conditional_verdict_carries_conditions(catalogue: Catalogue) -> None:
    found = find_mitigations(couple_of(), place(catalogue), catalogue)
    for remedy in found.ranking:
        if remedy.after.verdict is Verdict.CONDITIONAL:
            assert remedy.conditions


def test_restricted_measures_are_hidden_until_opted_in(catalogue: Catalogue) -> None:
    closed = find_mitigations(couple_of(), place(catalogue), catalogue)
    opened = find_mitigations(
        couple_of(),
        place(catalogue),
        catalogue,
        constraints=Constraints(allowed_substances=("Cd", "CrVI", "Pb", "Be")),
    )
    assert sum(count for _, count in closed.hidden) > sum(count for _, count in opened.hidden)
