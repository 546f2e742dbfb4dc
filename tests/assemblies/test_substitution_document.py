from __future__ import annotations

import hashlib
from typing import Any

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.assemblies.joints import Joint
from service.assemblies.outcomes import canonical
from service.assemblies.parts import Part
from service.assemblies.substitution import Substitute, check_substitutes
from service.assemblies.substitution_document import substitution_document
from service.catalogue.catalogue import Catalogue

PARTS = {
    each.id: each
    for each in (
        Part("plate", text="EN AW-6082-T6", wetted_area_m2=0.1),
        Part("clip", text="EN AW-6082-T6", wetted_area_m2=0.1),
        Part("board"),
    )
}
JOINTS = (Joint("2", "board", "clip"), Joint("1", "plate", "clip"))
ASSEMBLY = Assembly(PARTS, JOINTS, programme=Programme(environment="marine-atmosphere-0-100-m"))


@pytest.fixture(scope="module")
def document(catalogue: Catalogue) -> dict[str, Any]:
    offered = [
        Substitute("a", Part("a", text="CW024A")),
        Substitute("b", Part("b")),
        Substitute("c", Part("c", text="EN AW-6082-T6")),
    ]
    before, found = check_substitutes(ASSEMBLY, "clip", offered, catalogue)
    return substitution_document(before, found, "clip", DEFAULT_HOUSE_POLICY)


def test_the_decision_comes_with_the_rule_that_made_it(document: dict[str, Any]) -> None:
    copper, nothing, same = document["substitutes"]
    assert copper["decision"] == "reject"
    assert copper["decided_by"]["code"] == "becomes-unsuitable"
    assert document["policy"]["acceptance"]["reject_on"][0] == "becomes-unsuitable"
    assert (nothing["surface"], nothing["match"], nothing["question"]) == (None, None, None)
    assert same["decided_by"]["code"] == "undetermined"


def test_joints_are_worst_first_with_both_states(document: dict[str, Any]) -> None:
    copper = document["substitutes"][0]
    assert [row["joint"] for row in copper["joints"]] == ["1", "2"]
    worse, open_ = copper["joints"]
    assert (worse["change"], worse["before"]["verdict"] != "unsuitable", worse["after"]["verdict"]) == (
        "worse",
        True,
        "unsuitable",
    )
    assert len(worse["after"]["answers_sha256"]) == 1
    assert (open_["change"], open_["after"]["anode"], open_["after"]["conditions"]) == (
        "undetermined",
        None,
        [],
    )
    assert "names no surface" in open_["after"]["why"]
    assert copper["totals"] == {"better": 0, "same": 0, "undetermined": 1, "worse": 1}


def test_the_hash_is_that_of_the_rest(document: dict[str, Any]) -> None:
    body = {name: value for name, value in document.items() if name != "sha256"}
    assert document["sha256"] == hashlib.sha256(canonical(body)).hexdigest()
