"""What a measure does to each declared function of a joint; nothing is taken away in silence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from service.catalogue.records import Mitigation
from service.judgement import Function, Judgement
from service.judgement.findings import Finding, Witness
from service.judgement.function_witness import ELECTRICAL
from service.remedies.arrangement import Arrangement

_BONDS = frozenset({Function.ELECTRICAL_BOND, Function.PROTECTIVE_EARTH})


class Effect(StrEnum):
    """What becomes of a function."""

    KEPT = "kept"
    ENDED = "ended"
    MOVED = "moved"
    RESTORED = "restored"
    AT_RISK = "at risk"


@dataclass(frozen=True, slots=True)
class FunctionEffect:
    """One declared function after the measures."""

    function: Function
    effect: Effect
    statement: str


def ended_functions(
    measures: Sequence[Mitigation], arrangement: Arrangement, declared: Sequence[Function]
) -> tuple[Function, ...]:
    """Declared functions that measures take away and nothing gives back.

    Parameters
    ----------
    measures : sequence of Mitigation
    arrangement : Arrangement
        After the measures.
    declared : sequence of Function

    Returns
    -------
    tuple of Function
    """
    taken = {name for measure in measures for name in measure.ends_functions}
    is_isolated = any(couple.is_isolated for couple in arrangement.couples)
    restored = frozenset() if is_isolated else frozenset(arrangement.restored)
    return tuple(
        function
        for function in declared
        if function.value in taken and function not in restored and function not in arrangement.moved
    )


def effects(
    measures: Sequence[Mitigation],
    arrangement: Arrangement,
    before: Judgement,
    after: Judgement,
) -> tuple[FunctionEffect, ...]:
    """Say of every declared function what becomes of it.

    Parameters
    ----------
    measures : sequence of Mitigation
    arrangement : Arrangement
    before, after : Judgement

    Returns
    -------
    tuple of FunctionEffect
        In the order in which they were declared.
    """
    declared = before.couple.functions
    ended = ended_functions(measures, arrangement, declared)
    taken = {name for measure in measures for name in measure.ends_functions}
    found = []
    for function in declared:
        if function in ended:
            effect, statement = Effect.ENDED, f"It ends the function {function.value}."
        elif function in arrangement.moved:
            effect, statement = Effect.MOVED, "Another path carries the current; judge its ends as joints."
        elif function.value in taken:
            effect, statement = Effect.RESTORED, "The joint itself no longer carries it; the strap does."
        elif function in ELECTRICAL:
            effect, statement = _electrical(function, after.findings[Witness.FUNCTION], arrangement)
        else:
            effect, statement = Effect.KEPT, "Kept."
        found.append(FunctionEffect(function, effect, statement))
    return tuple(found)


def _electrical(function: Function, finding: Finding, arrangement: Arrangement) -> tuple[Effect, str]:
    """A conducting function that is kept: the bond limit is checked, masks are asked for."""
    figures = finding.figures
    is_masked = any(condition.code == "bare-contact-face" for condition in finding.conditions)
    if figures.get("meets_bond_limit") is False:
        resistance = figures["contact_resistance_mOhm"]
        return Effect.AT_RISK, f"The contact has {resistance:.3g} mOhm when new, above the bond limit."
    if len(arrangement.couples) > 1 and function in _BONDS:
        return Effect.AT_RISK, "The current passes two contacts in place of one: measure across both."
    if is_masked:
        return Effect.KEPT, "Kept if the contact faces stay free of the insulating coat."
    if figures.get("meets_bond_limit") is True:
        resistance = figures["contact_resistance_mOhm"]
        return Effect.KEPT, f"Kept: {resistance:.3g} mOhm when new, within the bond limit."
    return Effect.KEPT, "Kept; its resistance is not computed here, so measure it."
