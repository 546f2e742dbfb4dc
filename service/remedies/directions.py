"""Generic directions for a measure, step by step; the maker's directions and local codes go before them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from service.catalogue.records import Compound, Mitigation

DEFERENCE = (
    "The maker's directions and local codes go before this text; licensed work stays with those licensed."
)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a measure: prepare, apply, assemble, seal or inspect."""

    step: str
    text: str


_PREPARE: Mapping[str, str] = MappingProxyType(
    {
        "isolate": "Deburr holes and edges, clean the faces, and check that sleeves and washers fit.",
        "raise_resistance": "Clean the pads or flanges, and find every other path between the parts.",
        "replace_surface": "Agree the finish, its thickness class and its underplate with the plater on the "
        "drawing.",
        "same_material": "Check strength, temper and supply of the common alloy.",
        "bimetal_transition": "Order the piece for this use, and mark which face belongs to which metal.",
        "coat_cathode": "Mask contact faces, degrease, roughen, and coat the same day.",
        "coat_anode": "Break sharp edges, mask contact faces, and degrease.",
        "coat_both": "Mask contact faces, degrease, roughen, and coat the same day.",
        "seal": "Dry and degrease the joint line, and mask what must stay clean.",
        "exclude_wetness": "Dry and clean the joint before it is closed.",
        "drain": "Find where water stands and where it comes from.",
        "inhibit": "Remove corrosion products, salt and grease.",
        "sacrifice": "Choose the piece so that its stock outlasts the interval of inspection.",
        "cathodic_protection": "Have the protection designed by a qualified engineer.",
        "enlarge_anode": "Check space, mass and strength of the changed part.",
        "shrink_cathode": "Check that the smaller part still carries its load.",
    }
)

_SEAL: Mapping[str, str] = MappingProxyType(
    {
        "isolate": "Seal the edge of gasket and washers, so that no salt film bridges the gap.",
        "bimetal_transition": "Seal the edge of the transition piece.",
        "seal": "Fillet the whole edge, press out air, and let it cure before it gets wet.",
        "replace_surface": "Seal cut edges and threads where the finish is interrupted.",
        "coat_cathode": "Carry the coat over the edge of the joint, without a gap.",
        "coat_anode": "Seal edges and holes of the coat.",
        "coat_both": "Carry the coat over the edge of the joint, without a gap.",
    }
)
_ASSEMBLE = "Join clean faces, torque as the drawing says, and keep scratches away from the contact."
_NO_SEAL = "Leave drains open, and seal only where water could be held out for good."


def directions(mitigation: Mitigation, compounds: Sequence[Compound] = ()) -> tuple[Step, ...]:
    """Write the steps of a measure.

    Parameters
    ----------
    mitigation : Mitigation
    compounds : sequence of Compound
        Compounds that it uses; their own directions are added.

    Returns
    -------
    tuple of Step
        Prepare, apply, assemble, seal, inspect, and what goes before all of it.
    """
    apply = " ".join([mitigation.directions, *(compound.directions for compound in compounds)])
    return (
        Step("prepare", _PREPARE[mitigation.transform]),
        Step("apply", apply),
        Step("assemble", _ASSEMBLE),
        Step("seal", _SEAL.get(mitigation.transform, _NO_SEAL)),
        Step("inspect", f"Inspect: {mitigation.inspection}."),
        Step("defer", DEFERENCE),
    )
