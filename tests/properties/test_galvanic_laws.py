"""What must hold for every couple, whatever its figures."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from service.chemistry.branches import Branches
from service.chemistry.kinetics import (
    anodic_current_density,
    cathodic_current_density,
    integral_of_net_current,
    net_current_density,
)
from service.chemistry.mixed_potential import solve, solve_with_resistance
from service.chemistry.thin_film import round_joint, sheet_joint


def decades(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda exponent: 10.0**exponent)


ELECTRODES = st.builds(
    Branches,
    corrosion_potential=st.floats(-1.4, 0.5),
    corrosion_current=decades(-6.0, 1.0),
    anodic_slope=st.floats(0.02, 0.2),
    cathodic_slope=st.floats(0.05, 0.3),
    limiting_current=decades(-2.0, 1.0),
    water_current=decades(-6.0, -1.0),
    water_slope=st.floats(0.1, 0.2),
    passive=st.booleans(),
    breakdown_potential=st.one_of(st.just(np.nan), st.floats(-0.6, 0.8)),
    breakdown_slope=st.floats(0.01, 0.05),
)
AREAS = decades(-3.0, 3.0)
CONDUCTANCES = decades(-7.0, -2.0)
WIDTHS = decades(-3.0, 0.0)


@given(electrode=ELECTRODES)
def test_every_electrode_is_at_rest_at_its_corrosion_potential(electrode: Branches) -> None:
    assert net_current_density(electrode.corrosion_potential, electrode) == 0.0


@given(electrode=ELECTRODES)
def test_branches_never_turn_back(electrode: Branches) -> None:
    potential = np.linspace(-1.6, 1.0, 200)
    assert (np.diff(anodic_current_density(potential, electrode)) >= 0.0).all()
    assert (np.diff(cathodic_current_density(potential, electrode)) <= 0.0).all()


@given(electrode=ELECTRODES, reach=st.floats(-0.5, 0.5))
def test_the_integral_from_rest_is_never_negative(electrode: Branches, reach: float) -> None:
    rest = float(electrode.corrosion_potential)
    assert integral_of_net_current(rest, rest + reach, electrode) >= -1e-18


@given(first=ELECTRODES, second=ELECTRODES, area=AREAS)
def test_the_order_of_the_electrodes_only_turns_the_sign(
    first: Branches, second: Branches, area: float
) -> None:
    forth, back = solve([first, second], np.array([1.0, area])), solve([second, first], np.array([area, 1.0]))
    assert np.isclose(forth.potential, back.potential, atol=1e-8)
    assert np.isclose(forth.net_current[0], back.net_current[1], rtol=1e-5, atol=1e-15)
    assert forth.net_current.sum() == 0.0


@given(first=ELECTRODES, second=ELECTRODES, area=AREAS)
def test_the_less_noble_electrode_is_the_anode(first: Branches, second: Branches, area: float) -> None:
    couple = solve([first, second], np.array([1.0, area]))
    if abs(float(first.corrosion_potential) - float(second.corrosion_potential)) < 1e-9:
        return
    is_anode = first.corrosion_potential < second.corrosion_potential
    assert (couple.net_current[0] > 0.0) == is_anode
    assert couple.anodic_current[0] >= couple.net_current[0]


@given(anode=ELECTRODES, cathode=ELECTRODES, area=AREAS, growth=st.floats(1.01, 10.0))
def test_more_cathode_never_spares_the_anode(
    anode: Branches, cathode: Branches, area: float, growth: float
) -> None:
    areas = np.array([[1.0, 1.0], [area, area * growth]])
    couple = solve([anode, cathode], areas)
    if anode.corrosion_potential < cathode.corrosion_potential:
        less, more = couple.anodic_current[0]
        assert more >= less * (1.0 - 1e-6)


@given(limit=decades(-1.0, 0.5), share=st.floats(0.3, 3.0))
def test_under_an_oxygen_limit_the_current_follows_the_area_of_the_cathode(
    limit: float, share: float
) -> None:
    aluminium = Branches(-0.55, 1e-4, 0.01, 0.15, limit)
    cathode = Branches(0.2, 1e-2 * limit, 0.06, 0.10, limit)
    small, large = solve([aluminium, cathode], np.array([[1.0, 1.0], [0.1 * share, share]])).net_current[0]
    assert np.isclose(large / small, 10.0, rtol=0.01)


@given(first=ELECTRODES, second=ELECTRODES, ohms=decades(-4.0, 6.0))
def test_resistance_only_takes_current_away(first: Branches, second: Branches, ohms: float) -> None:
    free = solve([first, second], np.ones(2)).net_current[0]
    held = solve_with_resistance([first, second], np.ones(2), np.array([ohms, 0.0])).net_current[0]
    assert abs(held) <= abs(free) * (1.0 + 1e-5) + 1e-15
    assert free * held >= 0.0


@settings(deadline=None)
@given(first=ELECTRODES, second=ELECTRODES, sheet=CONDUCTANCES, widths=st.tuples(WIDTHS, WIDTHS))
def test_a_joint_looked_at_from_the_other_side_is_the_same(
    first: Branches, second: Branches, sheet: float, widths: tuple[float, float]
) -> None:
    forth = sheet_joint(first, second, sheet, *widths)
    back = sheet_joint(second, first, sheet, *widths[::-1])
    assert forth.converged
    assert np.isclose(forth.current_per_metre, -back.current_per_metre, rtol=1e-6, atol=1e-300)
    assert np.isclose(forth.joint_potential, back.joint_potential, atol=1e-7)


@settings(deadline=None)
@given(first=ELECTRODES, second=ELECTRODES, sheet=CONDUCTANCES, widths=st.tuples(WIDTHS, WIDTHS))
def test_an_end_never_adds_current(
    first: Branches, second: Branches, sheet: float, widths: tuple[float, float]
) -> None:
    ended, endless = sheet_joint(first, second, sheet, *widths), sheet_joint(first, second, sheet)
    assert abs(ended.current_per_metre) <= abs(endless.current_per_metre) * (1.0 + 2e-4)


@settings(deadline=None)
@given(anode=ELECTRODES, cathode=ELECTRODES, sheet=CONDUCTANCES, radius=decades(-3.0, -1.0))
def test_round_joints_always_have_an_answer(
    anode: Branches, cathode: Branches, sheet: float, radius: float
) -> None:
    joint = round_joint(anode, cathode, sheet, 1.0, radius)
    assert joint.converged
    assert 0.0 <= joint.anodic_reach <= radius * (1.0 + 1e-9)
    assert joint.mean_anodic_current_density >= 0.0


@given(st.lists(ELECTRODES, min_size=2, max_size=6), st.integers(0, 10_000))
def test_many_are_solved_as_one(electrodes: list[Branches], seed: int) -> None:
    areas = 10.0 ** np.random.default_rng(seed).uniform(-2.0, 2.0, len(electrodes))
    alone = solve(electrodes, areas)
    together = solve(electrodes, np.repeat(areas[:, None], 3, axis=1) * np.array([1.0, 0.5, 7.0]))
    assert together.potential[0] == alone.potential
    rest = [float(electrode.corrosion_potential) for electrode in electrodes]
    assert min(rest) <= float(alone.potential) <= max(rest)
    assert alone.converged
