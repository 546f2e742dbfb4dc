"""What a compound in the joint does: it attacks, insulates, is too hot, or fills a gap."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Function, judge
from service.judgement.compound_effect import attacked_family, outer_family
from service.judgement.findings import Finding, Witness
from service.judgement.judge import Judgement
from service.judgement.severity import Severity

SEA_FRONT = "marine-atmosphere-0-100-m"
TUBE = Surface("cu-etp")
PLATE = Surface("al-6082-t6")


def judged(couple: Couple, environment_id: str, catalogue: Catalogue) -> Judgement:
    return judge([couple], catalogue.environments[environment_id], catalogue)[0]


def hazards(couple: Couple, environment_id: str, catalogue: Catalogue) -> Finding:
    return judged(couple, environment_id, catalogue).findings[Witness.HAZARDS]


def codes(finding: Finding) -> list[str]:
    return [condition.code for condition in finding.conditions]


def test_a_compound_that_attacks_a_side_is_a_hazard(catalogue: Catalogue) -> None:
    finding = hazards(Couple(TUBE, TUBE, compound_id="fx-noclean"), "rural-atmosphere", catalogue)
    assert finding.severity is Severity.MODERATE
    assert codes(finding) == ["change-compound"]
    assert ("compounds", "fx-noclean") in finding.evidence


def test_a_rule_that_names_the_compound_speaks_for_it(catalogue: Catalogue) -> None:
    finding = hazards(Couple(TUBE, TUBE, compound_id="sl-rtv-acetoxy"), "rural-atmosphere", catalogue)
    assert "hazard-acetic-silicone" in codes(finding)
    assert "change-compound" not in codes(finding)


def test_a_metal_filler_needs_water_to_attack(catalogue: Catalogue) -> None:
    couple = Couple(PLATE, PLATE, compound_id="gk-ag-glass")
    assert not hazards(couple, "heated-indoor", catalogue).applies
    assert hazards(couple, "rural-atmosphere", catalogue).applies


def test_an_insulating_sealant_in_a_bond_must_leave_metal_to_metal(catalogue: Catalogue) -> None:
    functions = (Function.ELECTRICAL_BOND,)
    couple = Couple(PLATE, PLATE, functions=functions, compound_id="sl-ms-polymer")
    assert "bond-through-compound" in codes(hazards(couple, "heated-indoor", catalogue))


def test_a_grease_is_pressed_out_of_the_contact(catalogue: Catalogue) -> None:
    functions = (Function.ELECTRICAL_BOND,)
    couple = Couple(PLATE, PLATE, functions=functions, compound_id="jc-petrolatum")
    assert "bond-through-compound" not in codes(hazards(couple, "heated-indoor", catalogue))


@pytest.mark.parametrize(
    ("temperature_C", "expected"), [(-60.0, True), (20.0, False), (95.0, True), (None, False)]
)
def test_a_compound_has_its_temperatures(
    temperature_C: float | None, *, expected: bool, catalogue: Catalogue
) -> None:
    couple = Couple(PLATE, PLATE, compound_id="sl-ms-polymer", joint_temperature_C=temperature_C)
    assert ("compound-temperature" in codes(hazards(couple, "heated-indoor", catalogue))) is expected


def test_without_any_temperature_none_is_judged(catalogue: Catalogue) -> None:
    somewhere = replace(catalogue.environments["heated-indoor"], temperature_C=None)
    couple = Couple(PLATE, PLATE, compound_id="sl-ms-polymer")
    assert not judge([couple], somewhere, catalogue)[0].findings[Witness.HAZARDS].applies


def test_a_caution_of_the_compound_is_passed_on(catalogue: Catalogue) -> None:
    couple = Couple(PLATE, TUBE, compound_id="gk-ptfe", joint_temperature_C=300.0)
    cautions = hazards(couple, "heated-indoor", catalogue).cautions
    assert any("fume" in caution for caution in cautions)


def test_a_filled_gap_tames_a_severe_crevice_but_not_under_water(catalogue: Catalogue) -> None:
    couple = Couple(Surface("ss-430"), Surface("ss-430"), compound_id="sl-ms-polymer")
    bare = judged(replace(couple, compound_id=""), "splash-and-tidal-zone", catalogue)
    filled = judged(couple, "splash-and-tidal-zone", catalogue)
    immersed = judged(couple, "seawater-quiescent", catalogue)
    assert bare.findings[Witness.CREVICE].severity is Severity.SEVERE
    assert filled.findings[Witness.CREVICE].severity is Severity.MODERATE
    assert "keep-gap-filled" in codes(filled.findings[Witness.CREVICE])
    assert immersed.findings[Witness.CREVICE].severity is Severity.SEVERE


def test_the_computed_loss_is_not_changed_by_a_sealant(catalogue: Catalogue) -> None:
    couple = Couple(PLATE, Surface("ss-316"))
    bare = judged(couple, SEA_FRONT, catalogue)
    sealed = judged(replace(couple, compound_id="sl-ps-inhib"), SEA_FRONT, catalogue)
    assert bare.findings[Witness.KINETICS] == sealed.findings[Witness.KINETICS]


def test_a_compound_meets_the_outermost_metal(catalogue: Catalogue) -> None:
    silvered = Surface("cu-etp", (Layer("ag-electro", 5.0),))
    moly = catalogue.compounds["as-moly"]
    assert outer_family(silvered, catalogue) == "noble metal"
    assert attacked_family(silvered, moly, catalogue) == "noble metal"
    assert attacked_family(TUBE, moly, catalogue) == ""
    assert outer_family(Surface("al-6082-t6", (Layer("tcp-3", 0.1),)), catalogue) == "wrought aluminium"
    assert outer_family(Surface(None, basis_family="carbon steel"), catalogue) == "carbon steel"
    assert outer_family(Surface(None), catalogue) == ""
