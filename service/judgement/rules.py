"""Which rules of the knowledge base apply to the couples of a batch, or could.

All rules are compiled once into tables of distinct conditions. For a batch each condition of the rules that
its environments leave open is asked once for every distinct value of its fact, and the conditions of every
rule are combined as arrays, so that a search over finishes does not ask the same question of the same
surface again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.catalogue.records import Rule
from service.judgement.facts import Facts
from service.judgement.triggers import NUMBERS, Truth, holds, numbers_hold, parse

Truths = NDArray[np.int8]
"""Values of ``Truth``."""

Places = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Match:
    """How a trigger holds.

    ``is_certain`` unless facts in ``unknown`` would have to be known; ``is_swapped`` when the pair
    matched in reverse order.
    """

    is_certain: bool
    is_swapped: bool = False
    unknown: tuple[str, ...] = ()


_AS_ASKED, _SWAPPED = Match(is_certain=True), Match(is_certain=True, is_swapped=True)


@dataclass(frozen=True, slots=True)
class Hit:
    """A rule that applies, or could, to one couple of a batch."""

    rule: Rule
    match: Match


def hits(rules: Sequence[Rule], batch: Sequence[Facts]) -> list[list[Hit]]:
    """Evaluate rules against many couples.

    Parameters
    ----------
    rules : sequence of Rule
    batch : sequence of Facts

    Returns
    -------
    list of list of Hit
        For each couple the rules that apply or could, in the order of ``rules``.

    Raises
    ------
    MalformedTriggerError
        If a rule's trigger is not in the language of :mod:`service.judgement.triggers`.
    """
    found: list[list[Hit]] = [[] for _ in batch]
    if not batch or not rules:
        return found
    book = _compiled(tuple((rule.id, rule.trigger) for rule in rules))
    places, straight, reverse = _truths(book, batch)
    truth = np.maximum(straight, reverse).T
    swapped = (reverse > straight).T
    for couple, row in zip(*(axis.tolist() for axis in np.nonzero(truth)), strict=True):
        is_swapped, place = bool(swapped[couple, row]), places[row]
        if truth[couple, row] == Truth.YES:
            match = _SWAPPED if is_swapped else _AS_ASKED
        else:
            unknown = _unknown(book.triggers[place], batch[couple], is_swapped=is_swapped)
            match = Match(is_certain=False, is_swapped=is_swapped, unknown=unknown)
        found[couple].append(Hit(rules[place], match))
    return found


def matches(rule: Rule, facts: Facts) -> Match | None:
    """Evaluate one rule against one couple; ``None`` where it does not apply.

    Parameters
    ----------
    rule : Rule
    facts : Facts

    Returns
    -------
    Match or None
    """
    found = hits([rule], [facts])[0]
    return found[0].match if found else None


class _Subjects:
    """Facts of the distinct subjects of a batch; equal subjects are told by identity."""

    def __init__(self, facts: Sequence[Mapping[str, Any]]) -> None:
        distinct = {id(subject): subject for subject in facts}
        places = {identity: place for place, identity in enumerate(distinct)}
        self.facts = tuple(distinct.values())
        self.place = np.array([places[id(subject)] for subject in facts], dtype=np.intp)
        self.columns: dict[str, tuple[dict[Any, int], NDArray[np.intp]]] = {}
        self.numbers: dict[str, tuple[NDArray[np.float64], NDArray[np.bool_]]] = {}

    def truth(self, fact: str, matcher: Any) -> Truths:
        """Truth of one condition for each distinct subject."""
        if fact in NUMBERS:
            return self._truth_of_number(fact, matcher)
        if fact not in self.columns:
            known = [subject.get(fact) for subject in self.facts]
            codes = {value: code for code, value in enumerate(dict.fromkeys(known))}
            self.columns[fact] = codes, np.array([codes[value] for value in known], dtype=np.intp)
        codes, coded = self.columns[fact]
        of_values = np.array([holds(matcher, value) for value in codes], dtype=np.int8)
        return of_values[coded]

    def _truth_of_number(self, fact: str, matcher: Any) -> Truths:
        """Truth of a condition on figures, of which each subject may have another."""
        if fact not in self.numbers:
            values = [subject.get(fact) for subject in self.facts]
            is_open = np.array([value is None for value in values])
            self.numbers[fact] = np.array([value or 0.0 for value in values]), is_open
        figures, is_open = self.numbers[fact]
        truths = np.where(numbers_hold(matcher, figures), Truth.YES, Truth.NO).astype(np.int8)
        truths[is_open] = Truth.OPEN
        return truths


@dataclass(frozen=True, slots=True)
class _Part:
    """One part of all triggers: its distinct conditions and which of them each rule asks.

    ``asked`` has the shape ``(rules, most conditions of a rule)``; the number of the conditions
    stands for one that always holds.
    """

    conditions: tuple[tuple[str, Any], ...]
    asked: NDArray[np.intp]

    @classmethod
    def of(cls, wanted: Sequence[Sequence[Mapping[str, Any]]]) -> _Part:
        """Number the distinct conditions of every rule."""
        numbers: dict[str, int] = {}
        conditions: list[tuple[str, Any]] = []
        rows: list[list[int]] = []
        for groups in wanted:
            row = []
            for fact, matcher in (item for group in groups for item in group.items()):
                number = numbers.setdefault(f"{fact}={matcher!r}", len(numbers))
                if number == len(conditions):
                    conditions.append((fact, matcher))
                row.append(number)
            rows.append(row)
        asked = np.full((len(rows), max(1, *map(len, rows))), len(conditions), dtype=np.intp)
        for place, row in enumerate(rows):
            asked[place, : len(row)] = row
        return cls(tuple(conditions), asked)

    def truths(self, subjects: _Subjects, rules: Places | slice = slice(None)) -> Truths:
        """Truth of this part of some rules for each distinct subject, shape ``(rules, subjects)``."""
        asked = self.asked[rules]
        table = np.full((len(self.conditions) + 1, len(subjects.facts)), Truth.YES, dtype=np.int8)
        for number in np.unique(asked).tolist():
            if number < len(self.conditions):
                table[number] = subjects.truth(*self.conditions[number])
        least: Truths = table[asked].min(axis=1)
        return least


@dataclass(frozen=True, slots=True)
class _Book:
    """All triggers with their parts compiled; ``one`` counts as a condition on the first side."""

    triggers: tuple[Mapping[str, Any], ...]
    first: _Part
    second: _Part
    environment: _Part
    joint: _Part
    computed: _Part


@lru_cache(maxsize=64)
def _compiled(texts: tuple[tuple[str, str], ...]) -> _Book:
    triggers = tuple(parse(rule_id, text) for rule_id, text in texts)
    pairs = [trigger.get("pair", ({}, {})) for trigger in triggers]
    shared = {
        part: _Part.of([[trigger.get(part, {})] for trigger in triggers])
        for part in ("environment", "joint", "computed")
    }
    return _Book(
        triggers=triggers,
        first=_Part.of(
            [(trigger.get("one", {}), pair[0]) for trigger, pair in zip(triggers, pairs, strict=True)]
        ),
        second=_Part.of([(pair[1],) for pair in pairs]),
        **shared,
    )


def _truths(book: _Book, batch: Sequence[Facts]) -> tuple[Places, Truths, Truths]:
    """Places of the rules that the environments of a batch leave open, and their truths.

    Truths are those of a couple as asked and in reverse, each of shape ``(places, couples)``.
    """
    environments = _Subjects([facts.environment for facts in batch])
    in_environments = book.environment.truths(environments)
    places = np.flatnonzero(in_environments.any(axis=1))
    sides = _Subjects([facts.first for facts in batch] + [facts.second for facts in batch])
    joints = _Subjects([facts.joint for facts in batch])
    shared = np.minimum(
        in_environments[places][:, environments.place],
        book.joint.truths(joints, places)[:, joints.place],
    )
    as_first, as_second = book.first.truths(sides, places), book.second.truths(sides, places)
    first, second = np.split(sides.place, 2)
    found = []
    for is_swapped, one, other in ((False, first, second), (True, second, first)):
        computed = _Subjects([facts.computed(is_swapped=is_swapped) for facts in batch])
        surfaces = np.minimum(as_first[:, one], as_second[:, other])
        own = book.computed.truths(computed, places)[:, computed.place]
        found.append(np.minimum(np.minimum(shared, surfaces), own))
    return places, found[0], found[1]


def _unknown(trigger: Mapping[str, Any], facts: Facts, *, is_swapped: bool) -> tuple[str, ...]:
    """Facts that a trigger asks for and that are not known."""
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
            f"{name}.{fact}"
            for name, conditions, known in parts
            for fact in dict.fromkeys(conditions)
            if known.get(fact) is None
        )
    )
