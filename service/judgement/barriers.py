"""What stands between two metals: isolation and coats silence witnesses that speak of bare metal in contact.

Documented experience, reversals and potential differences are about bare surfaces that touch. Where no
electronic path exists, or the side that is not eaten is painted, they say nothing about the joint as it is,
and the computed loss at what remains open decides. Paint on the eaten side alone silences nobody. Where an
opening in a coat lays another metal bare and that one suffers more, good experience with the outer metals is
no comfort.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import FinishRole, RuleKind
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import Couple
from service.judgement.exposed import insulating_finish, outer_electrode_id
from service.judgement.findings import Anode, Finding, Witness
from service.judgement.lane_results import LaneResult
from service.judgement.rule_witnesses import anode_of, severity_of
from service.judgement.rules import Hit
from service.judgement.severity import Severity, worst
from service.judgement.triggers import parse

_OF_BARE_METAL_IN_CONTACT = {RuleKind.EXPERIENCE, RuleKind.REVERSAL}


def hits_that_speak(
    couple: Couple, found: Sequence[Hit], lanes: Sequence[LaneResult], catalogue: Catalogue
) -> list[Hit]:
    """Rules that still speak of a couple behind its barriers.

    Parameters
    ----------
    couple : Couple
    found : sequence of Hit
        Rules that match the couple's facts.
    lanes : sequence of LaneResult
        What was computed for the metals that the electrolyte reaches.
    catalogue : Catalogue

    Returns
    -------
    list of Hit
        In the order of ``found``.
    """
    if _is_worse_beneath(couple, lanes, catalogue):
        found = [hit for hit in found if not _is_benign_experience(hit)]
    covered = {
        side
        for side, surface in ((Anode.FIRST, couple.first), (Anode.SECOND, couple.second))
        if _is_painted(surface, catalogue)
    }
    if not couple.is_isolated and not covered:
        return list(found)
    return [hit for hit in found if not _is_silenced(hit, couple, covered)]


def screening_behind(couple: Couple, finding: Finding) -> Finding:
    """Screening of a couple; it abstains where no electronic path joins the sides.

    Parameters
    ----------
    couple : Couple
    finding : Finding
        What screening says of the bare metals.

    Returns
    -------
    Finding
    """
    if not couple.is_isolated or not finding.applies:
        return finding
    return Finding(
        Witness.SCREENING,
        "The sides are isolated from each other, so a potential difference drives no current between them.",
        abstains="no electronic path",
    )


def _is_worse_beneath(couple: Couple, lanes: Sequence[LaneResult], catalogue: Catalogue) -> bool:
    """Whether a metal that a coat leaves open suffers more than the outer metals do."""
    if not couple.first.layers and not couple.second.layers:
        return False
    outer = tuple(outer_electrode_id(side, catalogue) for side in (couple.first, couple.second))
    severities: dict[bool, list[Severity]] = {True: [], False: []}
    for lane in lanes:
        met = tuple(electrode.electrode_id for electrode in lane.pairing.electrodes)
        severities[met == outer].append(lane.severity)
    beneath = worst(severities[False])
    return beneath.rank >= Severity.MODERATE.rank and beneath.rank > worst(severities[True]).rank


def _is_benign_experience(hit: Hit) -> bool:
    severity = severity_of(hit.rule)
    is_benign = severity is not None and severity.rank < Severity.MODERATE.rank
    return is_benign and hit.rule.kind is RuleKind.EXPERIENCE and _is_about_a_pair(hit)


def _is_about_a_pair(hit: Hit) -> bool:
    return "pair" in parse(hit.rule.id, hit.rule.trigger)


def _is_silenced(hit: Hit, couple: Couple, covered: set[Anode]) -> bool:
    if hit.rule.kind not in _OF_BARE_METAL_IN_CONTACT or not _is_about_a_pair(hit):
        return False
    severity = severity_of(hit.rule)
    if severity is None or severity.rank < Severity.MODERATE.rank:
        return False
    if couple.is_isolated:
        return True
    eaten = anode_of(hit)
    return covered >= {Anode.FIRST, Anode.SECOND} if eaten is None else eaten.other in covered


def _is_painted(surface: Surface, catalogue: Catalogue) -> bool:
    """Whether a sound insulating paint hides the metal; anodic films stay open at edges and holes."""
    finish = insulating_finish(surface, catalogue)
    return (
        finish is not None
        and finish.role is FinishRole.ORGANIC
        and surface.condition is not Condition.DAMAGED
    )
