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
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.catalogue.records import Rule
from service.judgement.errors import MalformedTriggerError
from service.judgement.facts import COMPUTED_FACTS, ENVIRONMENT_FACTS, JOINT_FACTS, SIDE_FACTS, Facts

PARTS: Mapping[str, frozenset[str]] = {
    "pair": SIDE_FACTS,
    "one": SIDE_FACTS,
    "environment": ENVIRONMENT_FACTS,
    "joint": JOINT_FACTS,
    "computed": COMPUTED_FACTS,
}


@dataclass(frozen=True, slots=True)
class Match:
    """How a trigger holds.

    ``is_certain`` unless facts in ``unknown`` would have to be known; ``is_swapped`` when the pair
    matched in reverse order.
    """

    is_certain: bool
    is_swapped: bool = False
    unknown: tuple[str, ...] = ()


_NO, _OPEN, _YES = 0, 1, 2


@lru_cache(maxsize=4096)
def parse(rule_id: str, trigger: str) -> Mapping[str, Any]:
    """Read and check a trigger.

    Raises
    ------
    MalformedTriggerError
        If the text is not JSON or names an unknown part, fact or matcher.
    """
    try:
        parsed = json.loads(trigger)
    except json.JSONDecodeError as error:
        raise MalformedTriggerError(rule_id, f"not JSON: {error}") from error
    if not isinstance(parsed, dict) or not parsed:
        raise MalformedTriggerError(rule_id, "must be an object with at least one part")
    for part, content in parsed.items():
        if part not in PARTS:
            raise MalformedTriggerError(rule_id, f"unknown part {part!r}")
        _check_part(rule_id, part, content)
    return parsed


@dataclass(frozen=True, slots=True)
class Hit:
    """A rule that applies, or could, to one couple of a batch."""

    rule: Rule
    match: Match


def hits(rules: Sequence[Rule], batch: Sequence[Facts]) -> list[list[Hit]]:
    """Evaluate rules against many couples.

    Side conditions are evaluated once for each distinct surface and combined as arrays, so that
    a search over finishes does not ask the same question of the same surface again.

    Parameters
    ----------
    rules : sequence of Rule
    batch : sequence of Facts

    Returns
    -------
    list of list of Hit
        For each couple the rules that apply or could, in the order of ``rules``.
    """
    if not batch:
        return []
    candidates = _possible_somewhere(rules, batch)
    triggers = [trigger for _, trigger in candidates]
    sides, first, second = _distinct_sides(batch)
    conditions = _Conditions(sides)
    as_first = conditions.table([_first_conditions(trigger) for trigger in triggers])
    as_second = conditions.table([_second_conditions(trigger) for trigger in triggers])
    straight = np.minimum(as_first[:, first], as_second[:, second])
    reverse = np.minimum(as_first[:, second], as_second[:, first])
    possible = np.maximum(straight, reverse).T
    return [
        [
            Hit(candidates[index][0], match)
            for index in map(int, np.flatnonzero(possible[column]))
            if (match := _match(triggers[index], facts, straight[index, column], reverse[index, column]))
        ]
        for column, facts in enumerate(batch)
    ]


def _possible_somewhere(
    rules: Sequence[Rule], batch: Sequence[Facts]
) -> list[tuple[Rule, Mapping[str, Any]]]:
    """Rules that no environment of the batch rules out."""
    environments = list({id(facts.environment): facts.environment for facts in batch}.values())
    candidates = []
    for rule in rules:
        trigger = parse(rule.id, rule.trigger)
        wanted = trigger.get("environment", {})
        if not wanted or any(_all_hold(wanted, environment) for environment in environments):
            candidates.append((rule, trigger))
    return candidates


