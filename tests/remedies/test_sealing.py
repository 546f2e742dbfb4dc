from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import ElectrolyteClass
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.sealing import LEAST_FILLET_MM, seal
from tests.factories.remedies import SEA_FRONT, arrangement, couple_of, situation


def test_behind_a_seal_no_electrolyte_bridges_the_metals(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    ways = seal(arrangement(given), {}, given)
    assert {after.environment.electrolyte_class for after in ways} == {ElectrolyteClass.NONE}
    assert {after.couples[0].compound_id for after in ways} == {""}
    assert len({after.compounds for after in ways}) == len(ways) > 1


def test_wet_assembly_puts_the_sealant_between_the_faces(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    for after in seal(arrangement(given), {"insulating": True}, given):
        assert (after.couples[0].compound_id,) == after.compounds


def test_a_crimp_needs_no_sealant(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = seal(arrangement(given), {"sealant": False}, given)
    assert after.compounds == ()


def test_the_seal_reaches_as_far_as_the_current(catalogue: Catalogue) -> None:
    widths = []
    for environment_id in (SEA_FRONT, "heated-indoor"):
        given = situation(catalogue, environment_id=environment_id)
        (sealed, *_) = seal(arrangement(given), {}, given)
        widths += [each.action for each in sealed.conditions if each.code == "extend-seal"]
    assert "mm beyond the joint line" in widths[0]
    assert f"{LEAST_FILLET_MM:g} mm" in widths[1]


@pytest.mark.parametrize("environment_id", ["seawater-quiescent", "soil-corrosive", "concrete-chloride"])
def test_in_the_bulk_the_current_goes_round(environment_id: str, catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id=environment_id)
    with pytest.raises(NotPossibleError) as caught:
        seal(arrangement(given), {}, given)
    assert caught.value.obstacle is Obstacle.WHERE


def test_without_a_harmless_sealant_there_is_no_seal(catalogue: Catalogue) -> None:
    acid = {name: each for name, each in catalogue.compounds.items() if name == "sl-rtv-acetoxy"}
    bare = replace(catalogue, compounds=MappingProxyType(acid))
    given = replace(situation(catalogue, couple_of()), catalogue=bare)
    with pytest.raises(NotPossibleError) as caught:
        seal(arrangement(given), {}, given)
    assert caught.value.obstacle is Obstacle.NO_COMPOUND
