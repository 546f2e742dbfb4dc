"""Checking a surface against an acceptance envelope: plain JSON values in, no catalogue, no network.

This file stands alone, so that a buyer's system can carry it. An envelope holds for one joint and one release
of the knowledge base; whoever knows of a newer release says so by its hash.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

KIND = "acceptance-envelope"
FORMAT = 1


@dataclass(frozen=True, slots=True)
class Compliance:
    """Why a surface is inside or not; ``verdict`` is that of the member that it meets, empty outside."""

    reason: str
    verdict: str = ""

    @property
    def is_inside(self) -> bool:
        """Whether the surface may be taken."""
        return bool(self.verdict)


def complies(
    envelope: Mapping[str, Any],
    surface: Mapping[str, Any],
    side: str,
    current_release: str = "",
) -> Compliance:
    """Check a surface against an envelope.

    Parameters
    ----------
    envelope : mapping
        As ``POST /v1/envelopes`` gave it.
    surface : mapping
        ``material_id``, ``layers`` from the outside in with ``finish_id`` and ``thickness_um`` [um], and
        optionally ``condition``.
    side : str
        ``first`` or ``second``.
    current_release : str
        Content hash of the release that is current, if known; another one than the envelope's is refused.

    Returns
    -------
    Compliance

    Raises
    ------
    ValueError
        If the mapping is no envelope of a format known here.
    """
    if envelope.get("kind") != KIND or envelope.get("format") != FORMAT:
        message = "not an acceptance envelope of this format"
        raise ValueError(message)
    if current_release and current_release != envelope["release"]["content_hash"]:
        return Compliance("the envelope is bound to another release")
    if surface.get("condition", "intact") != "intact":
        return Compliance("the surface is worn or damaged")
    members = [member for member in envelope["members"] if member["side"] == side]
    if not members:
        return Compliance(f"the envelope has no member for the {side} side")
    of_material = [member for member in members if member["material_id"] == surface.get("material_id")]
    if not of_material:
        return Compliance("the material is another than the envelope's")
    return _by_finish(of_material, surface)


def _by_finish(members: Sequence[Mapping[str, Any]], surface: Mapping[str, Any]) -> Compliance:
    layers = surface.get("layers", ())
    stack = [layer["finish_id"] for layer in layers]
    for member in members:
        if [coat["finish_id"] for coat in member["layers"]] == stack:
            return _by_thickness(member, layers)
    return Compliance("the finish is not in the envelope")


def _by_thickness(member: Mapping[str, Any], layers: Sequence[Mapping[str, Any]]) -> Compliance:
    for coat, layer in zip(member["layers"], layers, strict=True):
        least, most = coat["thickness_min_um"], coat["thickness_max_um"]
        thickness = layer.get("thickness_um")
        if least is None:
            continue
        if thickness is None:
            return Compliance(f"the thickness of {coat['finish_id']} is not stated")
        if thickness < least:
            return Compliance(f"{coat['finish_id']} is thinner than {least:g} µm")
        if most is not None and thickness > most:
            return Compliance(f"{coat['finish_id']} is thicker than {most:g} µm")
    return Compliance("inside the envelope", member["verdict"])