def _first_conditions(trigger: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    pair = trigger.get("pair")
    return [part for part in (trigger.get("one"), pair[0] if pair else None) if part]


def _second_conditions(trigger: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    pair = trigger.get("pair")
    return [pair[1]] if pair and pair[1] else []


class _Conditions:
    """Side conditions evaluated once for each distinct side and reused between rules."""

    def __init__(self, sides: Sequence[Mapping[str, Any]]) -> None:
        self.sides = sides
        self.known: dict[str, NDArray[np.int8]] = {}

    def table(self, wanted: Sequence[list[Mapping[str, Any]]]) -> NDArray[np.int8]:
        """Truth of each rule's conditions, shape ``(rules, sides)``."""
        table = np.full((len(wanted), len(self.sides)), _YES, dtype=np.int8)
        for index, conditions in enumerate(wanted):
            for condition in conditions:
                for fact, matcher in condition.items():
                    np.minimum(table[index], self._truths(fact, matcher), out=table[index])
        return table

    def _truths(self, fact: str, matcher: Any) -> NDArray[np.int8]:
        key = f"{fact}={matcher!r}"
        if key not in self.known:
            self.known[key] = np.array(
                [_holds(matcher, side.get(fact)) for side in self.sides], dtype=np.int8
            )
        return self.known[key]


def matches(rule: Rule, facts: Facts) -> Match | None:
    """Evaluate one rule against one couple; ``None`` where it does not apply."""
    found = hits([rule], [facts])[0]
    return found[0].match if found else None


def _match(trigger: Mapping[str, Any], facts: Facts, straight: int, reverse: int) -> Match | None:
    shared = min(
        _all_hold(trigger.get("environment", {}), facts.environment),
        _all_hold(trigger.get("joint", {}), facts.joint),
    )
    if shared == _NO:
        return None
    options = []
    for is_swapped, sides in ((False, straight), (True, reverse)):
        computed = _all_hold(trigger.get("computed", {}), facts.computed(is_swapped=is_swapped))
        options.append((min(shared, int(sides), computed), not is_swapped))
    truth, is_straight = max(options)
    if truth == _NO:
        return None
    unknown = () if truth == _YES else _unknown(trigger, facts, is_swapped=not is_straight)
    return Match(truth == _YES, not is_straight, unknown)


def _unknown(trigger: Mapping[str, Any], facts: Facts, *, is_swapped: bool) -> tuple[str, ...]:
    sides = (facts.second, facts.first) if is_swapped else (facts.first, facts.second)
    pair = trigger.get("pair", ({}, {}))
    parts = (
        ("environment", trigger.get("environment", {}), facts.environment),
        ("joint", trigger.get("joint", {}), facts.joint),
        ("computed", trigger.get("computed", {}), facts.computed(is_swapped=is_swapped)),
        ("surface", trigger.get("one", {}), sides[0]),
        ("surface", pair[0], sides[0]),
        ("surface", pair[1], sides[1]),
    )
    return tuple(
        sorted(
            {
                f"{name}.{fact}"
                for name, conditions, known in parts
                for fact, matcher in conditions.items()
                if _holds(matcher, known.get(fact)) == _OPEN
            }
        )
    )


def _distinct_sides(
    batch: Sequence[Facts],
) -> tuple[list[Mapping[str, Any]], NDArray[np.intp], NDArray[np.intp]]:
    places: dict[int, int] = {}
    sides: list[Mapping[str, Any]] = []
    for facts in batch:
        for side in (facts.first, facts.second):
            if id(side) not in places:
                places[id(side)] = len(sides)
                sides.append(side)
    first = np.array([places[id(facts.first)] for facts in batch], dtype=np.intp)
    second = np.array([places[id(facts.second)] for facts in batch], dtype=np.intp)
    return sides, first, second


def _all_hold(conditions: Mapping[str, Any], known: Mapping[str, Any]) -> int:
    outcome = _YES
    for fact, matcher in conditions.items():
        outcome = min(outcome, _holds(matcher, known.get(fact)))
        if outcome == _NO:
            break
    return outcome


def _holds(matcher: Any, value: Any) -> int:
    if value is None:
        return _OPEN
    if isinstance(matcher, dict):
        operator, operand = next(iter(matcher.items()))
        if operator == "not":
            return _YES - _holds(operand, value)
        return _YES if _OPERATORS[operator](value, operand) else _NO
    if isinstance(matcher, list):
        return _YES if value in matcher else _NO
    return _YES if value == matcher else _NO


_OPERATORS: Mapping[str, Callable[[Any, Any], bool]] = {
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
            _check_matcher(rule_id, matcher)


def _check_matcher(rule_id: str, matcher: Any) -> None:
    if not isinstance(matcher, dict):
        return
    if len(matcher) != 1:
        raise MalformedTriggerError(rule_id, "a matcher holds exactly one operator")
    operator, operand = next(iter(matcher.items()))
    if operator == "not":
        _check_matcher(rule_id, operand)
    elif operator not in _OPERATORS:
        raise MalformedTriggerError(rule_id, f"unknown matcher {operator!r}")
