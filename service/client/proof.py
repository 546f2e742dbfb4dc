"""Getting an envelope, and proving each of its members by having the service judge it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Unpack

from service.client.batch import decide_all
from service.client.document.bodies import CoupleRequest, EnvelopeRequest
from service.client.document.results import EnvelopeCoat, EnvelopeMember, ShownSurface
from service.client.document.terms import Verdict
from service.client.envelopes import Envelope, OfferedLayer, OfferedSurface
from service.client.flows import Flow, ask_bytes
from service.client.requests import Request

_ORDER: tuple[Verdict, ...] = ("suitable", "conditional", "undetermined", "unsuitable")
_ONLY_OF_ENVELOPES = {"first", "second", "as_of", "constraints", "sides"}


@dataclass(frozen=True, slots=True)
class Counterexample:
    """A surface that an envelope accepts and the service does not."""

    side: str
    surface: OfferedSurface
    promised: Verdict
    found: Verdict
    line: str


@dataclass(frozen=True, slots=True)
class Proof:
    """How an envelope fared when its members were judged one by one."""

    members: int
    judged: int
    counterexamples: tuple[Counterexample, ...]

    @property
    def holds(self) -> bool:
        """Whether every judged surface kept what the envelope promises."""
        return not self.counterexamples


def find_envelope(**body: Unpack[EnvelopeRequest]) -> Flow[Envelope]:
    """Find every finish and thickness that keeps a joint at or above a verdict: a rule to check off line."""
    content = yield from ask_bytes(Request("POST", "/v1/envelopes", body=body, may_repeat=True))
    return Envelope.read(content)


def prove_envelope(envelope: Envelope, question: EnvelopeRequest | CoupleRequest) -> Flow[Proof]:
    """Judge every member under the envelope's own release: at both ends of its ranges, and between.

    Parameters
    ----------
    envelope : Envelope
    question : EnvelopeRequest or CoupleRequest
        What ``find_envelope`` was asked: where the joint lives and what it is for.
    """
    joint = envelope.rule.joint
    sides = {"first": joint.first, "second": joint.second}
    trials = [(member, surface) for member in envelope.rule.members for surface in _surfaces(member)]
    couples = [
        {name: _structure(shown) for name, shown in sides.items()}
        | {member.side: _offered(surface, sides[member.side])}
        for member, surface in trials
    ]
    defaults = {name: value for name, value in question.items() if name not in _ONLY_OF_ENVELOPES}
    items = yield from decide_all(couples, defaults=defaults, as_of=envelope.rule.release.label)
    failures = []
    for (member, surface), item in zip(trials, items, strict=True):
        decision = item.value()
        if _ORDER.index(decision.verdict) > _ORDER.index(member.verdict):
            failures.append(
                Counterexample(member.side, surface, member.verdict, decision.verdict, decision.line)
            )
    return Proof(len(envelope.rule.members), len(trials), tuple(failures))


def _surfaces(member: EnvelopeMember) -> Iterator[OfferedSurface]:
    """Surfaces of a member: all coats at their least, at their most, and between."""
    for place in ("least", "between", "most"):
        layers: list[OfferedLayer] = [
            {"finish_id": coat.finish_id, "thickness_um": _thickness(coat, place)} for coat in member.layers
        ]
        yield {"material_id": member.material_id, "layers": layers}
        if all(coat.thickness_min_um is None for coat in member.layers):
            return


def _thickness(coat: EnvelopeCoat, place: str) -> float | None:
    least = coat.thickness_min_um
    if least is None:
        return None
    most = least if coat.thickness_max_um is None else coat.thickness_max_um
    return {"least": least, "between": math.sqrt(least * most), "most": most}[place]


def _offered(surface: OfferedSurface, before: ShownSurface) -> dict[str, Any]:
    return {**_traits(before), **{name: value for name, value in surface.items() if value}}


def _structure(surface: ShownSurface) -> dict[str, Any]:
    """A surface as a couple takes it."""
    layers = [{"finish_id": each.finish_id, "thickness_um": each.thickness_um} for each in surface.layers]
    named = {"material_id": surface.material_id, "layers": layers, "condition": surface.condition}
    return {**_traits(surface), **{name: value for name, value in named.items() if value}}


def _traits(surface: ShownSurface) -> dict[str, Any]:
    """What stays of a surface when its finish is changed."""
    traits = {
        "basis_family": surface.basis_family,
        "temper": surface.temper,
        "strength_class": surface.strength_class,
    }
    return {name: value for name, value in traits.items() if value}
