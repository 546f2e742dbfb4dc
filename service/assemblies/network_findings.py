"""What a solved network does to each part: attacked or protected, how fast, how badly, and by whom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from service.assemblies.network import Member, Network, Solution
from service.catalogue.catalogue import Catalogue
from service.chemistry.faraday import deepest_attack, loss_after
from service.chemistry.rounding import three_significant
from service.chemistry.sampling import quantiles
from service.judgement.couples import Couple
from service.judgement.draws import scores
from service.judgement.lane_results import NO_ATTACK_UM_PER_YEAR, severity_ranks
from service.judgement.loss import DEEPEST_COUNTS, allowance_of, between, penetration_of
from service.judgement.metals import metal_figures
from service.judgement.policy import Policy
from service.judgement.severity import Severity, by_rank

Array = NDArray[np.float64]

PROTECTED_BELOW = 0.9
"""A part counts as protected when it dissolves by a tenth less than by itself. House rule."""

SMALLEST_SHARE = 0.05
"""Parts that bring less of the opposing current are not named as its cause."""


class Effect(StrEnum):
    """What a network does to a part."""

    ATTACKED = "attacked"
    PROTECTED = "protected"
    UNCHANGED = "unchanged"


@dataclass(frozen=True, slots=True)
class Bounds:
    """Median with 5 % and 95 % of a figure."""

    low: float
    median: float
    high: float


@dataclass(frozen=True, slots=True)
class PartFinding:
    """One part of a network under the set of states that is worst for it.

    ``rate_um_per_year`` and ``loss_um`` are what the network adds to its self-corrosion;
    ``dissolution`` is how fast it dissolves against by itself. ``partners`` are the parts that feed
    the opposing current with their shares, largest first: the cathodes of an attacked part, the
    anodes of a protected one.
    """

    part: str
    effect: Effect
    severity: Severity
    solution: str
    potential_mV_SHE: Bounds
    current_mA: Bounds
    rate_um_per_year: Bounds
    loss_um: Bounds
    dissolution: Bounds
    allowance_um: float
    allowance_basis: str
    partners: tuple[tuple[str, float], ...]


def part_findings(network: Network, catalogue: Catalogue, policy: Policy) -> tuple[PartFinding, ...]:
    """Find out what a network does to each of its solved parts, each under its worst set of states.

    Parameters
    ----------
    network : Network
        A group that was solved; one that abstains gives nothing.
    catalogue : Catalogue
    policy : Policy
        Bands and allowances [um].

    Returns
    -------
    tuple of PartFinding
        In the order of the members.
    """
    found: dict[int, list[tuple[float, PartFinding]]] = {}
    for solution in network.solutions:
        for index, ratio, finding in _findings(network, solution, catalogue, policy):
            found.setdefault(index, []).append((ratio, finding))
    return tuple(max(found[index], key=lambda entry: entry[0])[1] for index in sorted(found))


def _findings(
    network: Network, solution: Solution, catalogue: Catalogue, policy: Policy
) -> list[tuple[int, float, PartFinding]]:
    """Finding of each member under one set of states, with the ratio of loss to allowance it rests on."""
    by_member: dict[int, list[int]] = {}
    for place, node in enumerate(solution.nodes):
        by_member.setdefault(node.member, []).append(place)
    losses = [
        _node_loss(solution, place, network.members[solution.nodes[place].member], catalogue, policy)
        for place in range(len(solution.nodes))
    ]
    currents = np.stack([solution.net_current[places].sum(axis=0) for places in by_member.values()])
    names = [network.members[index].part for index in by_member]
    result = []
    for own, (index, places) in enumerate(by_member.items()):
        worst = max(places, key=lambda place: losses[place].ratio)
        loss = losses[worst]
        finding = PartFinding(
            part=names[own],
            effect=_effect(loss, solution.dissolution[worst], currents[own]),
            severity=_severity(loss, policy),
            solution=solution.name,
            potential_mV_SHE=_bounds(solution.potential * 1e3),
            current_mA=_bounds(currents[own] * 1e3),
            rate_um_per_year=_bounds(loss.rate),
            loss_um=_bounds(loss.judged),
            dissolution=_bounds(solution.dissolution[worst]),
            allowance_um=float(three_significant(np.float64(loss.allowance_um))),
            allowance_basis=loss.allowance_basis,
            partners=_partners(own, names, currents),
        )
        result.append((index, loss.ratio, finding))
    return result


@dataclass(frozen=True, slots=True)
class _Loss:
    rate: Array
    judged: Array
    allowance_um: float
    allowance_basis: str
    is_coat: bool
    ratio: float


def _node_loss(solution: Solution, place: int, member: Member, catalogue: Catalogue, policy: Policy) -> _Loss:
    """Loss of one electrode over the design life, as for a side of a couple."""
    electrode = solution.nodes[place].electrode
    metal = metal_figures(catalogue)[electrode.electrode_id]
    density = np.maximum(solution.net_current[place] / solution.areas_m2[place], 0.0)
    rate = density * penetration_of(metal)
    decay = between(np.array(metal.decay_low), np.array(metal.decay_high), scores("decay"))
    lost = loss_after(member.design_life_years or policy.default_design_life_years, rate, decay)
    couple = Couple(
        member.surface,
        member.surface,
        functions=member.functions,
        section_allowance_um=member.section_allowance_um,
    )
    allowance, basis, is_coat = allowance_of(electrode, couple, policy)
    if DEEPEST_COUNTS & set(member.functions) and not is_coat:
        low, high = np.log(metal.pitting_low), np.log(metal.pitting_high)
        lost = deepest_attack(lost, np.exp(between(low, high, scores("pitting"))))
    ratio = float(quantiles(lost, (0.95,))[0]) / allowance
    return _Loss(rate, lost, allowance, basis, is_coat, ratio)


def _severity(loss: _Loss, policy: Policy) -> Severity:
    """Severity by the policy's bands; a coat that is spent leaves a new couple behind, no more."""
    rank = int(severity_ranks(three_significant(np.array([loss.ratio])), policy)[0])
    return by_rank(rank).capped(Severity.MODERATE) if loss.is_coat else by_rank(rank)


def _effect(loss: _Loss, dissolution: Array, current: Array) -> Effect:
    if float(np.median(current)) > 0.0:
        is_felt = float(np.median(loss.rate)) >= NO_ATTACK_UM_PER_YEAR
        return Effect.ATTACKED if is_felt else Effect.UNCHANGED
    return Effect.PROTECTED if float(np.median(dissolution)) < PROTECTED_BELOW else Effect.UNCHANGED


def _partners(own: int, names: Sequence[str], currents: Array) -> tuple[tuple[str, float], ...]:
    """Parts of the opposite sign and their share of all such current, in the median of the sample."""
    sign = np.sign(np.median(currents[own]))
    opposing = np.maximum(-sign * currents, 0.0)
    opposing[own] = 0.0
    total = opposing.sum(axis=0)
    shares = np.median(np.divide(opposing, total, out=np.zeros_like(opposing), where=total > 0.0), axis=1)
    ranked = sorted(zip(names, shares, strict=True), key=lambda entry: (-entry[1], entry[0]))
    return tuple((name, round(float(share), 3)) for name, share in ranked if share >= SMALLEST_SHARE)


def _bounds(values: Array) -> Bounds:
    low, median, high = (float(value) for value in three_significant(quantiles(values)))
    return Bounds(low, median, high)
