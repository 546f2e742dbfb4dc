from __future__ import annotations

from dataclasses import replace

from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY, HousePolicy
from service.judgement import Verdict


def test_the_hash_is_that_of_the_content() -> None:
    assert HousePolicy("a").sha256 == HousePolicy("a").sha256
    assert HousePolicy("a").sha256 != HousePolicy("b").sha256
    bands = replace(DEFAULT_HOUSE_POLICY.bands, severity_bounds=(0.2, 0.6, 3.0))
    assert replace(DEFAULT_HOUSE_POLICY, bands=bands).sha256 != DEFAULT_HOUSE_POLICY.sha256


def test_the_default_accepts_what_the_verdicts_accept() -> None:
    (limit,) = DEFAULT_HOUSE_POLICY.limits
    assert limit.accepted_verdicts == (Verdict.SUITABLE, Verdict.CONDITIONAL)
    assert DEFAULT_HOUSE_POLICY.document()["name"] == "default"
