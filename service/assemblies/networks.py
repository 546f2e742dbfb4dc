"""The networks of an assembly: its conductive groups, place by place, against what couples alone say."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from service.assemblies.assembly import Assembly, Place
from service.assemblies.groups import conductive_groups
from service.assemblies.judged import JudgedJoint, by_part
from service.assemblies.network import Member, Network, solve_network
from service.assemblies.network_findings import PartFinding, part_findings
from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement import Function, Policy, Severity

_SACRIFICIAL = re.compile(
    r"(?<!\w)(?:sacrificial|(?:opfer|zink|magnesium|aluminium)?anoden?|anodes?)(?!\w)",
    re.IGNORECASE,
)


class Against(StrEnum):
    """A part in its network against the worst of its couples alone."""

    WORSE = "worse"
    SAME = "same"
    MILDER = "milder"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class PartInNetwork:
    """What a network does to a part, and what its couples alone would say.

    ``is_sacrificial`` marks a part that is there to be spent.
    """

    finding: PartFinding
    couple_severity: Severity | None
    against: Against
    is_sacrificial: bool


@dataclass(frozen=True, slots=True)
class AssemblyNetwork:
    """One conductive group in one place. ``assumptions`` say which areas were not stated."""

    number: int
    network: Network
    parts: tuple[PartInNetwork, ...]
    assumptions: tuple[str, ...]


def networks_of(
    assembly: Assembly, judged: Sequence[JudgedJoint], surfaces: Surfaces, policy: Policy
) -> tuple[AssemblyNetwork, ...]:
    """Solve every conductive group, place by place.

    A group of two parts is a couple and was judged as one; it is left out here. So are contacts that
    were assumed: a network of guesses would say nothing.
    """
    stated = [joint for joint in assembly.joints if not joint.is_assumed]
    insulators = frozenset(part.id for part in assembly.parts.values() if surfaces.is_insulator(part))
    joined = by_part(judged)
    found: list[AssemblyNetwork] = []
    for group in conductive_groups(assembly.parts, stated, insulators):
        for place, names in _places(assembly, group, joined).items():
            environment = _environment(place, surfaces.catalogue)
            if environment is None or len(names) < 3:  # noqa: PLR2004 - two are a couple
                continue
            parts = [assembly.parts[name] for name in names]
            found.append(_network(len(found) + 1, parts, environment, assembly, joined, surfaces, policy))
    return tuple(found)


def _places(
    assembly: Assembly, group: Sequence[str], joined: Mapping[str, list[JudgedJoint]]
) -> dict[Place, list[str]]:
    """Parts of a group by where they live: in their zone, else where their joints or the programme are."""
    places: dict[Place, list[str]] = {}
    for name in group:
        part = assembly.parts[name]
        if not part.names_surface:
            continue
        own = [assembly.place_of(part)] if assembly.zone_of(part) else []
        shared = [place for item in joined.get(name, ()) for place in assembly.places_of(item.joint)]
        for place in dict.fromkeys(
            place for place in own or shared or [assembly.programme.environment] if place
        ):
            places.setdefault(place, []).append(name)
    return places


def _environment(place: Place, catalogue: Catalogue) -> Environment | None:
    return place if isinstance(place, Environment) else catalogue.environments.get(place)


def _network(
    number: int,
    parts: Sequence[Part],
    environment: Environment,
    assembly: Assembly,
    joined: Mapping[str, list[JudgedJoint]],
    surfaces: Surfaces,
    policy: Policy,
) -> AssemblyNetwork:
    members, unread = [], []
    for part in parts:
        surface = surfaces.surface(part)
        if surface is None:
            unread.append((part.id, "its surface was not understood"))
            continue
        joints = [item.joint for item in joined.get(part.id, ())]
        lives = [joint.design_life_years for joint in joints if joint.design_life_years]
        allowances = [joint.section_allowance_um for joint in joints if joint.section_allowance_um]
        members.append(
            Member(
                part=part.id,
                surface=surface,
                area_m2=_area_m2(part),
                functions=tuple(dict.fromkeys(f for joint in joints for f in joint.functions))
                or (Function.STRUCTURAL,),
                design_life_years=max(lives, default=assembly.programme.design_life_years),
                section_allowance_um=min(allowances, default=None),
            )
        )
    network = solve_network(members, environment, surfaces.catalogue)
    network = Network(
        network.environment,
        network.members,
        network.solutions,
        network.abstains,
        (*network.left_out, *unread),
    )
    guessed = [member.part for member in members if member.area_m2 is None]
    assumptions = [f"wetted area of {name}: 10 to 1000 cm2" for name in guessed]
    return AssemblyNetwork(
        number,
        network,
        tuple(
            _in_network(finding, assembly.parts[finding.part], joined)
            for finding in part_findings(network, surfaces.catalogue, policy)
        ),
        tuple(assumptions),
    )


def _area_m2(part: Part) -> float | None:
    """Wetted area of all pieces of a part."""
    return None if part.wetted_area_m2 is None else part.wetted_area_m2 * (part.quantity or 1.0)


def _in_network(finding: PartFinding, part: Part, joined: Mapping[str, list[JudgedJoint]]) -> PartInNetwork:
    found = [item.kinetic_severity_of(part.id) for item in joined.get(part.id, ())]
    known = [severity for severity in found if severity is not None]
    couple = max(known, key=lambda severity: severity.rank) if known else None
    if couple is None:
        against = Against.UNKNOWN
    else:
        step = finding.severity.rank - couple.rank
        against = Against.WORSE if step > 0 else Against.MILDER if step < 0 else Against.SAME
    is_sacrificial = bool(_SACRIFICIAL.search(part.words))
    return PartInNetwork(finding, couple, against, is_sacrificial)
