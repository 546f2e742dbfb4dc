"""Sealing a joint: no electrolyte bridges its metals as long as the seal holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.records import ElectrolyteClass, Exposure
from service.judgement.findings import Condition, Witness
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation
from service.remedies.compound_choice import compatible_compounds
from service.remedies.wetness import KEEP_DRY

LEAST_FILLET_MM = 6.0
"""Width of a fillet seal: a quarter of an inch (TM 55-1500-345-23, table of seals)."""

WHERE_CURRENT_GOES_ROUND = frozenset({Exposure.IMMERSED, Exposure.SOIL, Exposure.CONCRETE})
"""Exposures in which current passes through the bulk, around any seal of the joint line."""


def seal(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Seal the joint, so that no electrolyte bridges its metals as long as the seal holds.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``insulating`` for sealant between the faces, ``sealant`` false for a crimp or weld that needs none.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
        One for each compatible sealant where one is used.

    Raises
    ------
    NotPossibleError
        Where the current passes around a seal, or no sealant suits both sides.
    """
    environment = arrangement.environment
    if environment.exposure in WHERE_CURRENT_GOES_ROUND:
        raise NotPossibleError(
            Obstacle.WHERE, "Here the current passes through the bulk around the seal: sealing does not help."
        )
    dry = replace(
        environment,
        electrolyte_class=ElectrolyteClass.NONE,
        screening_class="controlled",
        tags=tuple(tag for tag in environment.tags if tag != "condensing"),
    )
    sealed = replace(arrangement, environment=dry).needing(KEEP_DRY, _extent(situation))
    if parameters.get("sealant") is False:
        return [sealed]
    sealants = compatible_compounds(situation, frozenset({"sealant"}))
    if not sealants:
        raise NotPossibleError(Obstacle.NO_COMPOUND, "Every sealant of this release harms one of the metals.")
    variants = []
    for compound in sealants:
        between = compound.id if parameters.get("insulating") else arrangement.couples[0].compound_id
        variant = replace(sealed, compounds=(*arrangement.compounds, compound.id))
        variants.append(variant.on_each(compound_id=between))
    return variants


def _extent(situation: Situation) -> Condition:
    """How far the seal must reach: beyond the zone in which the current flows."""
    reach = situation.before.findings[Witness.KINETICS].figures.get("reach_mm", {}).get("high", 0.0)
    width = max(LEAST_FILLET_MM, float(f"{reach:.2g}"))
    return Condition(
        "extend-seal",
        f"Seal at least {width:g} mm beyond the joint line on both sides, as far as the current reaches.",
        "assembler",
        "width of the seal measured after cure",
    )
