from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.couples import Couple
from service.judgement.findings import Finding, Witness
from service.judgement.kinetic_witness import kinetic_results
from service.judgement.lane_results import LaneResult
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.severity import Severity
from service.judgement.spent_coats import successor, with_successors, without_outer_metal
from tests.factories.couples import COPPER, SEA, STEEL, coated


def lanes(couple: Couple, catalogue: Catalogue) -> tuple[LaneResult, ...]:
    return kinetic_results([couple], catalogue.environments[SEA], catalogue, DEFAULT_POLICY)[0].lanes


def after(couple: Couple, catalogue: Catalogue) -> Couple | None:
    return successor(couple, lanes(couple, catalogue), catalogue, DEFAULT_POLICY)


def zinced(um: float, years: float = 10.0) -> Couple:
    return Couple(coated("steel-s235", "zn-plain", um), COPPER, design_life_years=years)


def test_the_metal_beneath_is_laid_bare_for_the_years_that_are_left(catalogue: Catalogue) -> None:
    couple = zinced(8.0)
    follower = after(couple, catalogue)
    assert follower is not None
    assert (follower.first, follower.second) == (STEEL, COPPER)
    assert follower.design_life_years is not None
    assert 0.0 < follower.design_life_years < 10.0


def test_a_coat_that_lasts_has_no_successor(catalogue: Catalogue) -> None:
    assert after(zinced(25.0, years=0.001), catalogue) is None
    assert after(Couple(STEEL, COPPER), catalogue) is None


def test_over_an_open_basis_nothing_can_be_said(catalogue: Catalogue) -> None:
    open_basis = Surface(None, (Layer("zn-plain", 8.0),))
    assert after(Couple(open_basis, COPPER), catalogue) is None


def test_of_two_spent_coats_the_first_to_go_is_taken(catalogue: Catalogue) -> None:
    one = lanes(zinced(8.0), catalogue)[0]
    turned = replace(one, side=1, figures={**one.figures, "coat_life_years": {"low": 0.01, "high": 0.1}})
    both = Couple(coated("steel-s235", "zn-plain", 8.0), coated("steel-s235", "cd-yellow", 8.0))
    follower = successor(both, [one, turned], catalogue, DEFAULT_POLICY)
    assert follower is not None
    assert follower.second == STEEL
    assert follower.first == both.first


@pytest.mark.parametrize(
    ("layers", "left"),
    [
        (("zn-plain",), ()),
        (("powder-coat", "zn-plain"), ()),
        (("sn-matte", "ni-electro"), ("ni-electro",)),
    ],
)
def test_with_the_metal_goes_what_lies_on_it(
    layers: tuple[str, ...], left: tuple[str, ...], catalogue: Catalogue
) -> None:
    surface = Surface("steel-s235", tuple(Layer(finish) for finish in layers))
    bare = without_outer_metal(surface, catalogue)
    assert bare is not None
    assert tuple(layer.finish_id for layer in bare.layers) == left


def test_paint_is_no_metal(catalogue: Catalogue) -> None:
    assert without_outer_metal(coated("steel-s235", "powder-coat"), catalogue) is None


def finding(severity: Severity | None, statement: str) -> Finding:
    return Finding(Witness.KINETICS, statement, severity=severity, evidence=(("kinetics", statement),))


@pytest.mark.parametrize("later", [None, Severity.NONE, Severity.SLIGHT])
def test_a_second_stage_that_is_no_worse_changes_nothing(later: Severity | None) -> None:
    now = {3: finding(Severity.SLIGHT, "coat")}
    followed = with_successors(now, {3: Couple(STEEL, COPPER)}, lambda _: [finding(later, "steel")])
    assert followed == now


def test_a_worse_second_stage_is_said_and_counts() -> None:
    follower = Couple(STEEL, COPPER, design_life_years=7.5)
    now = {0: finding(Severity.NONE, "other"), 3: finding(Severity.SLIGHT, "coat")}
    followed = with_successors(now, {3: follower}, lambda _: [finding(Severity.SEVERE, "steel goes")])
    assert followed[0] == now[0]
    assert followed[3].severity is Severity.SEVERE
    assert "7.5 years to go: steel goes" in followed[3].statement
    assert followed[3].evidence == (("kinetics", "coat"), ("kinetics", "steel goes"))
