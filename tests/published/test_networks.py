"""Networks of many electrodes: against cases worked by hand, and against scipy on other code.

The hand-worked cases are the construction of C. Wagner and W. Traud, Zeitschrift fuer Elektrochemie 44
(1938) 391 (mixed potentials; from memory), for three metals: the arithmetic stands beside each number.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq  # type: ignore[import-untyped]

from service.assemblies.network import Member, Solution, solve_network
from service.assemblies.network_draws import draws_of, sampled_branches
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.chemistry.branches import Branches
from service.chemistry.immersed import disk_resistance
from service.chemistry.kinetics import anodic_current_density
from service.chemistry.mixed_potential import solve
from service.judgement.attack import with_oxygen
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays, scores
from service.judgement.regimes import spells
from tests.factories.random_joints import lane
from tests.factories.scalar_kinetics import net_current
from tests.seed_catalogue import seed_catalogue

ANODE = Branches(-0.95, 1e-4, 0.05, 0.12, 0.2)
"""Corrosion potential [V], current [A/m2], both slopes [V/decade], oxygen limit [A/m2]."""


def cathode(rest_V: float, limit_A_per_m2: float = 0.2) -> Branches:
    """A metal that does not dissolve here and carries its oxygen limit 0.5 V below rest."""
    return Branches(rest_V, 1e-5, 0.12, 0.1, limit_A_per_m2, passive=True)


def test_two_starved_cathodes_feed_one_anode() -> None:
    """Both cathodes carry their oxygen limit: 2 m2 and 3 m2 at 0.2 A/m2 are 0.4 A and 0.6 A.

    The anode of 1 m2 gives 1.0 A = 1e-4 A x 10^4, so it stands 4 x 0.05 V above its rest at -0.95 V.
    """
    found = solve([ANODE, cathode(0.0), cathode(0.2)], np.array([1.0, 2.0, 3.0]))
    assert float(found.potential) == pytest.approx(-0.750, abs=2e-5)
    assert found.net_current == pytest.approx(np.array([1.0, -0.4, -0.6]), rel=1e-3)


def test_a_third_metal_drives_attack_in_proportion() -> None:
    """Without the second cathode the anode gives 0.4 A: log10(0.4 / 1e-4) = 3.602, 0.1801 V above rest."""
    found = solve([ANODE, cathode(0.0)], np.array([1.0, 2.0]))
    assert float(found.potential) == pytest.approx(-0.95 + 0.05 * 3.60206, abs=2e-5)
    three = solve([ANODE, cathode(0.0), cathode(0.2)], np.array([1.0, 2.0, 3.0]))
    assert float(three.net_current[0] / found.net_current[0]) == pytest.approx(2.5, rel=1e-3)


def test_like_anodes_share_the_current_by_area() -> None:
    """Two pieces of one metal, 3 m2 and 1 m2, carry three quarters and one quarter of 0.4 A."""
    found = solve([ANODE, ANODE, cathode(0.0)], np.array([3.0, 1.0, 2.0]))
    assert found.net_current == pytest.approx(np.array([0.3, 0.1, -0.4]), rel=2e-3)


def test_a_large_zinc_pins_the_potential_and_protects_steel() -> None:
    """Zinc of a million square metres stays at its rest, -0.78 V; steel rests at -0.60 V.

    Steel is 0.18 V below its rest, three decades of 0.06 V: it dissolves a thousand times more slowly.
    """
    zinc, steel, copper = (
        Branches(-0.78, 0.1, 0.04, 0.12, 0.3), Branches(-0.60, 0.1, 0.06, 0.12, 0.3), cathode(0.0),
    )  # fmt: skip
    found = solve([zinc, steel, copper], np.array([1e6, 1.0, 1.0]))
    assert float(found.potential) == pytest.approx(-0.78, abs=1e-5)
    at_rest = float(anodic_current_density(-0.60, steel))
    assert float(found.anodic_current[1]) / at_rest == pytest.approx(1e-3, rel=1e-3)
    assert found.net_current[1] < 0 < found.net_current[0]


def test_straight_lines_meet_where_the_sums_of_exchange_do() -> None:
    """Tafel lines alone, two anodes of one slope and a cathode without a limit.

    Anodes: 1e-3 x 10^(0.70/0.06) = 4.642e8 and 2e-3 x 10^(0.64/0.06) = 9.283e7, together 5.570e8, whose
    logarithm is 8.7459. Cathode: log10(4e-3) + 0.10/0.12 = -1.5646. The lines meet at
    E = (-1.5646 - 8.7459) / (1/0.06 + 1/0.12) = -10.3105 / 25 = -0.4124 V.
    """
    crossing = -0.41242
    endless = 1e9
    metals = [
        Branches(-0.70, 1e-3, 0.06, 0.12, endless),
        Branches(-0.64, 1e-3, 0.06, 0.12, endless),
        Branches(0.10, 1e-3, 0.12, 0.12, endless),
    ]
    found = solve(metals, np.array([1.0, 2.0, 4.0]))
    assert float(found.potential) == pytest.approx(crossing, abs=1e-5)


MEMBERS = {
    "seawater-quiescent": ("steel-s355", "cu-etp", "zn-pure", "ss-316l", "ti-gr5", "bronze-cual10ni5fe4"),
    "sodium-chloride-3-5": ("al-5083-h116", "steel-s355", "cu-etp", "ss-316l"),
    "tap-water-soft": ("zn-pure", "steel-s355", "cu-dhp", "brass-cuzn37"),
}


@pytest.mark.parametrize("place", list(MEMBERS))
def test_networks_of_the_catalogue_agree_with_scipy(place: str) -> None:
    catalogue = seed_catalogue()
    environment = catalogue.environments[place]
    rng = np.random.default_rng(len(place))
    known = [name for name in MEMBERS[place] if name in catalogue.materials]
    assert len(known) >= 3
    worn = Surface("brass-cuzn39pb3", (Layer("ni-electro", 8.0),), condition=Condition.WORN)
    members = [Member(name, Surface(name), float(10 ** rng.uniform(-3, 0))) for name in known]
    members.append(Member("worn", worn, 0.02))
    network = solve_network(members, environment, catalogue)
    assert network.left_out == ()
    for solution in network.solutions:
        for point in range(0, SAMPLE_SIZE, 7):
            expected = _by_scipy(solution, point, place, catalogue)
            assert solution.potential[point] == pytest.approx(expected, abs=1e-4)


def _by_scipy(solution: Solution, point: int, place: str, catalogue: Catalogue) -> float:
    """Common potential of one point of the sample: nested brentq on the kinetics in plain Python."""
    (period,) = spells(catalogue.environments[place])
    shares = sampled_branches(
        kinetic_arrays(catalogue),
        [node.row for node in solution.nodes],
        draws_of([node.electrode.electrode_id for node in solution.nodes]),
    )
    branches = with_oxygen(shares, period, None)
    currents = [net_current(lane(_row(branches, number), point)) for number in range(len(solution.nodes))]
    rests = np.broadcast_to(branches.corrosion_potential, (len(solution.nodes), SAMPLE_SIZE))[
        :, point
    ].tolist()
    conductivity = period.conductivity_S_per_m * period.conductivity_spread ** scores("conductivity")[point]
    areas = solution.areas_m2[:, point].tolist()
    ohms = []
    for node, area in zip(solution.nodes, areas, strict=True):
        radius = node.electrode.defect_radius_m or np.sqrt(area / np.pi)
        count = max(area / (np.pi * radius**2), 1.0) if node.electrode.defect_radius_m else 1.0
        ohms.append(float(disk_resistance(conductivity, radius)) / count)

    def passed(common: float) -> float:
        total = 0.0
        for current, rest, area, ohm in zip(currents, rests, areas, ohms, strict=True):

            def drop(local: float, current=current, area=area, ohm=ohm) -> float:  # type: ignore[no-untyped-def]  # noqa: ANN001
                return float(local - common + area * ohm * current(local))

            low, high = min(rest, common) - 1e-9, max(rest, common) + 1e-9
            total += area * current(brentq(drop, low, high, xtol=1e-13))
        return total

    if _drops_nowhere(solution, ohms):
        return float(
            brentq(
                lambda e: sum(a * i(e) for a, i in zip(areas, currents, strict=True)), min(rests), max(rests)
            )
        )
    return float(brentq(passed, min(rests), max(rests), xtol=1e-10))


def _row(branches: Branches, number: int) -> Branches:
    """One electrode of a stack, all its points."""
    values = {}
    for name in Branches.__slots__:
        column = np.asarray(getattr(branches, name))
        values[name] = column[number] if column.ndim > 1 and column.shape[0] > 1 else column.reshape(-1)
    return Branches(**{name: np.broadcast_to(value, (SAMPLE_SIZE,)) for name, value in values.items()})


def _drops_nowhere(solution: Solution, ohms: list[float]) -> bool:
    """Whether the network was solved without resistances: every drop below 10 mV at every point."""
    return bool((np.abs(solution.net_current) * np.array(ohms)[:, None]).max() < 0.005)
