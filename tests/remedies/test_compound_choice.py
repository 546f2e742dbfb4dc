from __future__ import annotations

from dataclasses import replace
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.remedies.compound_choice import compatible_compounds
from tests.factories.remedies import COPPER, couple_of, situation


def names(catalogue: Catalogue, consent: tuple[str, ...] = (), **joint: Any) -> list[str]:
    given = situation(catalogue, couple_of(**joint), allowed_substances=consent)
    return [each.id for each in compatible_compounds(given)]


def test_what_harms_a_side_is_out_and_what_helps_both_comes_first(catalogue: Catalogue) -> None:
    found = names(catalogue)
    assert {"as-cu", "sl-rtv-acetoxy", "as-graphite", "vci"}.isdisjoint(found)
    assert {"wrought aluminium", "copper"} <= set(catalogue.compounds[found[0]].helps)
    assert not any(catalogue.compounds[name].kind == "contaminant" for name in found)


def test_the_temperature_has_to_be_borne(catalogue: Catalogue) -> None:
    hot = names(catalogue, joint_temperature_C=150.0)
    assert "jc-petrolatum" not in hot
    assert "sl-rtv-neutral" in hot
    assert "sl-pu" not in names(catalogue, joint_temperature_C=-50.0)


def test_chromate_needs_consent_unless_there_is_a_free_grade(catalogue: Catalogue) -> None:
    assert "primer-cr" not in names(catalogue)
    steel: dict[str, Any] = {"first": Surface("al-6082-t6"), "second": Surface("steel-s235")}
    assert "primer-cr" in names(catalogue, ("CrVI",), **steel)
    assert "primer-cr" not in names(catalogue, **steel)
    assert "sl-ps-inhib" in names(catalogue, **steel)


def test_one_kind_may_be_asked_for(catalogue: Catalogue) -> None:
    found = compatible_compounds(situation(catalogue), frozenset({"tape"}))
    assert {each.kind for each in found} == {"tape"}


def test_without_a_temperature_none_is_asked(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=COPPER))
    nowhere = replace(given.before, environment=replace(given.before.environment, temperature_C=None))
    assert len(compatible_compounds(replace(given, before=nowhere))) >= len(compatible_compounds(given))
