"""Every member of an envelope is judged by the service itself, and a false one is found out."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import pytest

from service.client import AsyncClient, Client, Envelope
from service.client.document.bodies import EnvelopeRequest

QUESTIONS: list[EnvelopeRequest] = [
    {
        "first": "EN AW-6082-T6",
        "second": "A4-80",
        "environment": "marine-atmosphere-0-100-m",
        "first_area_cm2": 200,
        "second_area_cm2": 4,
    },
    {
        "first": "Cu-ETP",
        "second": "10.9 Fe//Zn8//C",
        "environment": "heated-indoor",
        "functions": ["electrical bond"],
        "design_life_years": 20,
        "sides": "second",
        "constraints": {"accept": "suitable"},
    },
]


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_member_keeps_its_promise(client: Client, question: EnvelopeRequest) -> None:
    envelope = client.find_envelope(**question)
    assert envelope.rule.members
    proof = client.prove_envelope(envelope, question)
    assert proof.holds, proof.counterexamples[:3]
    assert proof.members == len(envelope.rule.members) <= proof.judged


@pytest.mark.anyio
async def test_a_false_member_is_found_out(async_client: AsyncClient) -> None:
    question = QUESTIONS[0]
    envelope = await async_client.find_envelope(**question)
    document = json.loads(envelope.content)
    bare = {"side": "second", "material_id": "cu-etp", "name": "bare", "layers": [], "conditions": []}
    document["members"].append({**bare, "verdict": "suitable"})
    forged = Envelope.read(json.dumps(signed(document)).encode())
    proof = await async_client.prove_envelope(forged, question)
    assert not proof.holds
    (found,) = proof.counterexamples
    assert (found.side, found.promised) == ("second", "suitable")
    assert found.found in {"conditional", "unsuitable"}
    assert found.line


def signed(document: dict[str, Any]) -> dict[str, Any]:
    """Give a changed envelope the digest of its content."""
    rule = {name: document[name] for name in document if name not in {"digest", "json_schema", "warnings"}}
    content = json.dumps(rule, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return {**document, "digest": hashlib.sha256(content.encode()).hexdigest()}
