"""What compounds harm and help, by the examples that everybody in the trade knows."""

from __future__ import annotations

import json

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Function
from service.remedies.compounds import Compatibility, compatibility, compatibility_document
from tests.seed_catalogue import seed_catalogue


def of(catalogue: Catalogue, name: str) -> Compatibility:
    return compatibility(catalogue.compounds[name], catalogue)


@pytest.mark.parametrize(
    ("name", "metal"),
    [
        ("sl-rtv-acetoxy", "copper"),
        ("as-graphite", "wrought aluminium"),
        ("cl-ammonia", "brass"),
        ("as-cu", "magnesium"),
        ("ac-hg-contam", "wrought aluminium"),
    ],
)
def test_known_harms(name: str, metal: str, catalogue: Catalogue) -> None:
    """Common practice, no source."""
    harms = [harm for harm in of(catalogue, name).harms if metal in harm.metals]
    assert harms
    assert all(harm.statement and harm.citation for harm in harms)


def test_a_rule_speaks_before_the_record(catalogue: Catalogue) -> None:
    found = of(catalogue, "as-cu")
    named = [harm for harm in found.harms if harm.rule_id]
    general = [harm for harm in found.harms if not harm.rule_id]
    assert {"hazard-copper-paste-light", "hazard-copper-paste-hot"} <= {harm.rule_id for harm in named}
    assert "wrought aluminium" not in {metal for harm in general for metal in harm.metals}


def test_when_a_harm_holds_is_told(catalogue: Catalogue) -> None:
    when = {harm.rule_id: harm.when for harm in of(catalogue, "as-cu").harms}
    assert when["hazard-copper-paste-light"] == "electrolyte_class not none"
    assert when["hazard-copper-paste-hot"] == "joint_temperature_C above 550"
    flux = {harm.rule_id: harm for harm in of(catalogue, "fx-noclean").harms}
    assert flux["hazard-flux-residue"].metals == ("any metal",)
    assert flux["hazard-flux-residue"].when == "tags has any condensing or bias"
    general = next(harm for harm in of(catalogue, "gk-ag-glass").harms if not harm.rule_id)
    assert general.when == "where water can come"


def test_an_insulator_between_the_faces_ends_electrical_functions(catalogue: Catalogue) -> None:
    assert Function.PROTECTIVE_EARTH in of(catalogue, "sl-epoxy").ends_functions
    assert of(catalogue, "jc-petrolatum").ends_functions == ()
    assert of(catalogue, "ce-ag").ends_functions == ()


def test_what_fills_a_gap(catalogue: Catalogue) -> None:
    assert of(catalogue, "sl-ps-inhib").fills_gaps
    assert not of(catalogue, "gk-rubber").fills_gaps


@pytest.mark.parametrize("name", sorted(seed_catalogue().compounds))
def test_every_compound_has_a_document(name: str, catalogue: Catalogue) -> None:
    document = compatibility_document(of(catalogue, name), catalogue)
    json.dumps(document, allow_nan=False)
    assert document["compound"]["id"] == name
    assert document["compound"]["citation"]
    families = {material.family for material in catalogue.materials.values()}
    assert {entry["family"] for entry in document["helps"]} <= families
    told = {metal for harm in document["harms"] for metal in harm["metals"]}
    assert set(catalogue.compounds[name].attacks) <= told | {"any metal"}
