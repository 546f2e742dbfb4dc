"""The usual mistake of each measure, as a joint that can be judged."""

from __future__ import annotations

from dataclasses import replace

from service.catalogue.records import Mitigation
from service.catalogue.surfaces import Condition as State
from service.catalogue.surfaces import Surface
from service.remedies.arrangement import Arrangement, NotPossibleError, Situation, as_it_is
from service.remedies.covering import only_anode_coated

_COATS = frozenset({"coat_anode", "coat_cathode", "coat_both"})
_SURFACES = frozenset({"replace_surface", "same_material"})


def botched(mitigation: Mitigation, done_well: Arrangement, situation: Situation) -> Arrangement:
    """Return the joint with a measure done badly.

    Parameters
    ----------
    mitigation : Mitigation
    done_well : Arrangement
        The joint with the measure done as it should be.
    situation : Situation

    Returns
    -------
    Arrangement
        A coat on the eaten side alone and damaged; a new finish worn through; for all else the joint
        without the measure: bridged, leaking, dried out, used up.
    """
    unaided = as_it_is(situation.before)
    if mitigation.transform in _COATS:
        try:
            return only_anode_coated(unaided, situation)
        except NotPossibleError:
            return unaided
    if mitigation.transform in _SURFACES:
        couples = tuple(
            replace(couple, first=_worn(couple.first), second=_worn(couple.second))
            for couple in done_well.couples
        )
        return replace(done_well, couples=couples)
    return unaided


def _worn(surface: Surface) -> Surface:
    return replace(surface, condition=State.WORN) if surface.layers else surface
