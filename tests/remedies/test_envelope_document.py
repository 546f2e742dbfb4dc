from __future__ import annotations

import hashlib
import json
from functools import cache
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest

from service.catalogue.surfaces import Surface
from service.client import Envelope
from service.judgement import DEFAULT_POLICY, Verdict
from service.remedies.constraints import Constraints
from service.remedies.envelope_document import envelope_document
from service.remedies.envelopes import find_envelope
from service.remedies.plain import Document
from tests.factories.remedies import SEA_FRONT, couple_of
from tests.seed_catalogue import seed_catalogue


@cache
def document(accept: Verdict = Verdict.CONDITIONAL) -> Document:
    catalogue = seed_catalogue()
    couple = couple_of(second=Surface("ss-316"), first_area_m2=0.02, second_area_m2=0.004)
    return envelope_document(
        find_envelope(
            couple, catalogue.environments[SEA_FRONT], catalogue, constraints=Constraints(accept=accept)
        )
    )


def surface(member: Document, *, scale: float = 1.0) -> Any:
    layers = []
    for coat in member["layers"]:
        layer = {"finish_id": coat["finish_id"]}
        if coat["thickness_min_um"] is not None:
            layer["thickness_um"] = coat["thickness_min_um"] * scale
        layers.append(layer)
    return {"side": member["side"], "material_id": member["material_id"], "layers": layers}


def test_it_is_bound_to_release_engine_and_policy() -> None:
    catalogue = seed_catalogue()
    envelope = document()
    assert envelope["release"]["content_hash"] == catalogue.content_hash
    assert envelope["policy_digest"] == DEFAULT_POLICY.digest()
    assert envelope["joint"]["first_area_cm2"] == 200.0
    assert envelope["joint"]["second_area_cm2"] == 40.0
    assert envelope["joint"]["design_life_years"] == 10.0


def test_its_digest_is_that_of_its_content() -> None:
    content = {key: value for key, value in document().items() if key not in {"digest", "json_schema"}}
    text = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert hashlib.sha256(text.encode()).hexdigest() == document()["digest"]


def test_default_areas_are_left_open() -> None:
    catalogue = seed_catalogue()
    envelope = envelope_document(
        find_envelope(couple_of(), catalogue.environments["heated-indoor"], catalogue, sides=("second",))
    )
    assert envelope["joint"]["first_area_cm2"] is None


def test_checker_and_schema_agree_on_every_member_and_just_outside() -> None:
    envelope = document()
    schema = jsonschema.Draft202012Validator(envelope["json_schema"])
    rule = Envelope.read(json.dumps({**envelope, "warnings": []}).encode())
    assert envelope["members"]
    for member in envelope["members"]:
        inside, thin = surface(member), surface(member, scale=0.9)
        assert rule.check(inside, member["side"]).is_inside
        assert schema.is_valid(inside)
        has_thickness = any(coat["thickness_min_um"] for coat in member["layers"])
        assert rule.check(thin, member["side"]).is_inside is not has_thickness
        assert schema.is_valid(thin) is not has_thickness
        assert not schema.is_valid({**inside, "condition": "worn"})


@pytest.mark.parametrize("key", ["side", "material_id", "layers"])
def test_the_schema_asks_for_all_parts(key: str) -> None:
    member = surface(document()["members"][0])
    del member[key]
    assert not jsonschema.Draft202012Validator(document()["json_schema"]).is_valid(member)


def test_an_empty_envelope_accepts_nothing() -> None:
    catalogue = seed_catalogue()
    isolated = couple_of(is_isolated=True)
    nothing = envelope_document(
        find_envelope(
            isolated,
            catalogue.environments[SEA_FRONT],
            catalogue,
            constraints=Constraints(accept=Verdict.SUITABLE),
        )
    )
    assert nothing["members"] == []
    schema = jsonschema.Draft202012Validator(nothing["json_schema"])
    assert not schema.is_valid({"side": "first", "material_id": "al-6082-t6", "layers": []})
