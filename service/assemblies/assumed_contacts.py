"""Which parts touch, where a bill of materials does not say: by stated rules, and marked as assumed.

1. A fastener clamps its siblings: it touches each part under the same parent.
2. Fasteners of one thread size go together: bolt, washer and nut touch.
3. Two parts that the fasteners of their parent clamp alone touch each other.
4. Where a parent has no fastener, its parts touch in pairs.
5. A part with a surface of its own touches the parts below it.

Parts that name no surface, that do not conduct, or that are never built into the same unit make no
contact. Pairs that are alike in surfaces, place and areas are one contact that stands for all.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from service.assemblies.assembly import Assembly
from service.assemblies.effectivity import is_together
from service.assemblies.hardware import is_fastener, thread_diameter_m
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.judgement import Geometry

CLAMPED = "a fastener clamps its siblings"
SAME_THREAD = "fasteners of one thread size go together"
CLAMPED_PAIR = "two parts that fasteners clamp touch each other"
SIBLINGS = "parts under one parent touch in pairs"
CARRIED = "a part touches the parts below it"

MOST_PAIRS = 200_000
"""Pairs that are looked at; a flat list of more than some 600 parts says too little about contacts."""


@dataclass(frozen=True, slots=True)
class AssumedContacts:
    """Assumed joints, what they rest on, and parents whose pairs were too many."""

    joints: tuple[Joint, ...]
    assumptions: tuple[str, ...]
    too_many: tuple[str, ...] = ()


def assume_contacts(assembly: Assembly, surfaces: Surfaces) -> AssumedContacts:
    """Assume the contacts of an assembly without joints.

    Parameters
    ----------
    assembly : Assembly
        Parts in their tree; joints that it has are not looked at.
    surfaces : Surfaces
        Tells which parts conduct.

    Returns
    -------
    AssumedContacts
        Joints in the order of the tree, numbered ``assumed 1`` and so on.
    """
    conducting = {
        part.id
        for part in assembly.parts.values()
        if part.names_surface and not part.is_isolated and not surfaces.is_insulator(part)
    }
    below: dict[str, list[Part]] = defaultdict(list)
    for part in assembly.parts.values():
        if part.id in conducting:
            below[part.parent].append(part)
    ends = {name: _end(assembly.parts[name], assembly, surfaces) for name in conducting}
    found: dict[object, tuple[Joint, list[tuple[str, str]]]] = {}
    looked_at = 0
    too_many: list[str] = []
    for parent, members in below.items():
        above = assembly.parts[parent] if parent in conducting else None
        pairs = list(itertools.islice(_pairs(above, members), MOST_PAIRS - looked_at + 1))
        if looked_at + len(pairs) > MOST_PAIRS:
            too_many.append(parent or "the list as a whole")
            continue
        looked_at += len(pairs)
        for pair in pairs:
            if is_together(pair[0].effectivity, pair[1].effectivity):
                _keep(found, ends, pair)
    joints = tuple(
        replace(joint, id=f"assumed {number}", alike=tuple(alike))
        for number, (joint, alike) in enumerate(found.values(), 1)
    )
    bases = tuple(dict.fromkeys(joint.basis for joint in joints))
    return AssumedContacts(joints, bases, tuple(too_many))


_Pair = tuple[Part, Part, Geometry, str]


def _pairs(above: Part | None, members: list[Part]) -> Iterator[_Pair]:
    fasteners = [part for part in members if is_fastener(part.words)]
    clamped = [part for part in members if not is_fastener(part.words)]
    for part, fastener in itertools.product(clamped, fasteners):
        yield part, fastener, Geometry.FASTENER, CLAMPED
    for first, second in itertools.combinations(fasteners, 2):
        size = thread_diameter_m(first.words)
        if size is not None and size == thread_diameter_m(second.words):
            yield first, second, Geometry.STRIP, SAME_THREAD
    if not fasteners:
        for first, second in itertools.combinations(clamped, 2):
            yield first, second, Geometry.STRIP, SIBLINGS
    elif len(clamped) == 2:  # noqa: PLR2004 - two parts of one joint
        yield clamped[0], clamped[1], Geometry.STRIP, CLAMPED_PAIR
    if above is not None:
        for part in members:
            is_round = is_fastener(part.words)
            yield above, part, Geometry.FASTENER if is_round else Geometry.STRIP, CARRIED


def _keep(
    found: dict[object, tuple[Joint, list[tuple[str, str]]]], ends: Mapping[str, object], pair: _Pair
) -> None:
    """Keep a pair, or count it to the joint that it is like; flat joints are alike either way round."""
    first, second, geometry, basis = pair
    size = thread_diameter_m(second.words) if geometry is Geometry.FASTENER else None
    key = (ends[first.id], ends[second.id], geometry, basis, size)
    turned = (ends[second.id], ends[first.id], geometry, basis, size)
    if key in found:
        found[key][1].append((first.id, second.id))
    elif geometry is Geometry.STRIP and turned in found:
        found[turned][1].append((second.id, first.id))
    else:
        found[key] = (Joint("", first.id, second.id, geometry=geometry, basis=basis), [])


class _End:
    """What counts of a part when joints are compared; hashed once, because a part is in many pairs."""

    def __init__(self, *figures: object) -> None:
        self._figures = figures
        self._hash = hash(figures)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _End) and self._figures == other._figures


def _end(part: Part, assembly: Assembly, surfaces: Surfaces) -> object:
    return _End(surfaces.likeness(part), part.wetted_area_m2, assembly.place_of(part))
