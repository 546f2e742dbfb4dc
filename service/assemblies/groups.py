"""Conductive groups: parts that electrons can reach from one another.

Joints conduct unless they or one of their parts are isolated; parts on one net conduct to each
other. Paint and anodic films between parts count as bridged, because fasteners cut through them and
an isolation that nobody stated cannot be relied on. Parts that do not conduct join nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from service.assemblies.joints import Joint
from service.assemblies.parts import Part


def conductive_groups(
    parts: Mapping[str, Part], joints: Iterable[Joint], insulators: frozenset[str] = frozenset()
) -> list[tuple[str, ...]]:
    """Group parts by their electronic paths.

    Parameters
    ----------
    parts : mapping of str to Part
        All parts by identifier.
    joints : iterable of Joint
        What joins them.
    insulators : frozenset of str
        Parts whose material does not conduct.

    Returns
    -------
    list of tuple of str
        Groups of two parts or more, members and groups in the order of ``parts``.
    """
    leaders = {name: name for name in parts}

    def leader(name: str) -> str:
        while leaders[name] != name:
            leaders[name] = leaders[leaders[name]]
            name = leaders[name]
        return name

    def join(one: str, other: str) -> None:
        leaders[leader(other)] = leader(one)

    for joint in joints:
        ends = (parts[joint.first], parts[joint.second])
        is_open = joint.is_isolated or any(part.is_isolated or part.id in insulators for part in ends)
        if not is_open:
            join(joint.first, joint.second)
    on_net: dict[str, str] = {}
    for part in parts.values():
        if part.net and part.id not in insulators:
            join(on_net.setdefault(part.net, part.id), part.id)
    groups: dict[str, list[str]] = {}
    for name in parts:
        groups.setdefault(leader(name), []).append(name)
    return [tuple(members) for members in groups.values() if len(members) > 1]
