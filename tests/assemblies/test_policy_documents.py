from __future__ import annotations

import datetime as dt
import json
from typing import Any

import pytest

from service.assemblies.errors import InvalidAssemblyError
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.assemblies.policy_documents import document_of_policy, house_policy_of, waivers_of
from service.judgement import Function, Severity, Verdict

POLICY: dict[str, Any] = {
    "name": "Skerrivoe",
    "version": "3",
    "bands": {
        "name": "Skerrivoe bands",
        "severity_bounds": [0.05, 0.5, 1.5],
        "default_design_life_years": 20,
        "section_allowances_um": {"seal": 80},
        "limits_V": {"harsh": 0.1},
    },
    "limits": [
        {
            "id": "earths",
            "statement": "Protective earths stay good.",
            "accepted_verdicts": ["suitable"],
            "largest_severity": "slight",
            "largest_loss_um": 50,
            "accepts_assumed_contacts": False,
            "scope": {"functions": ["protective earth"], "verdicts": ["conditional"]},
            "waivable_by": ["design authority"],
        }
    ],
    "bans": [{"id": "cadmium", "statement": "No cadmium.", "substances": ["Cd"]}],
    "preferred_finishes": ["zn-hdg"],
    "requirements": [{"id": "paste", "statement": "Paste in earths.", "compounds": ["jc-zinc"]}],
    "acceptance": {"name": "strict", "reject_on": ["worse"], "review_on": []},
}
WAIVER = {
    "id": "W1",
    "subject": "J04",
    "reason": "Replaced at the next docking.",
    "approver": "A. Person",
    "role": "design authority",
    "granted_on": "2026-01-01",
    "expires_on": "2026-12-31",
    "rules": ["earths"],
}


def test_a_policy_is_read_with_all_its_rules() -> None:
    policy = house_policy_of(POLICY)
    assert policy.bands.section_allowances_um[Function.SEAL] == 80.0
    assert policy.bands.section_allowances_um[Function.RF] == 50.0
    assert (policy.bands.name, policy.bands.limits_V) == ("Skerrivoe bands", {"harsh": 0.1})
    (limit,) = policy.limits
    assert limit.scope.functions == (Function.PROTECTIVE_EARTH,)
    assert (limit.scope.verdicts, limit.accepted_verdicts) == ((Verdict.CONDITIONAL,), (Verdict.SUITABLE,))
    assert (limit.largest_severity, limit.largest_loss_um, limit.accepts_assumed_contacts) == (
        Severity.SLIGHT,
        50.0,
        False,
    )
    assert policy.bans[0].substances == ("Cd",)
    assert policy.acceptance.reject_on == ("worse",)


@pytest.mark.parametrize("policy", [house_policy_of(POLICY), DEFAULT_HOUSE_POLICY], ids=["own", "default"])
def test_a_policy_survives_its_document(policy: Any) -> None:
    assert house_policy_of(json.loads(json.dumps(document_of_policy(policy)))) == policy


def test_an_empty_policy_has_the_usual_bands() -> None:
    assert house_policy_of({}).bands == DEFAULT_HOUSE_POLICY.bands


def changed(**members: Any) -> dict[str, Any]:
    return {**POLICY, **members}


@pytest.mark.parametrize(
    ("document", "pointer"),
    [
        ([], "/"),
        (changed(limts=[]), "/limts"),
        (changed(bands=5), "/bands"),
        (changed(bands={"bounds": 1}), "/bands/bounds"),
        (changed(bands={"severity_bounds": [1, 2]}), "/bands/severity_bounds"),
        (changed(bands={"severity_bounds": [3, 2, 1]}), "/bands/severity_bounds"),
        (changed(bands={"severity_bounds": [-1, 0, 1]}), "/bands/severity_bounds"),
        (changed(bands={"severity_bounds": 5}), "/bands/severity_bounds"),
        (changed(bands={"default_design_life_years": True}), "/bands/default_design_life_years"),
        (changed(bands={"section_allowances_um": []}), "/bands/section_allowances_um"),
        (changed(bands={"section_allowances_um": {"glue": 1}}), "/bands/section_allowances_um/glue"),
        (changed(bands={"section_allowances_um": {"seal": 0}}), "/bands/section_allowances_um/seal"),
        (changed(limits=5), "/limits"),
        (changed(limits=["x"]), "/limits/0"),
        (changed(limits=[{"id": "a"}]), "/limits/0/statement"),
        (
            changed(limits=[{"id": "a", "statement": "b", "largest_severity": "bad"}]),
            "/limits/0/largest_severity",
        ),
        (
            changed(limits=[{"id": "a", "statement": "b", "largest_loss_um": "x"}]),
            "/limits/0/largest_loss_um",
        ),
        (changed(limits=[{"id": "a", "statement": "b", "scope": []}]), "/limits/0/scope"),
        (
            changed(limits=[{"id": "a", "statement": "b", "accepts_assumed_contacts": 1}]),
            "/limits/0/accepts_assumed_contacts",
        ),
        (changed(bans=[{"id": "a", "statement": 5}]), "/bans/0/statement"),
        (changed(bans=[{"id": "a", "statement": "b", "finishes": "zn"}]), "/bans/0/finishes"),
        (changed(bans=[{"id": "a", "statement": "b"}] * 2), "/bans/1/id"),
    ],
)
def test_what_cannot_be_used_is_pointed_at(document: Any, pointer: str) -> None:
    with pytest.raises(InvalidAssemblyError) as caught:
        house_policy_of(document)
    assert (caught.value.pointer or "/") == pointer


def test_a_misspelt_member_is_suggested() -> None:
    with pytest.raises(InvalidAssemblyError) as caught:
        house_policy_of(changed(limts=[]))
    assert caught.value.suggestions == ("limits",)


def test_waivers_are_read() -> None:
    (waiver,) = waivers_of([WAIVER])
    assert (waiver.expires_on, waiver.rules, waiver.revoked_on) == (dt.date(2026, 12, 31), ("earths",), None)


@pytest.mark.parametrize(
    ("document", "pointer"),
    [
        ("W1", ""),
        ([{**WAIVER, "expires_on": "next year"}], "/0/expires_on"),
        ([{name: value for name, value in WAIVER.items() if name != "reason"}], "/0/reason"),
    ],
)
def test_waivers_that_cannot_be_used_are_pointed_at(document: Any, pointer: str) -> None:
    with pytest.raises(InvalidAssemblyError) as caught:
        waivers_of(document)
    assert caught.value.pointer == pointer
