"""Acceptance envelopes off line: may a buyer take this finish, without asking the service again.

An envelope is the rule that ``find_envelope`` gave, kept as it came. It holds for one joint in one place
under one release, with one side changed at a time; its digest shows whether anybody changed it since.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal, NotRequired, TypedDict

from service.client.document.results import CandidateReading, Condition, EnvelopeAnswer, EnvelopeMember
from service.client.document.terms import Verdict
from service.client.errors import EnvelopeError, UnexpectedReplyError
from service.client.flows import read

KIND, FORMAT = "acceptance-envelope", 1
_NOT_IN_DIGEST = ("digest", "json_schema", "warnings")
Side = Literal["first", "second"]


class OfferedLayer(TypedDict):
    """One coat of an offer."""

    finish_id: str
    thickness_um: NotRequired[float | None]


class OfferedSurface(TypedDict):
    """What a supplier offers, by identifiers; coats from the outside in, none for bare metal."""

    material_id: str | None
    layers: Sequence[OfferedLayer]
    condition: NotRequired[str]


def offered(reading: CandidateReading) -> OfferedSurface:
    """Turn a reading of a supplier's text, as ``resolve_texts`` gives it, into an offer."""
    return {
        "material_id": reading.material_id,
        "layers": [
            {"finish_id": layer.finish_id, "thickness_um": layer.thickness_um} for layer in reading.layers
        ],
        "condition": reading.condition,
    }


@dataclass(frozen=True, slots=True)
class Compliance:
    """Whether an offer is inside an envelope, and why; what has to be done for it to stay acceptable."""

    reason: str
    member: EnvelopeMember | None = None

    @property
    def is_inside(self) -> bool:
        """Whether the offer may be taken."""
        return self.member is not None

    @property
    def verdict(self) -> Verdict | None:
        """The worst verdict of the member that the offer meets."""
        return self.member.verdict if self.member else None

    @property
    def conditions(self) -> tuple[Condition, ...]:
        """What must be done for that verdict to hold."""
        return self.member.conditions if self.member else ()


@dataclass(frozen=True, slots=True)
class Envelope:
    """A rule for a buyer: the bytes that the service sent, and what they say."""

    content: bytes
    rule: EnvelopeAnswer

    @classmethod
    def read(cls, content: bytes) -> Envelope:
        """Read an envelope and check that nobody changed it.

        Raises
        ------
        EnvelopeError
            If it is none of a format that is known here, or its content does not match its digest.
        """
        try:
            rule = read(content, EnvelopeAnswer)
        except UnexpectedReplyError as error:
            message = f"this is no acceptance envelope: {error}"
            raise EnvelopeError(message) from error
        if (rule.kind, rule.format) != (KIND, FORMAT):
            message = f"{rule.kind} of format {rule.format} is not known here"
            raise EnvelopeError(message)
        if _digest(json.loads(content)) != rule.digest:
            message = "the envelope does not match its digest: it was changed"
            raise EnvelopeError(message)
        return cls(content, rule)

    @classmethod
    def load(cls, path: str | Path) -> Envelope:
        """Read an envelope from disk."""
        return cls.read(Path(path).read_bytes())

    def save(self, path: str | Path) -> None:
        """Keep the envelope on disk, as the service sent it."""
        Path(path).write_bytes(self.content)

    def check(self, offer: OfferedSurface, side: Side, *, current_release: str = "") -> Compliance:
        """Check an offer for one side.

        ``current_release`` is the content hash of the release that is current, where that is known: under
        another release than its own an envelope accepts nothing.
        """
        if current_release and current_release != self.rule.release.content_hash:
            return Compliance("the envelope is bound to another release: ask for a new one")
        if offer.get("condition", "intact") != "intact":
            return Compliance("the surface is worn or damaged")
        stack = [layer["finish_id"] for layer in offer["layers"]]
        demands: tuple[tuple[str, Callable[[EnvelopeMember], bool]], ...] = (
            (f"nothing is accepted on the {side} side", lambda member: member.side == side),
            (
                f"the material is not the one of the {side} side",
                lambda member: member.material_id == offer["material_id"],
            ),
            (
                "the finish is not accepted",
                lambda member: [coat.finish_id for coat in member.layers] == stack,
            ),
        )
        members = self.rule.members
        for reason, is_met in demands:
            members = tuple(filter(is_met, members))
            if not members:
                return Compliance(reason)
        faults = [_fault(member, offer["layers"]) for member in members]
        for member, fault in zip(members, faults, strict=True):
            if not fault:
                return Compliance("inside the envelope", member)
        return Compliance(faults[0])


def _fault(member: EnvelopeMember, layers: Sequence[OfferedLayer]) -> str:
    for coat, layer in zip(member.layers, layers, strict=True):
        thickness = layer.get("thickness_um")
        if coat.thickness_min_um is None:
            continue
        if thickness is None:
            return f"the thickness of {coat.finish_id} is not stated"
        if not thickness >= coat.thickness_min_um:
            return f"{coat.finish_id} is thinner than {coat.thickness_min_um:g} µm"
        if coat.thickness_max_um is not None and thickness > coat.thickness_max_um:
            return f"{coat.finish_id} is thicker than {coat.thickness_max_um:g} µm"
    return ""


def _digest(document: dict[str, Any]) -> str:
    rule = {name: value for name, value in document.items() if name not in _NOT_IN_DIGEST}
    content = json.dumps(rule, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(content.encode()).hexdigest()
