"""What follows when a coat is spent: the metal beneath takes its place in the couple.

A coat whose median loss over the design life exceeds its thickness is gone before the joint is
retired. The couple is then judged once more without it, over the years that are left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import FinishRole
from service.catalogue.surfaces import Surface
from service.judgement.couples import Couple
from service.judgement.findings import Finding
from service.judgement.lane_results import LaneResult
from service.judgement.policy import Policy
from service.judgement.surface_names import in_sentence


def without_outer_metal(surface: Surface, catalogue: Catalogue) -> Surface | None:
    """The surface without its outermost metallic coat and what lies on it.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    Surface or None
        ``None`` if it has no metallic coat.
    """
    for place, layer in enumerate(surface.layers):
        if catalogue.finishes[layer.finish_id].role is FinishRole.METALLIC:
            return replace(surface, layers=surface.layers[place + 1 :])
    return None


def successor(
    couple: Couple, lanes: Sequence[LaneResult], catalogue: Catalogue, policy: Policy
) -> Couple | None:
    """The couple that is left when a coat is spent within the design life, if one is.

    Parameters
    ----------
    couple : Couple
    lanes : sequence of LaneResult
        Solved pairings of the couple.
    catalogue : Catalogue
    policy : Policy
        Gives the default design life [years].

    Returns
    -------
    Couple or None
        With the metal beneath laid bare and the remaining years as its design life [years];
        ``None`` where every coat lasts, or where the metal beneath is not known.
    """
    spent = [lane for lane in lanes if lane.is_coat and lane.figures["loss_over_allowance"]["median"] > 1.0]
    if not spent:
        return None
    lane = min(spent, key=lambda entry: entry.figures["coat_life_years"]["low"])
    surfaces = [couple.first, couple.second]
    bare = without_outer_metal(surfaces[lane.side], catalogue)
    if bare is None or (bare.material_id is None and not bare.layers):
        return None
    left = max(policy.life_years(couple) - lane.figures["coat_life_years"]["low"], 0.0)
    surfaces[lane.side] = bare
    return replace(couple, first=surfaces[0], second=surfaces[1], design_life_years=left)


def with_successors(
    findings: dict[int, Finding],
    followers: dict[int, Couple],
    judge_again: Callable[[list[Couple]], list[Finding]],
) -> dict[int, Finding]:
    """Findings in which what follows a spent coat has been taken into account.

    Parameters
    ----------
    findings : dict of int to Finding
        By place of the couple.
    followers : dict of int to Couple
        What is left of those couples whose coat is spent.
    judge_again : callable
        Judges couples, in order.

    Returns
    -------
    dict of int to Finding
        The same, each with the worse of both severities and a sentence on the second stage.
    """
    later = dict(zip(followers, judge_again(list(followers.values())), strict=True))
    return findings | {place: _followed(findings[place], later[place], followers[place]) for place in later}


def _followed(now: Finding, later: Finding, follower: Couple) -> Finding:
    if later.severity is None or now.severity is None or later.severity.rank <= now.severity.rank:
        return now
    sentence = (
        f"Once the coat is spent, with {follower.design_life_years:.3g} years to go: "
        f"{in_sentence(later.statement)}"
    )
    return replace(
        now,
        statement=f"{now.statement} {sentence}",
        severity=later.severity,
        evidence=tuple(dict.fromkeys((*now.evidence, *later.evidence))),
    )
