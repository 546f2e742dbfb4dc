"""The kinetic witness: which side is eaten, how fast, how far, and how sure that is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade, worst
from service.catalogue.records import ElectrolyteClass, Environment
from service.chemistry.rounding import three_significant
from service.chemistry.sampling import quantiles
from service.judgement.attack import Attack, attack_of
from service.judgement.couples import Couple
from service.judgement.exposed import Exposure
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.lanes import Pairing, kinetics_of, lanes_of, pairings_of
from service.judgement.loss import Loss, losses
from service.judgement.metals import metal_figures
from service.judgement.policy import Policy
from service.judgement.regimes import reason_to_abstain
from service.judgement.severity import Severity, by_rank
from service.judgement.severity import worst as worst_severity

Array = NDArray[np.float64]

DOUBTFUL_BELOW = 0.9
"""Polarity is in doubt when less than this share of the sample agrees on the anode."""

NO_ATTACK_UM_PER_YEAR = 0.05
"""Galvanic rates below this are called none: nothing measures them."""

RENEW_COAT = Condition(
    code="renew-sacrificial-coat",
    action="Inspect and renew the sacrificial coat before it is consumed.",
    who="maintainer",
    how_verified="coat thickness measured at intervals shorter than the stated life",
)


@dataclass(frozen=True, slots=True)
class LaneResult:
    """One solved pairing, summed up over the sample."""

    pairing: Pairing
    anode: Anode
    probability_of_first: float
    severity: Severity
    severity_shares: tuple[float, float, float, float]
    loss: Loss
    figures: dict[str, Any]


@dataclass(frozen=True, slots=True)
class KineticResult:
    """The witness's finding with the lanes behind it; ``lanes`` is empty where it abstains."""

    finding: Finding
    lanes: tuple[LaneResult, ...] = ()
    anode: Anode | None = None
    couple_potential_V: float | None = None

    @property
    def deciding(self) -> LaneResult | None:
        """The lane that set the severity."""
        return max(self.lanes, key=_lane_weight) if self.lanes else None


def kinetic_results(
    couples: Sequence[Couple], environment: Environment, catalogue: Catalogue, policy: Policy
) -> list[KineticResult]:
    """Judge couples by computed loss; one result for each, abstaining where the model does not reach."""
    if environment.electrolyte_class is ElectrolyteClass.NONE:
        return [_without_electrolyte()] * len(couples)
    reason = reason_to_abstain(environment)
    if reason:
        return [_abstaining(reason, ())] * len(couples)
    pairings, gaps = pairings_of(couples, environment, catalogue)
    results = {gap.couple: _abstaining("kinetic figures are missing", gap.missing) for gap in gaps}
    if pairings:
        attack = attack_of(lanes_of(pairings, catalogue), environment, catalogue)
        per_lane = losses(pairings, attack, couples, environment, catalogue, policy)
        by_couple: dict[int, list[LaneResult]] = defaultdict(list)
        for lane, pairing in enumerate(pairings):
            summary = _lane(lane, pairing, per_lane[lane], attack, catalogue, policy)
            by_couple[pairing.couple].append(summary)
        for index, found in by_couple.items():
            results[index] = _result(couples[index], tuple(found), catalogue, policy)
    isolated = {index for index, couple in enumerate(couples) if couple.is_isolated}
    return [
        _isolated() if index in isolated and results[index].lanes else results[index]
        for index in range(len(couples))
    ]


def _lane(
    lane: int,
    pairing: Pairing,
    both: tuple[Loss, Loss],
    attack: Attack,
    catalogue: Catalogue,
    policy: Policy,
) -> LaneResult:
    first, second = (attack.galvanic_density[side, lane] for side in (0, 1))
    share = float(np.mean(first > second)) + 0.5 * float(np.mean(first == second))
    side = 0 if _judged_worse(both) else 1
    loss = both[side]
    ratio = three_significant(loss.ratio)
    rates = three_significant(quantiles(loss.galvanic_rate))
    largest = max(float(np.median(item.galvanic_rate)) for item in both)
    severities = [policy.severity(float(value)) for value in ratio]
    shares = [severities.count(severity) / len(severities) for severity in Severity]
    severity = policy.severity(float(three_significant(quantiles(loss.ratio, (0.95,)))[0]))
    if loss.is_sacrificial_coat:
        severity = severity.capped(Severity.MODERATE)
    if largest < NO_ATTACK_UM_PER_YEAR:
        anode = Anode.NONE
    else:
        anode = Anode.FIRST if share > 0.5 else Anode.SECOND  # noqa: PLR2004 - a half
    del rates
    return LaneResult(
        pairing=pairing,
        anode=anode,
        probability_of_first=share,
        severity=severity,
        severity_shares=(shares[0], shares[1], shares[2], shares[3]),
        loss=loss,
        figures=_figures(lane, side, loss, attack),
    )


