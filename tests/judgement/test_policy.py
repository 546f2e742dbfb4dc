from __future__ import annotations

from dataclasses import replace

import pytest

from service.judgement.couples import Couple, Function
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.severity import Severity
from tests.factories.couples import ALUMINIUM, COPPER


def test_default_says_that_it_is_a_house_rule() -> None:
    assert DEFAULT_POLICY.name == "house rule"


def test_a_bound_belongs_to_the_milder_word() -> None:
    none, slight, moderate = DEFAULT_POLICY.severity_bounds
    assert DEFAULT_POLICY.severity(none) is Severity.NONE
    assert DEFAULT_POLICY.severity(slight) is Severity.SLIGHT
    assert DEFAULT_POLICY.severity(moderate) is Severity.MODERATE
    assert DEFAULT_POLICY.severity(moderate * 1.01) is Severity.SEVERE


def test_the_tightest_function_sets_the_allowance() -> None:
    both = DEFAULT_POLICY.allowance_um((Function.STRUCTURAL, Function.SIGNAL_CONTACT))
    assert both == DEFAULT_POLICY.allowance_um((Function.SIGNAL_CONTACT,))


def test_without_a_function_the_joint_is_structural() -> None:
    assert DEFAULT_POLICY.allowance_um(()) == DEFAULT_POLICY.allowance_um((Function.STRUCTURAL,))


def test_every_function_has_an_allowance() -> None:
    assert set(Policy().section_allowances_um) == set(Function)


@pytest.mark.parametrize(
    "change", [{"name": "mine"}, {"default_design_life_years": 5.0}, {"limits_V": {"harsh": 0.2}}]
)
def test_the_digest_follows_the_content(change: dict[str, object]) -> None:
    assert replace(DEFAULT_POLICY, **change).digest() != DEFAULT_POLICY.digest()  # type: ignore[arg-type]
    assert Policy().digest() == DEFAULT_POLICY.digest()


def test_what_a_couple_states_goes_before_the_house() -> None:
    couple = Couple(ALUMINIUM, COPPER, design_life_years=3.0, section_allowance_um=40.0)
    assert DEFAULT_POLICY.life_years(couple) == 3.0
    assert DEFAULT_POLICY.section_allowance_um(couple) == 40.0


def test_the_house_speaks_for_a_couple_that_states_nothing() -> None:
    couple = Couple(ALUMINIUM, COPPER, functions=(Function.SEAL,))
    assert DEFAULT_POLICY.life_years(couple) == DEFAULT_POLICY.default_design_life_years
    assert DEFAULT_POLICY.section_allowance_um(couple) == DEFAULT_POLICY.allowance_um((Function.SEAL,))
