"""What stands between two metals: isolation and paint silence witnesses that speak of bare metal in contact.

Documented experience, reversals and potential differences are about bare surfaces that touch. Where no
electronic path exists, or the side that is not eaten is painted, they say nothing about the joint as it is,
and the computed loss at what remains open decides. Paint on the eaten side alone silences nobody.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import FinishRole, RuleKind
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import Couple
from service.judgement.exposed import insulating_finish
from service.judgement.findings import Anode, Finding, Witness
from service.judgement.rule_witnesses import anode_of, severity_of
from service.judgement.rules import Hit, parse
from service.judgement.severity import Severity

_OF_BARE_METAL_IN_CONTACT = {RuleKind.EXPERIENCE, RuleKind.REVERSAL}


def hits_that_speak(couple: Couple, found: Sequence[Hit], catalogue: Catalogue) -> list[Hit]:
    """Rules that still speak of a couple behind its barriers; benign experience always does.

    Parameters
    ----------
    couple : Couple
    found : sequence of Hit
        Rules that match the couple's facts.
    catalogue : Catalogue

    Returns
    -------
    list of Hit
        In the order of ``found``.
    """
    covered = {
        side
        for side, surface in ((Anode.FIRST, couple.first), (Anode.SECOND, couple.second))
        if _is_painted(surface, catalogue)
    }
    if not couple.is_isolated and not covered:
        return list(found)
    return [hit for hit in found if not _is_silenced(hit, couple, covered)]


def screening_behind(couple: Couple, finding: Finding) -> Finding:
    """Screening of a couple; it abstains where no electronic path joins the sides."""
    if not couple.is_isolated or not finding.applies:
        return finding
    return Finding(
        Witness.SCREENING,
        "The sides are isolated from each other, so a potential difference drives no current between them.",
        abstains="no electronic path",
    )


def _is_silenced(hit: Hit, couple: Couple, covered: set[Anode]) -> bool:
    if hit.rule.kind not in _OF_BARE_METAL_IN_CONTACT or "pair" not in parse(hit.rule.id, hit.rule.trigger):
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
