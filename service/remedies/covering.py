"""Measures that cover metal: a coat on the cathode, on both sides, or (hard anodic film) on the anode."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.records import Finish, FinishRole
from service.catalogue.surfaces import Condition as State
from service.catalogue.surfaces import Layer, Surface
from service.judgement.compound_effect import outer_family
from service.judgement.exposed import insulating_finish
from service.judgement.findings import Condition
from service.remedies.admission import Demands, exclusions
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation
from service.remedies.feasibility import FeasibleSurface, substrate_family, substrate_row
from service.remedies.reasons import Reason

COAT_SOUND = Condition(
    "keep-coat-sound",
    "Coat beyond the joint, edges included, and repair damage before it reaches bare metal.",
    "maintainer",
    "visual inspection and holiday test at the stated intervals",
)

BOND_FIRST = Condition(
    "bond-before-coating",
    "Mask the contact faces, join metal to metal, measure the bond, then coat over the joint.",
    "assembler",
    "bond resistance recorded before and after coating",
)

_MASKED = frozenset({Reason.CONDUCTION, Reason.CONTACT, Reason.SOLDER, Reason.COST, Reason.WEAR})
"""Reasons that do not count against a coat that stays off the contact faces."""


def coat_cathode(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Coat the side that is not eaten.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``finish`` names the coat; else the usual paint of the substrate.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    return [_coated(arrangement, (situation.cathode,), parameters, situation)]


def coat_anode(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Coat the side that is eaten, which is judged at its gaps.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``finish`` names the coat.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    return [_coated(arrangement, (situation.anode,), parameters, situation)]


def coat_both(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Coat both sides; with ``after_bond`` only after the joint has been made metal to metal.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``after_bond``.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    coated = _coated(arrangement, ("first", "second"), parameters, situation)
    return [coated.needing(BOND_FIRST) if parameters.get("after_bond") else coated]


def only_anode_coated(arrangement: Arrangement, situation: Situation) -> Arrangement:
    """The usual mistake: the coat on the eaten side alone, and damaged."""
    anode = situation.anode
    surface = _painted(arrangement.surface(anode), None, situation)
    return arrangement.with_surface(anode, replace(surface, condition=State.DAMAGED))


def _coated(
    arrangement: Arrangement, sides: Sequence[str], parameters: Mapping[str, Any], situation: Situation
) -> Arrangement:
    coated = arrangement
    for side in sides:
        coated = coated.with_surface(
            side, _painted(arrangement.surface(side), parameters.get("finish"), situation)
        )
    return coated.needing(COAT_SOUND)


def _painted(surface: Surface, finish_id: str | None, situation: Situation) -> Surface:
    if insulating_finish(surface, situation.catalogue) is not None:
        raise NotPossibleError(Obstacle.DONE, "The side carries an insulating coat already.")
    coat = next(_coats(surface, finish_id, situation), None)
    if coat is None:
        # A measure may name a finish that was withdrawn.
        finish = situation.catalogue.finishes.get(finish_id or "")
        wanted = finish.name if finish else finish_id or "No paint of this release"
        verb = "cannot" if finish_id else "can"
        raise NotPossibleError(Obstacle.PROCESS, f"{wanted} {verb} be put on this side as constrained.")
    return replace(surface, layers=(Layer(coat.id, coat.thickness_typical_um), *surface.layers))


def _coats(surface: Surface, finish_id: str | None, situation: Situation) -> Iterator[Finish]:
    """Coats that the outer metal or the base takes: the cheapest, best suited and thickest first."""
    catalogue = situation.catalogue
    families = (outer_family(surface, catalogue), substrate_family(surface, catalogue))
    couple, environment = situation.before.couple, situation.before.environment
    demands = Demands(couple, environment, situation.constraints, is_second=False)
    ranked = []
    for finish in catalogue.finishes.values():
        is_wanted = finish.id == finish_id if finish_id else finish.role is FinishRole.ORGANIC
        if not is_wanted or finish.is_conductive:
            continue
        rows = [row for family in families if (row := substrate_row(finish.id, family, catalogue))]
        suited = [row.suitability for row in rows if row.suitability != "no"]
        option = FeasibleSurface(surface, finish, (finish,), ())
        if suited and not _forbidden(option, demands, situation):
            thickness = finish.thickness_typical_um or 0.0
            ranked.append((finish.cost_tier or 0, suited[0] != "good", -thickness, finish.id, finish))
    yield from (finish for *_, finish in sorted(ranked, key=lambda entry: entry[:4]))


def _forbidden(option: FeasibleSurface, demands: Demands, situation: Situation) -> bool:
    found = exclusions(option, demands, situation.catalogue)
    return any(each.reason not in _MASKED for each in found)
