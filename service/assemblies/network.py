"""Many parts in one electrolyte: one potential for all, so that one part may protect or drive others.

A couple knows its two sides only. Where more parts are joined electrically and stand in the same
water, all their currents add up to zero together: a sacrificial part lowers the potential of its
neighbours, and a large third cathode raises it. The network is solved like a couple, with the same
kinetics, resistances and uncertainty sample, for as many electrodes as the parts expose.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.assemblies.network_draws import area_scores, draws_of, sampled_branches
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import ElectrodeState, ElectrolyteClass, Environment
from service.catalogue.records import Exposure as Wetting
from service.catalogue.surfaces import Surface
from service.chemistry.branches import Branches
from service.chemistry.kinetics import anodic_current_density
from service.chemistry.mixed_potential import solve, solve_with_resistance
from service.chemistry.sampling import spread_logarithmic
from service.judgement.attack import with_oxygen
from service.judgement.couples import Function
from service.judgement.draws import SAMPLE_SIZE, credible_states, kinetic_arrays, scores
from service.judgement.exposed import ExposedElectrode, exposed_electrodes
from service.judgement.immersed_currents import NEGLIGIBLE_DROP_V, bulk_resistance
from service.judgement.regimes import reason_to_abstain, spells

Array = NDArray[np.float64]

MOST_ELECTRODES = 500
"""Larger networks are cut into their groups by the caller or not solved; bounds memory and time."""

AREA_PRIOR_M2 = (1e-3, 1e-2, 1e-1)
"""5 %, 50 % and 95 % of a wetted area that nobody states: 10 to 1000 cm2. House rule, no source."""


@dataclass(frozen=True, slots=True)
class Member:
    """One part of a network. ``area_m2`` is that of all its pieces, ``None`` where it is not known."""

    part: str
    surface: Surface
    area_m2: float | None
    functions: tuple[Function, ...] = (Function.STRUCTURAL,)
    design_life_years: float | None = None
    section_allowance_um: float | None = None


@dataclass(frozen=True, slots=True)
class Node:
    """One electrode of a network: an exposed metal of a member in one state."""

    member: int
    electrode: ExposedElectrode
    row: int


@dataclass(frozen=True, slots=True)
class Solution:
    """A solved network under one set of states.

    ``potential`` is that of the joined metals (V vs SHE), ``net_current`` the current that leaves
    each electrode (A, anodic positive), ``dissolution`` its anodic current density over that at its
    own corrosion potential: below 1 it is protected. Shapes ``(SAMPLE_SIZE,)`` and
    ``(nodes, SAMPLE_SIZE)``.
    """

    name: str
    nodes: tuple[Node, ...]
    areas_m2: Array
    potential: Array
    net_current: Array
    dissolution: Array


@dataclass(frozen=True, slots=True)
class Network:
    """A group of parts in one electrolyte.

    ``solutions`` holds one entry for each set of credible states; it is empty where the model
    abstains, and ``abstains`` says why. ``left_out`` are members that could not be solved, with the
    reason: the others are solved without them.
    """

    environment: Environment
    members: tuple[Member, ...]
    solutions: tuple[Solution, ...] = ()
    abstains: str = ""
    left_out: tuple[tuple[str, str], ...] = ()


def solve_network(members: Sequence[Member], environment: Environment, catalogue: Catalogue) -> Network:
    """Solve a conductive group in one environment.

    Parameters
    ----------
    members : sequence of Member
        Surfaces and areas [m2] of the parts.
    environment : Environment
        Where all of them live.
    catalogue : Catalogue
        Gives the kinetic figures.

    Returns
    -------
    Network
        Solved where the kinetic model covers the environment and at least two parts.

    Notes
    -----
    Immersed groups only. Under a film a current reaches millimetres to centimetres from a joint line,
    so parts do not share one electrolyte and the couples of the joints are the whole picture.
    """
    whole = Network(environment, tuple(members))
    reason = _reason(environment)
    if reason:
        return Network(environment, whole.members, abstains=reason)
    nodes, left_out = _nodes(members, environment, catalogue)
    if len({member for member, _ in nodes}) < 2:  # noqa: PLR2004 - one part is no network
        return Network(
            environment, whole.members, abstains="fewer than two parts can be solved", left_out=left_out
        )
    if len(nodes) > MOST_ELECTRODES:
        reason = f"more than {MOST_ELECTRODES} electrodes"
        return Network(environment, whole.members, abstains=reason, left_out=left_out)
    solutions = tuple(
        _solution(name, states, members, environment, catalogue)
        for name, states in _scenarios(nodes, environment, catalogue)
    )
    return Network(environment, whole.members, solutions, left_out=left_out)


def _reason(environment: Environment) -> str:
    if environment.electrolyte_class is ElectrolyteClass.NONE:
        return "no continuous electrolyte is expected"
    if reason := reason_to_abstain(environment):
        return reason
    if environment.exposure is not Wetting.IMMERSED:
        return "a film reaches no farther than the joint line beside it; the couples are the whole picture"
    return ""


_Exposed = tuple[int, ExposedElectrode]


def _nodes(
    members: Sequence[Member], environment: Environment, catalogue: Catalogue
) -> tuple[list[_Exposed], tuple[tuple[str, str], ...]]:
    nodes: list[_Exposed] = []
    left_out: list[tuple[str, str]] = []
    for index, member in enumerate(members):
        exposed = exposed_electrodes(member.surface, catalogue, member.surface.condition)
        missing = [
            item.electrode_id
            for item in exposed
            if not credible_states(item.electrode_id, environment, catalogue)
        ]
        if not exposed:
            left_out.append((member.part, "the metal of its surface is not known"))
        elif missing:
            names = ", ".join(dict.fromkeys(missing))
            place = environment.electrolyte_class.value
            left_out.append((member.part, f"no kinetics of {names} in {place} electrolyte"))
        else:
            nodes += [(index, item) for item in exposed]
    return nodes, tuple(left_out)


def _scenarios(
    nodes: Sequence[_Exposed], environment: Environment, catalogue: Catalogue
) -> list[tuple[str, tuple[Node, ...]]]:
    """Sets of states: every metal as it is found without a biofilm, and all ennobled that can be.

    A biofilm is one cause for all parts of one water, so its states come together.
    """
    records = kinetic_arrays(catalogue).records
    plain: list[Node] = []
    ennobled: list[Node] = []
    for member, item in nodes:
        rows = [row for row, _ in credible_states(item.electrode_id, environment, catalogue)]
        noble = [row for row in rows if records[row].state is ElectrodeState.ENNOBLED]
        base = [row for row in rows if records[row].state is not ElectrodeState.ENNOBLED] or noble
        plain.append(Node(member, item, base[0]))
        ennobled.append(Node(member, item, (noble or base)[0]))
    if plain == ennobled:
        return [("as found", tuple(plain))]
    return [("without biofilm", tuple(plain)), ("with biofilm", tuple(ennobled))]


def _solution(
    name: str,
    nodes: tuple[Node, ...],
    members: Sequence[Member],
    environment: Environment,
    catalogue: Catalogue,
) -> Solution:
    (period,) = spells(environment)
    shares = sampled_branches(
        kinetic_arrays(catalogue),
        [node.row for node in nodes],
        draws_of([node.electrode.electrode_id for node in nodes]),
    )
    branches = with_oxygen(shares, period, None)
    areas = _areas(nodes, members)
    conductivity = period.conductivity_S_per_m * period.conductivity_spread ** scores("conductivity")
    resistance = _resistance(nodes, areas, conductivity)
    solved = solve(branches, areas)
    if bool((np.abs(solved.net_current) * resistance > NEGLIGIBLE_DROP_V).any()):
        solved = solve_with_resistance(branches, areas, resistance)
    own = _at_rest(branches, areas.shape)
    dissolution = solved.anodic_current / areas / own
    return Solution(name, nodes, areas, solved.potential, solved.net_current, dissolution)


def _areas(nodes: Sequence[Node], members: Sequence[Member]) -> Array:
    """Wetted areas, drawn from the prior where they are not known, once for all nodes of a member."""
    areas = np.empty((len(nodes), SAMPLE_SIZE))
    low, middle, high = AREA_PRIOR_M2
    order = {part: number for number, part in enumerate(sorted(member.part for member in members))}
    for place, node in enumerate(nodes):
        member = members[node.member]
        stated = member.area_m2
        if stated is None:
            drawn = spread_logarithmic(area_scores(order[member.part]), middle, low, high)
            areas[place] = drawn * node.electrode.area_fraction
        else:
            areas[place] = stated * node.electrode.area_fraction
    return areas


def _resistance(nodes: Sequence[Node], areas: Array, conductivity: Array) -> Array:
    """Resistance of each electrode to the bulk, as in a couple [ohm]."""
    radii = np.array([node.electrode.defect_radius_m or np.inf for node in nodes])[:, None]
    return bulk_resistance(areas, radii, conductivity)


def _at_rest(branches: Branches, shape: tuple[int, ...]) -> Array:
    """Anodic current density of each electrode by itself, at its own corrosion potential [A/m2]."""
    rest = np.broadcast_to(branches.corrosion_potential, shape)
    return np.asarray(anodic_current_density(rest, branches))
