"""Measures that part the metals: isolation, a spool between them, another path for the current."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.judgement import Function
from service.judgement.findings import Condition
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation

NO_OTHER_PATH = Condition(
    "no-other-path",
    "Keep the parts apart everywhere else too: supports, earth conductors, bolts and deposits.",
    "assembler",
    "resistance between the parts measured dry, after assembly and at the stated intervals",
)

JUDGE_NEW_PATH = Condition(
    "judge-new-path",
    "Judge the new path as a joint of its own: its lugs meet other metals.",
    "designer",
    "a judged couple for each end of the new path",
)

_STRAP_CARRIES = (Function.ELECTRICAL_BOND, Function.PROTECTIVE_EARTH)


def isolate(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Part the sides electronically; with ``path`` only the current is led elsewhere.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``path`` for a current that leaves the fastener.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    del situation
    if "path" in parameters:
        return [_relieved(arrangement)]
    if all(couple.is_isolated for couple in arrangement.couples):
        raise NotPossibleError(Obstacle.DONE, "The sides are isolated already.")
    return [arrangement.on_each(is_isolated=True).needing(NO_OTHER_PATH)]


def raise_resistance(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Put a non-conducting spool between the metals, or a strap beside the joint.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``parallel_path`` for a strap that carries the bond; else a spool.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
        A strap leaves the corrosion as it is: it joins the metals just as the joint did.
    """
    if parameters.get("parallel_path"):
        if any(couple.is_isolated for couple in arrangement.couples):
            raise NotPossibleError(Obstacle.DONE, "A strap would join again what is isolated.")
        return [replace(arrangement, restored=_STRAP_CARRIES).needing(JUDGE_NEW_PATH)]
    return isolate(arrangement, {}, situation)


def _relieved(arrangement: Arrangement) -> Arrangement:
    """The joint without its current: the fastener only clamps."""
    declared = arrangement.couples[0].functions
    left = tuple(function for function in declared if function is not Function.POWER_CONTACT)
    relieved = arrangement.on_each(functions=left or (Function.STRUCTURAL,))
    return replace(relieved, moved=(Function.POWER_CONTACT,)).needing(JUDGE_NEW_PATH)
