"""Which compounds may be used on a joint: they harm neither metal, bear its heat, and are consented to."""

from __future__ import annotations

from types import MappingProxyType

from service.catalogue.records import Compound
from service.judgement.compound_effect import attacked_family, outer_family
from service.remedies.arrangement import Situation

_OPT_IN_WORDS = MappingProxyType({"CrVI": "chromate", "Pb": "lead", "Cd": "cadmium", "Be": "beryllium"})
_FREE_WORDS = ("chromate-free", "lead-free")


def compatible_compounds(situation: Situation, kinds: frozenset[str] = frozenset()) -> tuple[Compound, ...]:
    """Compounds that attack neither side and bear the temperature, those that help most first.

    Parameters
    ----------
    situation : Situation
    kinds : frozenset of str
        Kinds to choose among; none means all but contaminants.

    Returns
    -------
    tuple of Compound
    """
    couple, catalogue = situation.before.couple, situation.catalogue
    stated = couple.joint_temperature_C
    temperature = stated if stated is not None else situation.before.environment.temperature_C
    families = {outer_family(side, catalogue) for side in (couple.first, couple.second)}
    found = []
    for compound in catalogue.compounds.values():
        if compound.kind == "contaminant" or (kinds and compound.kind not in kinds):
            continue
        attacks = any(attacked_family(side, compound, catalogue) for side in (couple.first, couple.second))
        if attacks or not _bears(compound, temperature) or not _is_consented(compound, situation):
            continue
        found.append((-len(families & set(compound.helps)), compound.id, compound))
    return tuple(compound for *_, compound in sorted(found, key=lambda entry: entry[:2]))


def _bears(compound: Compound, temperature_C: float | None) -> bool:
    if temperature_C is None:
        return True
    low, high = compound.temperature_min_C, compound.temperature_max_C
    return (low is None or temperature_C >= low) and (high is None or temperature_C <= high)


def _is_consented(compound: Compound, situation: Situation) -> bool:
    """Whether nothing in the compound needs a consent that was not given."""
    text = compound.composition.lower()
    for word in _FREE_WORDS:
        if word in text:
            return True
    return not any(
        word in text and substance not in situation.constraints.allowed_substances
        for substance, word in _OPT_IN_WORDS.items()
    )
