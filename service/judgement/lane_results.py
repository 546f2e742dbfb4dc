"""Summing a solved sample up into words and figures, for all lanes at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.chemistry.rounding import three_significant
from service.chemistry.sampling import quantiles
from service.judgement.attack import Attack
from service.judgement.exposed import Exposure
from service.judgement.findings import Anode
from service.judgement.lanes import Pairing
from service.judgement.loss import Losses
from service.judgement.policy import Policy
from service.judgement.severity import Severity

NO_ATTACK_UM_PER_YEAR = 0.05
"""Galvanic rates below this are called none: nothing measures them."""


@dataclass(frozen=True, slots=True)
class LaneResult:
    """One solved pairing, summed up over the sample.

    ``side`` is the one that comes out worse against its own allowance (0 first, 1 second);
    ``figures`` describe that side. ``probability_of_first`` is the share of the sample in which
    the first side is the anode; ``is_solved`` tells whether every point of the sample has an answer.
    """

    pairing: Pairing
    side: int
    anode: Anode
    probability_of_first: float
    severity: Severity
    severity_shares: tuple[float, ...]
    is_coat: bool
    is_solved: bool
    figures: dict[str, Any]


def lane_results(
    pairings: Sequence[Pairing], attack: Attack, lost: Losses, catalogue: Catalogue, policy: Policy
) -> list[LaneResult]:
    """Sum up every lane.

    Parameters
    ----------
    pairings : sequence of Pairing
        One for each lane.
    attack : Attack
        Currents [A/m2], potential [V vs SHE] and reach [m].
    lost : Losses
        Losses [um] and rates [um/y].
    catalogue : Catalogue
        Names the families of coat and partner.
    policy : Policy
        Severity bounds [-].

    Returns
    -------
    list of LaneResult
        In the order of ``pairings``. Ratios are rounded to three significant figures before they
        meet a bound, and figures before they are shown.
    """
    worst = quantiles(lost.ratio, (0.95,))[0]
    sides = np.where(worst[0] >= worst[1], 0, 1)
    lanes = np.arange(len(pairings))
    first, second = attack.galvanic_density
    is_first = ((first > second).mean(axis=-1) + 0.5 * (first == second).mean(axis=-1)).tolist()
    strongest = three_significant(np.median(lost.galvanic_rate, axis=-1).max(axis=0)).tolist()
    ranks = severity_ranks(three_significant(lost.ratio[sides, lanes]), policy)
    judged = severity_ranks(three_significant(worst[sides, lanes]), policy).tolist()
    shares = np.stack([(ranks == rank).mean(axis=-1) for rank in range(len(_SEVERITIES))], axis=-1).tolist()
    figures = _figures(sides, attack, lost)
    results = []
    for lane, (pairing, side) in enumerate(zip(pairings, sides.tolist(), strict=True)):
        is_coat = bool(lost.is_coat[side, lane])
        severity = _SEVERITIES[judged[lane]]
        results.append(
            LaneResult(
                pairing=pairing,
                side=side,
                anode=_anode(is_first[lane], strongest[lane], side),
                probability_of_first=is_first[lane],
                severity=severity.capped(_cap(pairing, side, catalogue, is_coat=is_coat)),
                severity_shares=tuple(shares[lane]),
                is_coat=is_coat,
                is_solved=bool(attack.is_solved[lane]),
                figures=figures[lane],
            )
        )
    return results


_SEVERITIES = tuple(Severity)


def _cap(pairing: Pairing, side: int, catalogue: Catalogue, *, is_coat: bool) -> Severity:
    """Worst that a computed loss can mean.

    A coat that protects metal of the partner's own family is spent as intended; any other leaves
    a new couple behind when it is gone, which must be prevented. Pits at the edges of a sound
    anodic film stay few and small beside the section, so they call for conditions, not refusal.
    """
    if not is_coat:
        is_edge = pairing.electrodes[side].exposure is Exposure.EDGE
        return Severity.MODERATE if is_edge else Severity.SEVERE
    beneath = catalogue.electrodes.get(pairing.electrodes[side].beneath_id)
    partner = catalogue.electrodes[pairing.electrodes[1 - side].electrode_id]
    is_spent_as_intended = beneath is not None and beneath.family == partner.family
    return Severity.SLIGHT if is_spent_as_intended else Severity.MODERATE


def severity_ranks(ratio: NDArray[np.float64], policy: Policy) -> NDArray[np.intp]:
    """Place in the order of severities of each ratio; a bound belongs to the milder word.

    Parameters
    ----------
    ratio : ndarray
        Loss over allowance [-].
    policy : Policy
        Severity bounds [-].

    Returns
    -------
    ndarray of int
        0 for none to 3 for severe, same shape [-].
    """
    return np.asarray(np.searchsorted(np.array(policy.severity_bounds), ratio, side="left"), dtype=np.intp)


def _anode(probability_of_first: float, strongest_um_per_year: float, worse_side: int) -> Anode:
    """The side that is the anode in most of the sample; in a draw the one that suffers more."""
    if strongest_um_per_year < NO_ATTACK_UM_PER_YEAR:
        return Anode.NONE
    if probability_of_first == 0.5:  # noqa: PLR2004 - a half
        return (Anode.FIRST, Anode.SECOND)[worse_side]
    return Anode.FIRST if probability_of_first > 0.5 else Anode.SECOND  # noqa: PLR2004 - a half


def _figures(sides: NDArray[np.intp], attack: Attack, lost: Losses) -> list[dict[str, Any]]:
    lanes = np.arange(sides.size)
    sampled = {
        "galvanic_rate_um_per_year": lost.galvanic_rate[sides, lanes],
        "galvanic_loss_um": lost.galvanic[sides, lanes],
        "deepest_loss_um": lost.deepest[sides, lanes],
        "uncoupled_rate_um_per_year": lost.uncoupled_rate[sides, lanes],
        "uncoupled_loss_um": lost.uncoupled[sides, lanes],
        "loss_over_allowance": lost.ratio[sides, lanes],
        "galvanic_current_density_mA_per_m2": attack.galvanic_density[sides, lanes] * 1e3,
        "peak_current_density_mA_per_m2": attack.peak_density[sides, lanes] * 1e3,
        "couple_potential_mV_SHE": attack.potential * 1e3,
        "reach_mm": attack.reach[sides, lanes] * 1e3,
    }
    bounds = {name: three_significant(quantiles(values)).T.tolist() for name, values in sampled.items()}
    life_low = three_significant(quantiles(lost.life_low[sides, lanes], (0.05,))[0])
    life_high = three_significant(quantiles(lost.life_high[sides, lanes], (0.5,))[0])
    described = []
    for lane, side in enumerate(sides.tolist()):
        figures: dict[str, Any] = {"side": (Anode.FIRST, Anode.SECOND)[side].value}
        for name, values in bounds.items():
            low, median, high = values[lane]
            figures[name] = {"median": median, "low": low, "high": high}
        figures["allowance_um"] = float(lost.allowance_um[side, lane])
        figures["allowance_basis"] = lost.allowance_basis[side][lane]
        if lost.is_coat[side, lane]:
            figures["coat_life_years"] = {"low": float(life_low[lane]), "high": float(life_high[lane])}
        described.append(figures)
    return described
