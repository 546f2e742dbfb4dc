"""What in the knowledge base an answer can depend on, as a set of short texts that can be stored.

Three sorts of keys: ``table/id`` for a record whose figures can count; ``fact/name=value`` for what rules
may ask, with ``?`` where the fact is not known; ``side/...`` and ``words/...`` for texts whose reading
another release may change.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any

import orjson

from service.assemblies.parts import Part
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import Answer, Side
from service.judgement.exposed import BASIS_ELECTRODE
from service.judgement.facts import environment_facts, joint_facts, side_facts

SCREENED = frozenset(
    {
        "material", "family", "electrode", "electrode_family", "finish", "finish_role", "finishes",
        "substances", "is_conductive", "basis_electrode", "environment", "exposure", "electrolyte_class",
        "tags", "isa7104_level", "iso9223_category", "functions", "compound", "geometry", "is_isolated",
    }
)  # fmt: skip
"""Facts by which a rule can be told not to apply; figures are left to the judgement."""

UNKNOWN = "?"
SIDE, WORDS, FACT = "side/", "words/", "fact/"
PINNED = "pinned"
"""The one key of an assembly whose programme is pinned to a release: no later one touches it."""


def keys_of_answer(answer: Answer) -> set[str]:
    """Return everything that an answer can depend on."""
    keys = keys_of_place(answer.inquiry.environment, answer.environment)
    for side in (answer.inquiry.first, answer.inquiry.second):
        keys.add(side_key(side))
    if answer.inquiry.compound_id:
        keys.add(f"compounds/{answer.inquiry.compound_id}")
    for judgement in answer.judgements:
        for surface in (judgement.couple.first, judgement.couple.second):
            keys |= keys_of_surface(surface, answer.catalogue)
        keys.update(_facts(joint_facts(judgement.couple, None)))
    return keys


def keys_of_place(named: str | Environment, environment: Environment) -> set[str]:
    """Return the keys of a place; one that the caller described is no record."""
    keys = set(_facts(environment_facts(environment)))
    keys.add(f"{FACT}screening_class={environment.screening_class}")
    if isinstance(named, str):
        keys.add(f"environments/{named}")
    return keys


def keys_of_part(part: Part, surface: Surface | None, catalogue: Catalogue) -> set[str]:
    """Return the keys of a part of an assembly, whether or not it stands in a joint."""
    keys = {side_key(part.side)} if part.names_surface else {words_key(part.description, part.note)}
    return keys if surface is None else keys | keys_of_surface(surface, catalogue)


@lru_cache(maxsize=8192)
def keys_of_surface(surface: Surface, catalogue: Catalogue) -> frozenset[str]:
    """Return the keys of a surface: its records, what they refer to, and what rules see of it."""
    keys = set(_facts(side_facts(surface, catalogue)))
    if surface.material_id:
        keys.update(_closure("materials", surface.material_id, catalogue))
    if surface.basis_family in BASIS_ELECTRODE:
        keys.update(_closure("electrodes", BASIS_ELECTRODE[surface.basis_family], catalogue))
    for layer in surface.layers:
        keys.update(_closure("finishes", layer.finish_id, catalogue))
    return frozenset(keys)


def side_key(side: Side) -> str:
    """Name one side as the caller gave it."""
    return SIDE + orjson.dumps(side).decode()


def words_key(description: str, note: str) -> str:
    """Name the words in which a surface was looked for."""
    return WORDS + orjson.dumps([description, note]).decode()


_REFERENCES: Mapping[str, tuple[tuple[str, str], ...]] = {
    "materials": (("electrode_id", "electrodes"),),
    "finishes": (("outer_electrode_id", "electrodes"), ("underplate_id", "finishes")),
    "electrodes": (("representative_material_id", "materials"),),
}


def _closure(table: str, record_id: str, catalogue: Catalogue) -> Iterable[str]:
    """A record and those that it leads to."""
    found: set[tuple[str, str]] = set()
    waiting = [(table, record_id)]
    while waiting:
        where, name = waiting.pop()
        record = getattr(catalogue, where).get(name)
        if (where, name) in found or record is None:
            continue
        found.add((where, name))
        waiting += [
            (target, getattr(record, field)) for field, target in _REFERENCES[where] if getattr(record, field)
        ]
    return (f"{where}/{name}" for where, name in found)


def _facts(facts: Mapping[str, Any]) -> Iterator[str]:
    for name, value in facts.items():
        if name in SCREENED:
            values = value if isinstance(value, frozenset) else [value]
            yield from (f"{FACT}{name}={UNKNOWN if each is None else each}" for each in values)


def source_keys(document: Mapping[str, Any], catalogue: Catalogue) -> set[str]:
    """Return the keys of the sources that an answer's document cites; a verdict does not depend on them."""
    rules = (catalogue.rules.get(hazard["id"]) for hazard in document["hazards"])
    cited = {item["source_id"] for item in document["evidence"]} | {rule.source_id for rule in rules if rule}
    return {f"sources/{source_id}" for source_id in cited}
