"""Measures that slow the reactions: a compound in the joint, a conversion film, an inhibitor, less oxygen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.records import Environment, Exposure
from service.catalogue.surfaces import Layer
from service.judgement.findings import Condition
from service.judgement.regimes import reason_to_abstain, spells
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation
from service.remedies.compound_choice import compatible_compounds
from service.remedies.feasibility import substrate_family, substrate_row
from service.remedies.wetness import with_wet_share

KEEP_INHIBITED = Condition(
    "keep-inhibited",
    "Renew the inhibitor before it is used up.",
    "maintainer",
    "renewal recorded at the stated intervals",
)


def inhibit(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Slow the reactions: by a compound in the joint, a conversion film, an inhibitor, or less oxygen.

    A factor on the current is judged as the same factor on the wet hours, or on the oxygen in bulk water.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``factor`` [-], ``compounds``, ``finish``, ``oxygen_mg_per_L`` [mg/L].
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    factor = float(parameters.get("factor", 1.0))
    if factor >= 1.0 and "oxygen_mg_per_L" not in parameters:
        raise NotPossibleError(Obstacle.NO_EFFECT, "It keeps the contact, and leaves the corrosion as it is.")
    if "oxygen_mg_per_L" in parameters:
        deaerated = replace(
            arrangement.environment,
            oxygen_mg_per_L=float(parameters["oxygen_mg_per_L"]),
            tags=(*arrangement.environment.tags, "deaerated"),
        )
        return [replace(arrangement, environment=deaerated).needing(KEEP_INHIBITED)]
    slowed = replace(arrangement, environment=_slowed(arrangement.environment, factor)).needing(
        KEEP_INHIBITED
    )
    if "finish" in parameters:
        return [_converted(slowed, str(parameters["finish"]), situation)]
    if "compounds" not in parameters:
        return [slowed]
    wanted = frozenset(map(str, parameters["compounds"]))
    found = [compound for compound in compatible_compounds(situation) if compound.id in wanted]
    if not found:
        raise NotPossibleError(Obstacle.NO_COMPOUND, "Each compound of this measure harms one of the metals.")
    return [
        replace(slowed, compounds=(*arrangement.compounds, compound.id)).on_each(compound_id=compound.id)
        for compound in found
    ]


def _slowed(environment: Environment, factor: float) -> Environment:
    if environment.exposure is not Exposure.IMMERSED:
        return with_wet_share(environment, factor)
    if reason_to_abstain(environment):
        return environment
    oxygen_ratio = spells(environment)[0].oxygen_ratio
    of_one_mg = spells(replace(environment, oxygen_mg_per_L=1.0))[0].oxygen_ratio
    return replace(environment, oxygen_mg_per_L=factor * oxygen_ratio / of_one_mg)


def _converted(arrangement: Arrangement, finish_id: str, situation: Situation) -> Arrangement:
    """Conversion film on every side whose base takes it and is bare."""
    changed = arrangement
    catalogue = situation.catalogue
    for side in ("first", "second"):
        surface = arrangement.surface(side)
        row = substrate_row(finish_id, substrate_family(surface, catalogue), catalogue)
        if row is not None and row.suitability != "no" and not surface.layers:
            film = Layer(finish_id, catalogue.finishes[finish_id].thickness_typical_um)
            changed = changed.with_surface(side, replace(surface, layers=(film,)))
    if changed == arrangement:
        raise NotPossibleError(Obstacle.PROCESS, "No bare side takes this film.")
    return changed
