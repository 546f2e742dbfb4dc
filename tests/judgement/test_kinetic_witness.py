from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Fitness, Obtained, Plausibility
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import Couple
from service.judgement.findings import Anode, Confidence
from service.judgement.kinetic_witness import KineticResult, kinetic_results
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.severity import Severity
from tests.factories.couples import (
    ALUMINIUM,
    COAST,
    COPPER,
    DRY,
    SEA,
    STAINLESS,
    STEEL,
    ZINC,
    coated,
)


def results(
    catalogue: Catalogue, environment_id: str, *couples: Couple, **figures: Any
) -> list[KineticResult]:
    environment = replace(catalogue.environments[environment_id], **figures)
    return kinetic_results(couples, environment, catalogue, DEFAULT_POLICY)


def result(catalogue: Catalogue, environment_id: str, couple: Couple, **figures: Any) -> KineticResult:
    return results(catalogue, environment_id, couple, **figures)[0]


def rate(found: KineticResult) -> float:
    return float(found.finding.figures["galvanic_rate_um_per_year"]["median"])


def test_aluminium_is_eaten_by_copper_in_the_sea(catalogue: Catalogue) -> None:
    found = result(catalogue, SEA, Couple(ALUMINIUM, COPPER))
    assert found.finding.anode is found.less_noble is Anode.FIRST
    assert found.finding.severity is Severity.SEVERE
    assert not found.finding.is_polarity_in_doubt
    assert found.finding.figures["probability_of_anode"] == 1.0
    assert "against an allowance of" in found.finding.statement


@pytest.mark.parametrize("environment_id", [SEA, COAST])
def test_like_on_like_is_no_couple(environment_id: str, catalogue: Catalogue) -> None:
    found = result(catalogue, environment_id, Couple(COPPER, COPPER))
    assert found.finding.severity is Severity.NONE
    assert found.finding.anode is Anode.NONE
    assert found.less_noble is None
    assert rate(found) == 0.0


def test_the_evidence_is_what_was_computed_with(catalogue: Catalogue) -> None:
    finding = result(catalogue, SEA, Couple(STEEL, COPPER)).finding
    kinetics = [catalogue.kinetics[record] for table, record in finding.evidence if table == "kinetics"]
    assert {row.electrode_id for row in kinetics} == {"steel-carbon", "copper"}
    assert any(table == "measurements" for table, _ in finding.evidence)


def test_every_state_is_reported_and_the_worst_is_judged(catalogue: Catalogue) -> None:
    found = result(catalogue, SEA, Couple(STEEL, STAINLESS))
    states = found.finding.figures["states"]
    assert {state["second"] for state in states} == {"stainless-316, passive", "stainless-316, ennobled"}
    assert found.finding.severity is not None
    assert found.finding.severity.rank == max(Severity(state["severity"]).rank for state in states)


def test_anode_only_paint_is_worse_than_bare(catalogue: Catalogue) -> None:
    bare, painted = (
        result(catalogue, SEA, Couple(surface, COPPER))
        for surface in (ALUMINIUM, coated("al-6082-t6", "epoxy-primer-ncr"))
    )
    assert rate(painted) > rate(bare)
    assert "laid bare at pores" in painted.finding.statement


def test_paint_on_the_cathode_helps(catalogue: Catalogue) -> None:
    bare, painted = (
        result(catalogue, SEA, Couple(ALUMINIUM, surface))
        for surface in (COPPER, coated("cu-etp", "epoxy-primer-ncr"))
    )
    assert rate(painted) < 0.1 * rate(bare)


def test_isolation_removes_the_galvanic_loss_and_asks_to_be_kept(catalogue: Catalogue) -> None:
    finding = result(catalogue, SEA, Couple(ALUMINIUM, COPPER, is_isolated=True)).finding
    assert finding.severity is Severity.NONE
    assert [condition.code for condition in finding.conditions] == ["verify-isolation"]


def test_isolation_counts_even_where_the_model_does_not_reach(catalogue: Catalogue) -> None:
    couples = Couple(ALUMINIUM, COPPER, is_isolated=True), Couple(ALUMINIUM, COPPER)
    isolated, joined = results(catalogue, SEA, *couples, pH=3.0)
    assert isolated.finding.applies
    assert not joined.finding.applies


def test_without_an_electrolyte_no_current_flows(catalogue: Catalogue) -> None:
    found = result(catalogue, DRY, Couple(ALUMINIUM, COPPER))
    assert found.finding.severity is Severity.NONE
    assert found.lanes == ()


def test_outside_its_validity_it_abstains_with_the_reason(catalogue: Catalogue) -> None:
    found = result(catalogue, SEA, Couple(ALUMINIUM, COPPER), pH=3.0)
    assert "pH 3" in found.finding.abstains
    assert found.couple_potential_V is None


def test_missing_kinetics_are_named_and_do_not_spoil_the_batch(catalogue: Catalogue) -> None:
    unknown, known = results(catalogue, SEA, Couple(Surface(None), COPPER), Couple(STEEL, COPPER))
    assert unknown.finding.missing == ("the metal of a surface",)
    assert known.finding.applies


def test_nothing_is_judged_on_currents_that_were_not_found(catalogue: Catalogue) -> None:
    found = result(catalogue, SEA, Couple(ALUMINIUM, COPPER), oxygen_mg_per_L=np.nan)
    assert "could not be solved" in found.finding.abstains


