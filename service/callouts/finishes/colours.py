"""A colour without a coat: the finish that usually gives this colour to this metal, left open."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, torn
from service.callouts.marks import Clues, Coat

COLOUR = "Which finish gives the part its colour?"

_STEEL = frozenset({"carbon steel", "low-alloy steel"})
_ALUMINIUM = frozenset({"wrought aluminium", "cast aluminium"})
_ZINC_COLOURS = frozenset({"yellow", "blue", "olive", "iridescent"})


def can_be_read(colour: str, families: frozenset[str]) -> bool:
    """Whether a colour alone tells something about the finish of such a metal."""
    if families & _STEEL:
        return colour in _ZINC_COLOURS | {"black"}
    return bool(families & _ALUMINIUM and colour in {"black", "dyed", "yellow"}) or (
        families == {"stainless steel"} and colour == "black"
    )


def decide_colour(_coat: Coat, clues: Clues) -> Decision:
    """List the finishes that have this colour on this metal (common practice, no source)."""
    colour = clues.trait("colour")
    if clues.families & _ALUMINIUM and not clues.families & _STEEL:
        if colour == "yellow":
            return torn(COLOUR, chem_film_1a=0.6, anod_ii_dyed=0.4)
        return torn(COLOUR, anod_ii_dyed=0.5, powder_coat=0.3, pu_topcoat=0.2)
    if clues.families == {"stainless steel"}:
        return torn(COLOUR, black_oxide_stainless=0.6, pu_topcoat=0.2, powder_coat=0.2)
    if colour == "black":
        return torn(COLOUR, black_oxide_steel=0.6, zn_black=0.2, phosphate_mn=0.2)
    if colour in {"yellow", "iridescent"}:
        return torn(COLOUR, zn_chromate_yellow=0.6, zn_passivated_iridescent=0.3, cd_yellow=0.1)
    return _OLIVE if colour == "olive" else _BLUE


_OLIVE = torn(COLOUR, zn_chromate_olive=0.6, cd_olive=0.4)
_BLUE = torn(COLOUR, zn_passivated_clear=0.8, zn_passivated_sealed=0.2)
