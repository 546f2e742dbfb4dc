"""The kinetic witness: which side is eaten, how fast, how far, and how sure that is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade, worst
from service.catalogue.records import ElectrolyteClass, Environment
from service.judgement.attack import attack_of
from service.judgement.backing import backing_of
from service.judgement.couples import Couple
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.kinetic_statement import OPENINGS, kinetic_statement
from service.judgement.lane_results import LaneResult, lane_results
from service.judgement.lanes import kinetics_of, lanes_of, pairings_of
from service.judgement.loss import losses
from service.judgement.metals import metal_figures
from service.judgement.policy import Policy
from service.judgement.regimes import reason_to_abstain
from service.judgement.severity import Severity
from service.judgement.severity import worst as worst_severity
from service.judgement.spent_coats import successor, with_successors

DOUBTFUL_BELOW = 0.9
"""Polarity is in doubt when less than this share of the sample agrees on the anode."""

RENEW_COAT = Condition(
    code="renew-sacrificial-coat",
    action="Inspect and renew the sacrificial coat before it is consumed.",
    who="maintainer",
    how_verified="coat thickness measured at intervals shorter than the stated life",
)

VERIFY_ISOLATION = Condition(
    code="verify-isolation",
    action="Keep an electronic path from forming by any other route (fasteners, pipework, earth).",
    who="assembler",
    how_verified="resistance across the finished joint measured dry",
)


@dataclass(frozen=True, slots=True)
class KineticResult:
    """The witness's finding with the lanes behind it; ``lanes`` is empty where it abstains.

    ``less_noble`` is the side that would be the anode, however small the attack; none for like on like.
    """

    finding: Finding
    lanes: tuple[LaneResult, ...] = ()
    less_noble: Anode | None = None
    couple_potential_V: float | None = None


def kinetic_results(
    couples: Sequence[Couple], environment: Environment, catalogue: Catalogue, policy: Policy
) -> list[KineticResult]:
    """Judge couples by computed loss; one result for each, abstaining where the model does not reach.

    Parameters
    ----------
    couples : sequence of Couple
    environment : Environment
        All couples share it.
    catalogue : Catalogue
        Gives kinetics, densities and compositions.
    policy : Policy
        Gives severity bounds [-], allowances [um] and the default life [years].

    Returns
    -------
    list of KineticResult
        In the order of ``couples``. Rates in micrometres a year [um/y], losses over the design
        life [um], potentials [mV vs SHE], each with median and 5 and 95 % quantile.
    """
    if environment.electrolyte_class is ElectrolyteClass.NONE:
        return [_WITHOUT_ELECTROLYTE] * len(couples)
    reason = reason_to_abstain(environment)
    if reason:
        return [_ISOLATED if couple.is_isolated else _abstaining(reason, ()) for couple in couples]
    pairings, gaps = pairings_of(couples, environment, catalogue)
    results = {gap.couple: _abstaining("kinetic figures are missing", gap.missing) for gap in gaps}
    if pairings:
        attack = attack_of(lanes_of(pairings, catalogue), environment, catalogue)
        lost = losses(pairings, attack, couples, environment, catalogue, policy)
        by_couple: dict[int, list[LaneResult]] = defaultdict(list)
        for result in lane_results(pairings, attack, lost, catalogue, policy):
            by_couple[result.pairing.couple].append(result)
        for index, found in by_couple.items():
            is_solved = all(lane.is_solved for lane in found)
            solved = _result(couples[index], tuple(found), catalogue, policy) if is_solved else _UNSOLVED
            results[index] = solved
        results |= _followed(results, couples, environment, catalogue, policy)
    return [_ISOLATED if couple.is_isolated else results[index] for index, couple in enumerate(couples)]


def _followed(
    results: dict[int, KineticResult],
    couples: Sequence[Couple],
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy,
) -> dict[int, KineticResult]:
    """Results of couples whose coat is spent, with what follows taken into account."""
    followers = {
        place: follower
        for place, result in results.items()
        if result.finding.severity is not Severity.SEVERE  # which nothing that follows makes worse
        and (follower := successor(couples[place], result.lanes, catalogue, policy))
    }
    if not followers:
        return {}

    def judge_again(later: list[Couple]) -> list[Finding]:
        return [result.finding for result in kinetic_results(later, environment, catalogue, policy)]

    findings = {place: results[place].finding for place in followers}
    followed = with_successors(findings, followers, judge_again)
    return {place: replace(results[place], finding=finding) for place, finding in followed.items()}


def _result(
    couple: Couple, lanes: tuple[LaneResult, ...], catalogue: Catalogue, policy: Policy
) -> KineticResult:
    deciding = max(lanes, key=_lane_weight)
    primary = next((lane for lane in lanes if lane.pairing.is_primary), deciding)
    severity = worst_severity(lane.severity for lane in lanes)
    agreement = max(primary.probability_of_first, 1.0 - primary.probability_of_first)
    anode = primary.anode if primary.anode is not Anode.NONE else _eaten(lanes, deciding)
    letter = _grade(deciding, catalogue)
    needs_renewal = any(lane.is_coat and lane.figures["loss_over_allowance"]["high"] > 1.0 for lane in lanes)
    finding = Finding(
        Witness.KINETICS,
        kinetic_statement(couple, deciding, catalogue, policy),
        severity=severity,
        anode=anode,
        is_polarity_in_doubt=anode is not Anode.NONE and agreement < DOUBTFUL_BELOW,
        confidence=_confidence(deciding, letter),
        grade=letter,
        figures={
            **deciding.figures,
            "probability_of_anode": round(agreement, 3),
            "probability_of_severity": {
                word.value: round(share, 3)
                for word, share in zip(Severity, deciding.severity_shares, strict=True)
            },
            "states": [_state(lane, catalogue) for lane in lanes],
            **_laid_bare(deciding),
        },
        evidence=_evidence(lanes, catalogue),
        conditions=(RENEW_COAT,) if needs_renewal else (),
    )
    potential = deciding.figures["couple_potential_mV_SHE"]["median"] / 1e3
    return KineticResult(finding, lanes, _less_noble(primary), potential)


def _laid_bare(lane: LaneResult) -> dict[str, Any]:
    """Where the metal that dissolves lies bare, if a coat leaves only parts of it open."""
    opening = OPENINGS.get(lane.pairing.electrodes[lane.side].exposure)
    return {"laid_bare_at": opening} if opening else {}


def _eaten(lanes: Sequence[LaneResult], deciding: LaneResult) -> Anode:
    """The side eaten where lanes are as bad as the deciding one; both where they name different sides."""
    worst = _lane_weight(deciding)
    sides = {lane.anode for lane in lanes if _lane_weight(lane) == worst} - {Anode.NONE}
    return Anode.BOTH if len(sides) > 1 else next(iter(sides), Anode.NONE)


def _less_noble(lane: LaneResult) -> Anode | None:
    """The side that is the anode in most of the sample; ``None`` for like on like."""
    if lane.probability_of_first == 0.5:  # noqa: PLR2004 - a half
        return None
    return Anode.FIRST if lane.probability_of_first > 0.5 else Anode.SECOND  # noqa: PLR2004 - a half


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
    """Kinetics of both sides with what bears them out, and the density of the side that is eaten."""
    used: dict[tuple[str, str], None] = {}
    metals, backing = metal_figures(catalogue), backing_of(catalogue)
    for lane in lanes:
        for side, record in enumerate(kinetics_of(lane.pairing, catalogue)):
            used["kinetics", record.id] = None
            used |= {("measurements", row_id): None for row_id in backing[record.id]}
            density = metals[record.electrode_id].density_measurement_id
            if density and side == lane.side:
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


_WITHOUT_ELECTROLYTE = KineticResult(
    Finding(
        Witness.KINETICS,
        "No continuous electrolyte is expected here, so no galvanic current flows while it stays dry.",
        severity=Severity.NONE,
        anode=Anode.NONE,
        confidence=Confidence.MEDIUM,
        grade="D",
    ),
)

_ISOLATED = KineticResult(
    Finding(
        Witness.KINETICS,
        "The sides are isolated from each other, so no galvanic current flows while the isolation holds.",
        severity=Severity.NONE,
        anode=Anode.NONE,
        confidence=Confidence.MEDIUM,
        grade="D",
        conditions=(VERIFY_ISOLATION,),
    ),
)


def _abstaining(reason: str, missing: tuple[str, ...]) -> KineticResult:
    finding = Finding(
        Witness.KINETICS, f"The kinetic model abstains: {reason}.", abstains=reason, missing=missing
    )
    return KineticResult(finding)


_UNSOLVED = _abstaining("the currents of the couple could not be solved", ())
