"""An acceptance envelope as a rule that a machine can check, with a JSON Schema that says the same."""

from __future__ import annotations

import dataclasses
import hashlib
import json

from service.judgement import Couple
from service.remedies.envelopes import Coat, Envelope, Member
from service.remedies.plain import Document, conditions, figure, header, surface_document

KIND, FORMAT = "acceptance-envelope", 1

HOLDS = (
    "One side is changed at a time; the other side, the joint and the place stay as stated. Worn and damaged "
    "surfaces are outside. Thickness counts from the thinnest spot of the contact face and its edges."
)


def envelope_document(envelope: Envelope) -> Document:
    """Build the document of an envelope.

    Parameters
    ----------
    envelope : Envelope

    Returns
    -------
    dict
        JSON values: the rule itself, bound to release, engine and policy, with a digest of its content.
    """
    rule: Document = {
        "kind": KIND,
        "format": FORMAT,
        **header(envelope.catalogue, envelope.policy),
        "policy_digest": envelope.policy.digest(),
        "accept": envelope.accept.value,
        "holds": HOLDS,
        "environment": {"id": envelope.environment.id, "name": envelope.environment.name},
        "joint": _joint(envelope),
        "members": [_member(member, envelope) for member in envelope.members],
        "couples_judged": envelope.judged,
    }
    content = json.dumps(rule, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return {
        **rule,
        "digest": hashlib.sha256(content.encode()).hexdigest(),
        "json_schema": _schema(envelope),
    }


def _joint(envelope: Envelope) -> Document:
    couple: Couple = envelope.couple
    return {
        "first": surface_document(couple.first, envelope.catalogue),
        "second": surface_document(couple.second, envelope.catalogue),
        "first_area_cm2": None if couple.first_area_m2 is None else figure(couple.first_area_m2 * 1e4),
        "second_area_cm2": None if couple.second_area_m2 is None else figure(couple.second_area_m2 * 1e4),
        "geometry": couple.geometry.value,
        "bore_mm": None if couple.bore_m is None else figure(couple.bore_m * 1e3),
        "functions": [function.value for function in couple.functions],
        "design_life_years": envelope.policy.life_years(couple),
        "section_allowance_um": envelope.policy.section_allowance_um(couple),
        "compound": couple.compound_id or None,
        "joint_temperature_C": couple.joint_temperature_C,
        "wear_cycles": couple.wear_cycles,
        "is_isolated": couple.is_isolated,
    }


def _member(member: Member, envelope: Envelope) -> Document:
    finishes = envelope.catalogue.finishes
    names = " over ".join(finishes[coat.finish_id].name for coat in member.coats)
    return {
        "side": member.side,
        "material_id": member.material_id,
        "name": names or "bare",
        "layers": [dataclasses.asdict(coat) for coat in member.coats],
        "verdict": member.verdict.value,
        "conditions": conditions(member.conditions),
    }


def _schema(envelope: Envelope) -> Document:
    """The same rule as a JSON Schema of a surface with its side."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Surfaces accepted as {envelope.accept.value} or better",
        "type": "object",
        "required": ["side", "material_id", "layers"],
        "properties": {"condition": {"const": "intact"}},
        "anyOf": [_accepted(member) for member in envelope.members] or [False],
    }


def _accepted(member: Member) -> Document:
    return {
        "properties": {
            "side": {"const": member.side},
            "material_id": {"const": member.material_id},
            "layers": {
                "type": "array",
                "minItems": len(member.coats),
                "maxItems": len(member.coats),
                "prefixItems": [_layer(coat) for coat in member.coats],
            },
        }
    }


def _layer(coat: Coat) -> Document:
    schema: Document = {
        "type": "object",
        "required": ["finish_id"],
        "properties": {"finish_id": {"const": coat.finish_id}},
    }
    if coat.thickness_min_um is not None:
        limits = {"minimum": coat.thickness_min_um, "maximum": coat.thickness_max_um}
        bounds = {name: limit for name, limit in limits.items() if limit is not None}
        schema["required"] = ["finish_id", "thickness_um"]
        schema["properties"]["thickness_um"] = {"type": "number", **bounds}
    return schema