def _judged_worse(both: tuple[Loss, Loss]) -> bool:
    """Whether the first side comes out worse; the 95 % loss against each side's own allowance."""
    one, other = (float(quantiles(loss.ratio, (0.95,))[0]) for loss in both)
    return one >= other


def _figures(lane: int, side: int, loss: Loss, attack: Attack) -> dict[str, Any]:
    figures: dict[str, Any] = {"side": (Anode.FIRST, Anode.SECOND)[side].value}
    for name, values in (
        ("galvanic_rate_um_per_year", loss.galvanic_rate),
        ("galvanic_loss_um", loss.galvanic),
        ("deepest_loss_um", loss.deepest),
        ("uncoupled_rate_um_per_year", loss.uncoupled_rate),
        ("uncoupled_loss_um", loss.uncoupled),
        ("loss_over_allowance", loss.ratio),
        ("galvanic_current_density_mA_per_m2", attack.galvanic_density[side, lane] * 1e3),
        ("peak_current_density_mA_per_m2", attack.peak_density[side, lane] * 1e3),
        ("couple_potential_mV_SHE", attack.potential[lane] * 1e3),
        ("reach_mm", attack.reach[side, lane] * 1e3),
    ):
        low, median, high = three_significant(quantiles(values))
        figures[name] = {"median": float(median), "low": float(low), "high": float(high)}
    figures["allowance_um"] = loss.allowance_um
    figures["allowance_basis"] = loss.allowance_basis
    if loss.life_years_low is not None and loss.life_years_high is not None:
        low = float(three_significant(quantiles(loss.life_years_low, (0.05,)))[0])
        high = float(three_significant(quantiles(loss.life_years_high, (0.5,)))[0])
        figures["coat_life_years"] = {"low": low, "high": high}
    return figures


def _result(
    couple: Couple, lanes: tuple[LaneResult, ...], catalogue: Catalogue, policy: Policy
) -> KineticResult:
    deciding = max(lanes, key=_lane_weight)
    primary = next((lane for lane in lanes if lane.pairing.is_primary), deciding)
    severity = worst_severity(lane.severity for lane in lanes)
    agreement = max(primary.probability_of_first, 1.0 - primary.probability_of_first)
    anode = primary.anode if primary.anode is not Anode.NONE else deciding.anode
    converged_grade = _grade(deciding, catalogue)
    finding = Finding(
        Witness.KINETICS,
        _statement(couple, deciding, catalogue, policy),
        severity=severity,
        anode=anode,
        is_polarity_in_doubt=anode is not Anode.NONE and agreement < DOUBTFUL_BELOW,
        confidence=_confidence(deciding, converged_grade),
        grade=converged_grade,
        figures={
            **deciding.figures,
            "probability_of_anode": round(agreement, 3),
            "probability_of_severity": {
                severity.value: round(share, 3)
                for severity, share in zip(Severity, deciding.severity_shares, strict=True)
            },
            "states": [_state(lane, catalogue) for lane in lanes],
        },
        evidence=_evidence(lanes, catalogue),
        conditions=(RENEW_COAT,)
        if deciding.loss.is_sacrificial_coat and severity is Severity.MODERATE
        else (),
    )
    potential = deciding.figures["couple_potential_mV_SHE"]["median"] / 1e3
    return KineticResult(finding, lanes, anode, potential)


