from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.assemblies import network as network_module
from service.assemblies.network import AREA_PRIOR_M2, Member, Network, solve_network
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.chemistry.sampling import quantiles
from service.judgement import Couple, Geometry, judge
from service.judgement.findings import Witness

SEA = "seawater-quiescent"


def member(material: str, area_m2: float | None = 0.1, *layers: Layer, **more: Condition) -> Member:
    return Member(material, Surface(material, layers, **more), area_m2)


def solved(catalogue: Catalogue, *members: Member, place: str = SEA) -> Network:
    return solve_network(members, catalogue.environments[place], catalogue)


def test_currents_of_all_electrodes_add_up_to_nothing(catalogue: Catalogue) -> None:
    found = solved(
        catalogue, member("zn-pure"), member("al-5083-h116"), member("cu-etp"), member("ss-316l", 2.0)
    )
    assert [solution.name for solution in found.solutions] == ["without biofilm", "with biofilm"]
    for solution in found.solutions:
        total = solution.net_current.sum(axis=0)
        assert np.abs(total).max() < 1e-6 * np.abs(solution.net_current).max()


def test_a_network_of_two_is_their_couple(catalogue: Catalogue) -> None:
    environment = catalogue.environments["sodium-chloride-3-5"]
    first, second = Surface("al-6082-t6"), Surface("cu-etp")
    found = solve_network([Member("a", first, 0.1), Member("b", second, 0.02)], environment, catalogue)
    (solution,) = found.solutions
    couple = Couple(first, second, 0.1, 0.02, geometry=Geometry.IMMERSED)
    (judgement,) = judge([couple], environment, catalogue)
    figures = judgement.findings[Witness.KINETICS].figures
    density = np.maximum(solution.net_current[0] / 0.1, 0.0) * 1e3
    stated = figures["galvanic_current_density_mA_per_m2"]
    expected = [stated["low"], stated["median"], stated["high"]]
    assert quantiles(density) == pytest.approx(expected, rel=5e-3)
    potential = figures["couple_potential_mV_SHE"]["median"]
    assert np.median(solution.potential) * 1e3 == pytest.approx(potential, abs=1.0)


def test_a_sacrificial_part_protects_its_neighbours(catalogue: Catalogue) -> None:
    steel, bronze = member("steel-s355"), member("cu-etp")
    bare = solved(catalogue, steel, bronze, member("ss-316l")).solutions[0]
    guarded = solved(catalogue, steel, bronze, member("ss-316l"), member("zn-pure", 0.3)).solutions[0]
    assert np.median(bare.dissolution[0]) > 1.0
    assert np.median(guarded.dissolution[0]) < 0.5
    assert np.median(guarded.potential) < np.median(bare.potential)


def test_a_third_cathode_drives_attack(catalogue: Catalogue) -> None:
    pair = solved(
        catalogue, member("al-5083-h116"), member("ss-316l"), place="sodium-chloride-3-5"
    ).solutions[0]
    three = solved(
        catalogue,
        member("al-5083-h116"),
        member("ss-316l"),
        member("cu-etp", 1.0),
        place="sodium-chloride-3-5",
    ).solutions[0]
    assert (three.net_current[0] > pair.net_current[0]).all()


def test_an_opening_in_a_coat_is_an_electrode_of_its_own(catalogue: Catalogue) -> None:
    worn = member("brass-cuzn39pb3", 0.01, Layer("ni-electro", 8.0), condition=Condition.WORN)
    (solution,) = solved(catalogue, worn, member("ss-316l"), place="sodium-chloride-3-5").solutions
    openings = [node for node in solution.nodes if node.electrode.defect_radius_m]
    assert len(solution.nodes) == 3
    assert len(openings) == 1
    assert solution.areas_m2.sum(axis=0) == pytest.approx(0.11)


def test_an_unknown_area_is_drawn_from_its_prior(catalogue: Catalogue) -> None:
    found = solved(catalogue, member("zn-pure", None), member("cu-etp", None)).solutions[0]
    low, median, high = quantiles(found.areas_m2[0])
    assert (low, median, high) == pytest.approx(AREA_PRIOR_M2, rel=0.15)
    assert not np.array_equal(found.areas_m2[0], found.areas_m2[1])


def test_what_cannot_be_solved_is_left_out_with_its_reason(catalogue: Catalogue) -> None:
    nameless = Member("x", Surface(None), 0.1)
    odd = member("solder-cdzn")
    found = solved(catalogue, member("zn-pure"), member("cu-etp"), nameless, odd)
    assert found.solutions
    reasons = dict(found.left_out)
    assert reasons["x"] == "the metal of its surface is not known"
    assert reasons.get("solder-cdzn", "no kinetics of").startswith("no kinetics of")


@pytest.mark.parametrize(
    ("place", "reason"),
    [
        ("clean-room", "no continuous electrolyte"),
        ("soil-mild", "outside the kinetic model"),
        ("hot-soft-water", "degC"),
        ("marine-atmosphere-0-100-m", "a film reaches no farther"),
    ],
)
def test_the_model_abstains_where_it_does_not_reach(catalogue: Catalogue, place: str, reason: str) -> None:
    found = solved(catalogue, member("zn-pure"), member("cu-etp"), place=place)
    assert not found.solutions
    assert reason in found.abstains


def test_one_part_is_no_network(catalogue: Catalogue) -> None:
    found = solved(catalogue, member("zn-pure"), Member("x", Surface(None), 0.1))
    assert found.abstains == "fewer than two parts can be solved"
    assert [name for name, _ in found.left_out] == ["x"]


def test_kinetics_that_are_missing_leave_a_part_out(catalogue: Catalogue) -> None:
    environment = replace(catalogue.environments["tap-water-hard"], id="odd")
    without = next(
        material.id
        for material in catalogue.materials.values()
        if material.electrode_id
        and not any(
            row.electrolyte_class is environment.electrolyte_class
            for row in catalogue.kinetics_of.get(material.electrode_id, ())
        )
    )
    found = solve_network([member("zn-pure"), member("cu-etp"), member(without)], environment, catalogue)
    assert [name for name, _ in found.left_out] == [without]
    assert "no kinetics of" in found.left_out[0][1]


def test_a_network_beyond_the_bound_is_not_solved(
    catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(network_module, "MOST_ELECTRODES", 2)
    assert "more than 2" in solved(catalogue, member("zn-pure"), member("cu-etp"), member("ss-316l")).abstains
