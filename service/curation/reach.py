"""Which changes between two releases can touch an answer: never too few, and seldom too many.

A figure touches what refers to its subject; a rule, what could meet its trigger before or after; a name,
what reads differently with it. What is touched has to be judged again to know whether anything changed.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Self

import msgspec

from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.callouts.reading import Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.difference import Change, diff
from service.curation.dependence import FACT, PINNED, SCREENED, SIDE, UNKNOWN, WORDS
from service.judgement import InvalidInquiryError, Side
from service.judgement.readings import reading_of

SUBJECTS = {
    "material": "materials",
    "electrode": "electrodes",
    "finish": "finishes",
    "compound": "compounds",
    "electrolyte": "electrolytes",
}
OWN_RECORDS = ("materials", "finishes", "electrodes", "compounds", "environments", "electrolytes", "sources")
LEXICAL = frozenset({"designations", "materials", "finishes"})
"""Tables whose rows decide how texts are read."""

Facts = Mapping[str, set[str]]


@dataclass(frozen=True, slots=True)
class Reach:
    """The changes from one release to another, by what they can touch."""

    before: Catalogue
    after: Catalogue
    changes: tuple[Change, ...]
    by_key: Mapping[str, tuple[Change, ...]]
    rules: tuple[Change, ...]
    limits: tuple[Change, ...]
    lexical: tuple[Change, ...]
    _read: dict[str, bool] = field(default_factory=dict)

    @classmethod
    def of(cls, before: Catalogue, after: Catalogue) -> Self:
        """Compare two releases."""
        changes = tuple(diff(before, after))
        by_key: dict[str, list[Change]] = defaultdict(list)
        for change in changes:
            for key in _keys(change, before, after):
                by_key[key].append(change)
        return cls(
            before=before,
            after=after,
            changes=changes,
            by_key={key: tuple(found) for key, found in by_key.items()},
            rules=tuple(change for change in changes if change.table == "rules"),
            limits=tuple(change for change in changes if change.table == "limits"),
            lexical=tuple(change for change in changes if change.table in LEXICAL),
        )

    def touching(self, keys: Iterable[str]) -> tuple[Change, ...]:
        """Return the changes that can touch something with these keys, in the order of the difference."""
        keys = set(keys)
        if PINNED in keys:
            return ()
        found = {id(change) for key in keys for change in self.by_key.get(key, ())}
        facts = _facts(keys)
        found |= {id(change) for change in self.limits if self._is_limit_met(change, facts)}
        found |= {id(change) for change in self.rules if self._could_apply(change, facts)}
        if self.lexical and any(self._reads_differently(key) for key in keys):
            found |= {id(change) for change in self.lexical}
        return tuple(change for change in self.changes if id(change) in found)

    def _is_limit_met(self, change: Change, facts: Facts) -> bool:
        classes = {row.screening_class for row in self._rows("limits", change)}
        return not classes.isdisjoint(facts.get("screening_class", set()))

    def _could_apply(self, change: Change, facts: Facts) -> bool:
        return any(could_apply(json.loads(row.trigger), facts) for row in self._rows("rules", change))

    def _rows(self, table: str, change: Change) -> Iterator[Any]:
        for catalogue in (self.before, self.after):
            row = getattr(catalogue, table).get(change.key[0])
            if row is not None:
                yield row

    def _reads_differently(self, key: str) -> bool:
        if not key.startswith((SIDE, WORDS)):
            return False
        if key not in self._read:
            self._read[key] = _reading(key, self.before) != _reading(key, self.after)
        return self._read[key]


def could_apply(trigger: Mapping[str, Any], facts: Facts) -> bool:
    """Whether a rule could apply to some couple among surfaces, places and joints with these facts."""
    pair = trigger.get("pair", ({}, {}))
    parts = (*pair, *(trigger.get(name, {}) for name in ("one", "environment", "joint")))
    return all(_could_hold(fact, matcher, facts) for part in parts for fact, matcher in part.items())


def _could_hold(fact: str, matcher: Any, facts: Facts) -> bool:
    values = facts.get(fact, set())
    if fact not in SCREENED or UNKNOWN in values:
        return True
    if isinstance(matcher, dict):
        operator, operand = next(iter(matcher.items()))
        if operator not in {"has", "has_any"}:
            return True
        matcher = operand
    wanted = matcher if isinstance(matcher, list) else [matcher]
    return not values.isdisjoint(map(str, wanted))


def _keys(change: Change, before: Catalogue, after: Catalogue) -> set[str]:
    """The record keys by which a change touches: its own record, or the subject of its figure."""
    table, record_id = change.table, change.key[0]
    keys = {f"{table}/{record_id}"} if table in OWN_RECORDS else set()
    if table == "finish_substrates":
        keys.add(f"finishes/{record_id}")
    for catalogue in (before, after):
        if table == "measurements" and (row := catalogue.measurements.get(record_id)):
            keys.add(f"{SUBJECTS[row.subject_kind]}/{row.subject_id}")
        if table == "kinetics" and (state := catalogue.kinetics.get(record_id)):
            keys.add(f"electrodes/{state.electrode_id}")
        if table in {"scales", "electrolytes"}:
            name = "scale_id" if table == "scales" else "electrolyte_id"
            keys |= {
                f"{SUBJECTS[row.subject_kind]}/{row.subject_id}"
                for row in catalogue.measurements.values()
                if getattr(row, name) == record_id
            }
    return keys


def _facts(keys: set[str]) -> Facts:
    facts: dict[str, set[str]] = defaultdict(set)
    for key in keys:
        if key.startswith(FACT):
            name, _, value = key.removeprefix(FACT).partition("=")
            facts[name].add(value)
    return facts


def _reading(key: str, catalogue: Catalogue) -> tuple[Part, Reading | None] | Reading | str:
    """How a text reads in a release."""
    if key.startswith(WORDS):
        description, note = msgspec.json.decode(key.removeprefix(WORDS))
        surfaces = Surfaces(catalogue)
        named = surfaces.named(Part("", description=description, note=note))
        return named, surfaces.reading(named)
    side = msgspec.json.decode(key.removeprefix(SIDE), type=Side)
    try:
        return reading_of(side, "", catalogue)
    except InvalidInquiryError as error:
        return str(error)