def _statement(couple: Couple, lane: LaneResult, catalogue: Catalogue, policy: Policy) -> str:
    side = 0 if lane.figures["side"] == "first" else 1
    electrode = catalogue.electrodes[lane.pairing.electrodes[side].electrode_id]
    partner = catalogue.electrodes[lane.pairing.electrodes[1 - side].electrode_id]
    rate, loss = lane.figures["galvanic_rate_um_per_year"], lane.figures["galvanic_loss_um"]
    years = couple.design_life_years or policy.default_design_life_years
    opening = lane.pairing.electrodes[side].exposure
    where = "" if opening is Exposure.OUTER else f" laid bare at {_OPENING[opening]}"
    return (
        f"{electrode.name}{where} loses {rate['median']:g} um a year to {partner.name} beside the joint "
        f"({rate['low']:g} to {rate['high']:g}), {loss['median']:g} um in {years:g} years (95 %: {loss['high']:g}) "
        f"against an allowance of {lane.loss.allowance_um:g} um ({lane.loss.allowance_basis})."
    )


_OPENING = {Exposure.PORE: "pores", Exposure.WORN: "worn spots", Exposure.DAMAGE: "damage"}


def _state(lane: LaneResult, catalogue: Catalogue) -> dict[str, Any]:
    first, second = kinetics_of(lane.pairing, catalogue)
    return {
        "first": f"{first.electrode_id}, {first.state.value}",
        "second": f"{second.electrode_id}, {second.state.value}",
        "weight": round(lane.pairing.weight, 3),
        "severity": lane.severity.value,
        "anode": lane.anode.value,
    }


def _evidence(lanes: Sequence[LaneResult], catalogue: Catalogue) -> tuple[tuple[str, str], ...]:
    used: dict[tuple[str, str], None] = {}
    metals = metal_figures(catalogue)
    for lane in lanes:
        for record in kinetics_of(lane.pairing, catalogue):
            used["kinetics", record.id] = None
            density = metals[record.electrode_id].density_measurement_id
            if density:
                used["measurements", density] = None
    return tuple(used)


def _grade(lane: LaneResult, catalogue: Catalogue) -> str | None:
    grades = [
        letter
        for record in kinetics_of(lane.pairing, catalogue)
        if (letter := grade(record.obtained, record.fitness, record.plausibility))
    ]
    if any(catalogue.electrodes[item.electrode_id].family == "magnesium" for item in lane.pairing.electrodes):
        grades.append("D")
    return worst(grades)


def _confidence(lane: LaneResult, letter: str | None) -> Confidence:
    certain = max(lane.severity_shares)
    if (letter or "E") <= "B" and certain >= 0.8:  # noqa: PLR2004 - four samples in five
        return Confidence.HIGH
    return Confidence.MEDIUM if certain >= 0.6 else Confidence.LOW  # noqa: PLR2004 - three in five


def _lane_weight(lane: LaneResult) -> tuple[int, float]:
    return lane.severity.rank, lane.figures["loss_over_allowance"]["high"]


def _without_electrolyte() -> KineticResult:
    finding = Finding(
        Witness.KINETICS,
        "No continuous electrolyte is expected here, so no galvanic current flows while it stays dry.",
        severity=by_rank(0),
        anode=Anode.NONE,
        confidence=Confidence.MEDIUM,
        grade="D",
    )
    return KineticResult(finding, (), Anode.NONE)


def _isolated() -> KineticResult:
    finding = Finding(
        Witness.KINETICS,
        "The sides are isolated from each other, so no galvanic current flows while the isolation holds.",
        severity=by_rank(0),
        anode=Anode.NONE,
        confidence=Confidence.MEDIUM,
        grade="D",
        conditions=(
            Condition(
                code="verify-isolation",
                action="Keep an electronic path from forming by any other route (fasteners, pipework, earth).",
                who="assembler",
                how_verified="resistance across the finished joint measured dry",
            ),
        ),
    )
    return KineticResult(finding, (), Anode.NONE)


def _abstaining(reason: str, missing: tuple[str, ...]) -> KineticResult:
    finding = Finding(
        Witness.KINETICS, f"The kinetic model abstains: {reason}.", abstains=reason, missing=missing
    )
    return KineticResult(finding)
