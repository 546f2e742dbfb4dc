from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Contact, Couple, Function
from service.remedies.arrangement import Obstacle, as_it_is
from service.remedies.assessment import assess
from service.remedies.attempts import Package, Ruled, attempt_each, best_of
from tests.factories.remedies import COPPER, SEA_FRONT, STEEL, coated, couple_of, situation


def attempted(
    catalogue: Catalogue, *names: str, couple: Couple | None = None, environment_id: str = SEA_FRONT
) -> tuple[dict[str, Package], dict[str, Ruled]]:
    given = situation(catalogue, couple, environment_id)
    (before,) = assess([as_it_is(given.before)], [()], given)
    offered = [catalogue.mitigations[name] for name in names]
    packages, ruled = attempt_each(offered, before, given)
    return (
        {package.measures[0].id: package for package in packages},
        {entry.measures[0].id: entry for entry in ruled},
    )


def test_each_measure_comes_out_once_one_way_or_the_other(catalogue: Catalogue) -> None:
    packages, ruled = attempted(catalogue, *catalogue.mitigations)
    assert len(packages) + len(ruled) == len(catalogue.mitigations)
    assert not set(packages) & set(ruled)
    assert all(entry.detail for entry in ruled.values())


def test_the_best_variant_of_a_measure_is_kept(catalogue: Catalogue) -> None:
    packages, _ = attempted(catalogue, "plate-cathode-compatible")
    plated = packages["plate-cathode-compatible"].after
    assert plated.verdict.value == "conditional"


def test_a_measure_for_other_joints_does_not_apply(catalogue: Catalogue) -> None:
    _, ruled = attempted(catalogue, "compatible-washer")
    assert ruled["compatible-washer"].obstacle is Obstacle.DOES_NOT_APPLY


def test_whether_it_applies_may_be_unknown(catalogue: Catalogue) -> None:
    _, ruled = attempted(catalogue, "hydrogen-bake")
    assert ruled["hydrogen-bake"].obstacle is Obstacle.NOT_KNOWN
    assert "strength_MPa" in ruled["hydrogen-bake"].detail


def test_an_isolating_washer_in_a_protective_earth_is_refused_by_the_rule(catalogue: Catalogue) -> None:
    _, ruled = attempted(
        catalogue, "isolating-washer", couple=couple_of(functions=(Function.PROTECTIVE_EARTH,))
    )
    assert ruled["isolating-washer"].obstacle is Obstacle.REFUSED
    assert "must conduct" in ruled["isolating-washer"].detail


def test_what_ends_a_declared_function_says_so(catalogue: Catalogue) -> None:
    _, ruled = attempted(
        catalogue, "isolating-washer", "wet-assemble", couple=couple_of(functions=(Function.RF,))
    )
    assert ruled["wet-assemble"].obstacle is Obstacle.ENDS_FUNCTION
    assert "rf" in ruled["wet-assemble"].detail


@pytest.mark.parametrize("name", ["cp-sacrificial"])
def test_zinc_does_not_protect_what_is_less_noble(name: str, catalogue: Catalogue) -> None:
    _, ruled = attempted(
        catalogue, name, couple=Couple(Surface("mg-az91d"), STEEL), environment_id="seawater-quiescent"
    )
    assert ruled[name].obstacle is Obstacle.DOES_NOT_APPLY
    assert "would not be the anode" in ruled[name].detail


def test_a_bond_limit_that_is_lost_ends_the_bond(catalogue: Catalogue) -> None:
    joint = Couple(
        COPPER,
        coated("steel-s235", "ag-electro", 5.0),
        functions=(Function.ELECTRICAL_BOND,),
        contact=Contact(force_N=1000.0, bond_limit_ohm=2.5e-4),
    )
    given = situation(catalogue, joint)
    (before,) = assess([as_it_is(given.before)], [()], given)
    measure = catalogue.mitigations["same-alloy"]
    strict = as_it_is(given.before).on_each(contact=Contact(force_N=1.0, bond_limit_ohm=1e-9))
    (after,) = assess([strict], [(measure,)], given)
    _, obstacle = best_of([Package((measure,), after)], before, given)
    assert obstacle is not None
    assert obstacle.obstacle is Obstacle.ENDS_FUNCTION
    assert "bond limit" in obstacle.detail


def test_of_equals_the_thicker_is_taken_and_the_harmless_before_the_better(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (before,) = assess([as_it_is(given.before)], [()], given)
    measure = catalogue.mitigations["plate-cathode-compatible"]
    thin, thick = (
        as_it_is(given.before).with_surface("second", coated("cu-etp", "sn-matte", um)) for um in (12.0, 30.0)
    )
    trials = assess([thin, thick], [(measure,), (measure,)], given)
    level = [replace(trial, score=0.1) for trial in trials]
    best, obstacle = best_of([Package((measure,), each) for each in level], before, given)
    assert obstacle is None
    assert best.after.arrangement is thick
