from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.findings import Witness
from service.judgement.judge import Judgement
from service.judgement.reasoning import chain
from tests.factories.couples import ALUMINIUM, COAST, COPPER, DRY, SEA, judged


@pytest.fixture(scope="module")
def judgement(catalogue: Catalogue) -> Judgement:
    return judged(ALUMINIUM, COPPER, COAST, catalogue)


def step_of(judgement: Judgement, witness: Witness, catalogue: Catalogue) -> str:
    return next(step for step in chain(judgement, catalogue) if step.startswith(f"{witness.value}: "))


def test_every_witness_has_a_step_and_the_last_names_who_decided(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    steps = chain(judgement, catalogue)
    assert len(steps) == len(Witness) + 1
    assert steps[-1] == f"decided by: {judgement.outcome.deciding}"
    assert any("[grade " in step and "Severity: severe." in step for step in steps)


def test_a_computed_finding_comes_with_its_equation_and_each_source_once(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    step = step_of(judgement, Witness.KINETICS, catalogue)
    assert "Σ A i(E) = 0" in step
    assert "√(2 κ h |∫ i dE|)" in step
    assert step.count("from memory, no page consulted") == 1


def test_a_bulk_electrolyte_has_no_film_equation(catalogue: Catalogue) -> None:
    step = step_of(judged(ALUMINIUM, COPPER, SEA, catalogue), Witness.KINETICS, catalogue)
    assert "κ h" not in step
    assert "resistance of the electrolyte" in step


def test_a_finding_without_figures_has_no_equation(catalogue: Catalogue) -> None:
    dry = judged(ALUMINIUM, COPPER, DRY, catalogue)
    assert "By " not in step_of(dry, Witness.KINETICS, catalogue)
    assert "Sources" not in step_of(dry, Witness.CREVICE, catalogue)


def test_without_a_judgement_there_is_no_chain(catalogue: Catalogue) -> None:
    assert chain(None, catalogue) == []