def test_a_coat_that_is_used_up_must_be_renewed(catalogue: Catalogue) -> None:
    short, long = (
        result(catalogue, SEA, Couple(coated("steel-s235", "zn-hdg", 200.0), STEEL, design_life_years=years))
        for years in (0.01, 25.0)
    )
    assert short.finding.conditions == ()
    assert [condition.code for condition in long.finding.conditions] == ["renew-sacrificial-coat"]


def test_polarity_is_in_doubt_where_the_sample_is_divided(catalogue: Catalogue) -> None:
    doubtful = result(catalogue, SEA, Couple(STEEL, Surface("ci-gjl-250")))
    assert doubtful.finding.is_polarity_in_doubt
    assert doubtful.finding.figures["probability_of_anode"] < 0.9


def test_the_outer_metals_name_the_anode_even_if_an_opening_decides(catalogue: Catalogue) -> None:
    worn = coated("cu-etp", "sn-matte", 5.0, Condition.WORN)
    found = result(catalogue, SEA, Couple(ZINC, worn))
    assert len(found.lanes) == 2
    assert found.finding.anode is Anode.FIRST


def all_read(catalogue: Catalogue) -> Catalogue:
    """The catalogue as if every kinetic record had been read under matching conditions."""
    records = catalogue.records()
    records["kinetics"] = tuple(
        replace(row, obtained=Obtained.READ, fitness=Fitness.EXACT, plausibility=Plausibility.PASSED)
        for row in records["kinetics"]
    )
    return Catalogue.from_records("read", "0" * 64, records)


def test_read_figures_and_a_clear_sample_give_confidence(catalogue: Catalogue) -> None:
    couple = Couple(ALUMINIUM, COPPER)
    read = result(all_read(catalogue), SEA, couple).finding
    assert (read.grade, read.confidence) == ("A", Confidence.HIGH)
    assert result(catalogue, SEA, couple).finding.confidence is Confidence.MEDIUM


def test_a_divided_sample_gives_little_confidence(catalogue: Catalogue) -> None:
    divided = next(
        found.finding
        for found in results(
            catalogue, COAST, *(Couple(STEEL, Surface(material)) for material in sorted(catalogue.materials))
        )
        if found.lanes and max(found.finding.figures["probability_of_severity"].values()) < 0.6
    )
    assert divided.confidence is Confidence.LOW


def test_magnesium_has_no_better_grade_than_memory(catalogue: Catalogue) -> None:
    assert result(all_read(catalogue), SEA, Couple(Surface("mg-az91d"), STEEL)).finding.grade == "D"


def test_the_potential_lies_between_those_of_the_metals(catalogue: Catalogue) -> None:
    found = result(catalogue, SEA, Couple(STEEL, COPPER))
    assert found.couple_potential_V is not None
    assert -0.5 < found.couple_potential_V < 0.1


def test_a_couple_is_judged_alike_alone_and_in_a_batch(catalogue: Catalogue) -> None:
    couples = [Couple(ALUMINIUM, COPPER), Couple(Surface(None), COPPER), Couple(STEEL, STAINLESS)]
    together = results(catalogue, COAST, *couples)
    assert [result(catalogue, COAST, couple).finding for couple in couples] == [
        found.finding for found in together
    ]


def test_both_sides_are_eaten_where_both_are_porous_alike(catalogue: Catalogue) -> None:
    silvered = coated("al-1050a-h14", "ag-electro", 2.0)
    finding = result(catalogue, COAST, Couple(silvered, silvered)).finding
    assert finding.anode is Anode.BOTH
    assert finding.severity is not Severity.NONE


def test_an_unknown_density_is_not_cited(catalogue: Catalogue) -> None:
    records = catalogue.records()
    records["measurements"] = tuple(row for row in records["measurements"] if row.quantity != "density")
    bare = Catalogue.from_records("without densities", "1" * 64, records)
    finding = result(bare, SEA, Couple(STEEL, COPPER)).finding
    assert not [row_id for _, row_id in finding.evidence if row_id.startswith("density")]
    assert finding.figures["galvanic_rate_um_per_year"]["median"] > 0.0


def test_a_coat_is_renewed_only_if_it_does_not_last(catalogue: Catalogue) -> None:
    found = results(
        catalogue,
        SEA,
        *(
            Couple(coated("steel-s235", "zn-hdg", 200.0), STEEL, design_life_years=years)
            for years in np.geomspace(0.001, 10.0, 30).tolist()
        ),
    )
    for entry in found:
        is_spent = entry.finding.figures["loss_over_allowance"]["high"] > 1.0
        assert bool(entry.finding.conditions) is is_spent


def test_what_an_edge_lays_bare_is_said(catalogue: Catalogue) -> None:
    anodized = Couple(coated("al-6082-t6", "anod-ii-clear"), COPPER)
    assert "laid bare at edges and holes of" in result(catalogue, SEA, anodized).finding.statement


def test_the_confidence_follows_the_largest_share(catalogue: Catalogue) -> None:
    metals = [Couple(STEEL, Surface(material)) for material in sorted(catalogue.materials)]
    seen = set()
    for entry in results(catalogue, COAST, *metals):
        if entry.lanes:
            share = max(entry.finding.figures["probability_of_severity"].values())
            assert (entry.finding.confidence is Confidence.LOW) is (share < 0.6)
            seen.add(entry.finding.confidence)
    assert seen == {Confidence.LOW, Confidence.MEDIUM}
