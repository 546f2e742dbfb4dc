"""The small language in which rules of the knowledge base say when they apply.

A trigger is a JSON object whose parts must all hold::

    {"pair": [{...}, {...}], "one": {...}, "environment": {...}, "joint": {...}, "computed": {...}}

``pair`` is matched in both orders, ``one`` by either surface. Each part maps a fact to a
matcher: a scalar (equals), a list (any of), ``{"above": x}``, ``{"below": x}``,
``{"has": "x"}``, ``{"has_any": [...]}`` or ``{"not": matcher}``. A fact that is not known
neither matches nor denies: the rule is then reported as one that could apply.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping
from enum import IntEnum
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.judgement.errors import MalformedTriggerError
from service.judgement.facts import COMPUTED_FACTS, ENVIRONMENT_FACTS, JOINT_FACTS, SIDE_FACTS

PARTS: Mapping[str, frozenset[str]] = {
    "pair": SIDE_FACTS,
    "one": SIDE_FACTS,
    "environment": ENVIRONMENT_FACTS,
    "joint": JOINT_FACTS,
    "computed": COMPUTED_FACTS,
}
"""Parts of a trigger and the facts that each may ask for."""


NUMBERS = frozenset(
    {
        "strength_MPa", "thickness_um", "temperature_C", "pH", "relative_humidity_pct", "joint_temperature_C",
        "wear_cycles", "design_life_years", "area_ratio", "difference_V", "couple_potential_V",
    }
)  # fmt: skip
"""Facts that lie above or below something."""

SETS = frozenset({"finishes", "substances", "tags", "functions"})
"""Facts that have something or not; all others are single words or truths."""


class Truth(IntEnum):
    """Whether a condition holds; the least true condition decides for all of them."""

    NO = 0
    OPEN = 1
    YES = 2


@lru_cache(maxsize=4096)
def parse(rule_id: str, trigger: str) -> Mapping[str, Any]:
    """Read and check a trigger.

    Parameters
    ----------
    rule_id : str
        Names the rule in an error.
    trigger : str
        JSON text in the language of this module.

    Returns
    -------
    mapping of str to Any
        The conditions of each part.

    Raises
    ------
    MalformedTriggerError
        If the text is not JSON or names an unknown part, fact or matcher.
    """
    try:
        parsed = json.loads(trigger)
    except (ValueError, RecursionError) as error:
        raise MalformedTriggerError(rule_id, f"not JSON: {error}") from error
    if not isinstance(parsed, dict) or not parsed:
        raise MalformedTriggerError(rule_id, "must be an object with at least one part")
    for part, content in parsed.items():
        if part not in PARTS:
            raise MalformedTriggerError(rule_id, f"unknown part {part!r}")
        _check_part(rule_id, part, content)
    return parsed


def holds(matcher: Any, value: Any) -> Truth:
    """Whether a fact satisfies a matcher; open where the fact is not known.

    Parameters
    ----------
    matcher : Any
        Scalar, list or object of one operator, as checked by :func:`parse`.
    value : Any
        The fact, ``None`` where it is not known.

    Returns
    -------
    Truth
    """
    if value is None:
        return Truth.OPEN
    if isinstance(matcher, dict):
        operator, operand = next(iter(matcher.items()))
        if operator == "not":
            return Truth(Truth.YES - holds(operand, value))
        return Truth.YES if _OPERATORS[operator](value, operand) else Truth.NO
    if isinstance(matcher, list):
        return Truth.YES if value in matcher else Truth.NO
    return Truth.YES if value == matcher else Truth.NO


def numbers_hold(matcher: Any, figures: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether figures satisfy a matcher, as :func:`holds` says of one that is known.

    Parameters
    ----------
    matcher : Any
        Scalar, list or object of one operator, as checked by :func:`parse`.
    figures : ndarray of float
        The fact of many subjects, shape (n,) [that of the fact].

    Returns
    -------
    ndarray of bool
        Whether each does, shape (n,) [-].
    """
    if not isinstance(matcher, dict):
        listed = matcher if isinstance(matcher, list) else [matcher]
        return np.isin(figures, [each for each in listed if not isinstance(each, str)])
    operator, operand = next(iter(matcher.items()))
    if operator == "not":
        return ~numbers_hold(operand, figures)
    holding: NDArray[np.bool_] = _OPERATORS[operator](figures, operand)
    return holding


_OPERATORS: Mapping[str, Callable[[Any, Any], Any]] = {
    "above": lambda value, operand: value > operand,
    "below": lambda value, operand: value < operand,
    "has": lambda value, operand: operand in value,
    "has_any": lambda value, operand: not value.isdisjoint(operand),
}


def _check_part(rule_id: str, part: str, content: Any) -> None:
    conditions = content if part == "pair" else [content]
    if part == "pair" and (not isinstance(content, list) or len(content) != 2):  # noqa: PLR2004 - a pair
        raise MalformedTriggerError(rule_id, "pair must hold two conditions")
    for condition in conditions:
        if not isinstance(condition, dict):
            raise MalformedTriggerError(rule_id, f"{part} must map facts to matchers")
        for fact, matcher in condition.items():
            if fact not in PARTS[part]:
                raise MalformedTriggerError(rule_id, f"unknown fact {part}.{fact}")
            _check_matcher(rule_id, fact, matcher)


def _check_matcher(rule_id: str, fact: str, matcher: Any) -> None:
    """Refuse what could not be compared with the fact when a couple is judged."""
    if not isinstance(matcher, dict):
        listed = matcher if isinstance(matcher, list) else [matcher]
        if fact in SETS or not all(isinstance(each, str | int | float) for each in listed):
            raise MalformedTriggerError(rule_id, f"{fact} cannot be compared with {matcher!r}")
        return
    if len(matcher) != 1:
        raise MalformedTriggerError(rule_id, "a matcher holds exactly one operator")
    operator, operand = next(iter(matcher.items()))
    if operator == "not":
        _check_matcher(rule_id, fact, operand)
    elif operator not in _OPERATORS:
        raise MalformedTriggerError(rule_id, f"unknown matcher {operator!r}")
    elif not _fits(fact, operator, operand):
        raise MalformedTriggerError(rule_id, f"{operator} {operand!r} says nothing about {fact}")


def _fits(fact: str, operator: str, operand: Any) -> bool:
    if operator in {"above", "below"}:
        is_number = isinstance(operand, int | float) and not isinstance(operand, bool)
        return fact in NUMBERS and is_number and math.isfinite(operand)
    texts = operand if operator == "has_any" and isinstance(operand, list) else [operand]
    return fact in SETS and all(isinstance(text, str) for text in texts)
